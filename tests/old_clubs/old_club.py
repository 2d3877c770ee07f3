"""A copy of an old club, and what is said of it now: the one place here that knows the code."""

import datetime as dt
import re
import shutil
import unicodedata
from collections.abc import Iterator
from pathlib import Path
from types import SimpleNamespace

import pytest

from classclock.commands.command_line import main as command_line
from tests.old_clubs.said import Said, differences, read_said

CLUBS = {said.parent.name: said.parent for said in sorted(Path(__file__).parent.glob("*/said"))}
_DATETIME_MODULE = "classclock.clock.source.dt"
"""What the one door of time asks what day it is."""
_TODAY = "2026-02-06T12:00:00"
"""Wherever the machine stands."""


def hold_the_day(monkeypatch: pytest.MonkeyPatch) -> None:
    """Make today the day on which version 1 was asked, and the terminal as wide as its was."""
    that_day = SimpleNamespace(now=lambda: dt.datetime.fromisoformat(_TODAY))
    monkeypatch.setattr(
        _DATETIME_MODULE, SimpleNamespace(datetime=that_day, timedelta=dt.timedelta)
    )
    monkeypatch.setenv("COLUMNS", "120")
    for name in ("CLASSCLOCK_BOOK", "CLASSCLOCK_CLUB"):
        monkeypatch.delenv(name, raising=False)


class OldClub:
    def __init__(self, club: Path, there: Path, capsys: pytest.CaptureFixture[str]) -> None:
        """Copy the club into a folder `there`."""
        self.folder, self.out = there / "club", there / "out"
        self.said = club / "said"
        self._capsys = capsys
        shutil.copytree(club, self.folder, ignore=shutil.ignore_patterns("said"))

    def ask(self, *words: str) -> Said:
        """Run a command line, in which {club} and {out} stand for the two folders."""
        self.out.mkdir(exist_ok=True)
        paths = {"{club}": str(self.folder), "{out}": str(self.out)}
        status = command_line([_replaced(word, paths) for word in words])
        printed = self._capsys.readouterr()
        parts = {"stdout": printed.out, "stderr": printed.err}
        if any("{out}" in word for word in words):
            for path in filter(Path.is_file, self.out.rglob("*")):
                parts[path.relative_to(self.out).as_posix()] = path.read_text("utf-8")
        names = {path: name for name, path in paths.items()}
        kept = {name: _by_no_chance(_replaced(text, names)) for name, text in parts.items() if text}
        return Said(list(words), status, kept)

    def other_answers(self, said: Path, *, keep: bool = False) -> Iterator[str]:
        """Ask again what is in the folder `said`, in order; where the answer is another, in words.

        `keep` leaves what one command wrote for the next to find.
        """
        for path in sorted(said.glob("*.txt")):
            if not keep:
                shutil.rmtree(self.out, ignore_errors=True)
            then = read_said(path)
            for line in differences(then, self.ask(*then.command)):
                yield f"{path.relative_to(self.said.parent.parent).as_posix()}: {line}"

    def holds(self, name: str) -> list[Path]:
        """The files of the club, and those written from it, in which this name stands anyhow."""
        files = (path for path in (*self.folder.rglob("*"), *self.out.rglob("*")) if path.is_file())
        return [path for path in files if _folded(name) in _folded(_without_escapes(path))]


def _without_escapes(path: Path) -> str:
    raw = path.read_bytes().decode("utf-8", "replace")
    return re.sub(r"\\u([0-9a-f]{4})", lambda code: chr(int(code[1], 16)), raw)


def _folded(text: str) -> str:
    return unicodedata.normalize("NFC", text).casefold()


def _replaced(text: str, by: dict[str, str]) -> str:
    for old, new in by.items():
        text = text.replace(old, new)
    return text


def _by_no_chance(text: str) -> str:
    return re.sub(r"\berased-[0-9a-f]{12}\b", "erased-0", text)
