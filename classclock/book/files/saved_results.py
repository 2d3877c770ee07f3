"""The one reader of results files: a class's whole results, or only which class it was."""

import json
import re
from datetime import datetime
from pathlib import Path

from msgspec import DecodeError, Raw, Struct, ValidationError
from msgspec.json import Decoder

from classclock.machine.plain_file import open_file, read_file
from classclock.records.document import VERSION, ResultsDocument


class ResultsError(ValueError):
    """A results file can't be used; `str` says which, and why, in plain words."""

    def __init__(self, path: Path, why: str) -> None:
        super().__init__(f"{path}: {why}")
        self.path, self.why = path, why


class NotResultsError(ResultsError):
    """It is none, or can't be read."""


class DamagedResultsError(ResultsError):
    """Something is missing in it, or isn't what it should be."""

    def __init__(self, path: Path, why: str, journal: str) -> None:
        super().__init__(path, why)
        self.journal = journal
        """The journal from which its scores can be worked out again."""


class LaterResultsError(ResultsError):
    """What it says is known to a later classclock only: it is left as it is."""


class _Head(Struct, kw_only=True):
    """What is read of a file that can't be read whole."""

    journal: str
    version: int = 1


class _Known(_Head, kw_only=True):
    """What tells results from any other file."""

    title: str
    started: str
    pieces: list[Raw]


_WHOLE = Decoder(ResultsDocument)
_HEAD = Decoder(_Head)
_KNOWN = Decoder(_Known)
# Not compiled before they are needed: every class loads this.
_JOURNAL = rb'^ "journal": ("(?:[^"\\]|\\.)*")'
_HEAD_BYTES = 4096
"""In which a results file, as it is written, names its journal."""
_MISSING = r"missing required field `(\w+)`"
_PLACE = r"(\w+)(?:\[[^\]]*\])*`$"


def read_results(path: Path) -> ResultsDocument:
    """A results file's content.

    Raises:
        ResultsError: it isn't one, is damaged, or was made by a later classclock.
    """
    try:
        data = read_file(path)
    except OSError:
        raise NotResultsError(path, "no results file") from None
    try:
        document = _WHOLE.decode(data)
        datetime.fromisoformat(document.started).timestamp()
    except (DecodeError, ValueError, OverflowError, RecursionError) as error:
        raise _refused(path, data, error) from None
    if (document.version or 1) > VERSION:
        raise _later(path)
    return document


def newest(folder: Path) -> ResultsDocument | None:
    """The results of the latest class in the folder; None where there are none.

    Raises:
        ResultsError: they are damaged, or were made by a later classclock.
    """
    found = newest_file(folder)
    return None if found is None else found[1]


def newest_file(folder: Path) -> tuple[Path, ResultsDocument] | None:
    """The same, with the file in which they are. Raises ResultsError."""
    for path in sorted(folder.glob("*.json"), reverse=True):
        try:
            return path, read_results(path)
        except NotResultsError:
            continue
    return None


def saved_for(journal: Path) -> tuple[Path, ResultsDocument] | None:
    """The results file of the class with this journal, from the folder beside the journals.

    Raises:
        ResultsError: it is damaged, or was made by a later classclock.
    """
    for path in sorted(journal.parent.parent.glob("results/*.json"), reverse=True):
        if journal_of(path) == journal.name:
            try:
                return path, read_results(path)
            except NotResultsError:
                continue
    return None


def journal_of(path: Path) -> str:
    """The file name of the journal that a results file belongs to; empty where it names none.

    Of a file as classclock writes it only the beginning is read.
    """
    try:
        with open_file(path) as opened:
            data = opened.read(_HEAD_BYTES)
            if match := re.search(_JOURNAL, data, re.MULTILINE):
                return str(json.loads(match[1]))
            return _HEAD.decode(data + opened.read()).journal
    except (OSError, ValueError, RecursionError):
        return ""


def _refused(path: Path, data: bytes, error: Exception) -> ResultsError:
    """Why a file that can't be read whole is refused."""
    try:
        if _HEAD.decode(data).version > VERSION:
            return _later(path)
        return DamagedResultsError(path, _in_words(error), _KNOWN.decode(data).journal)
    except (DecodeError, RecursionError):
        return NotResultsError(path, "no results file")


def _later(path: Path) -> LaterResultsError:
    return LaterResultsError(path, "made by a later classclock: update this one")


def _in_words(error: Exception) -> str:
    if isinstance(error, ValidationError):
        if missing := re.search(_MISSING, str(error)):
            return f"'{missing[1]}' is missing"
        if place := re.search(_PLACE, str(error)):
            return f"'{place[1]}' isn't what it should be"
        return "it isn't what it should be"
    if isinstance(error, DecodeError | RecursionError):
        return "not all of it is text"
    return "'started' is no day and time"
