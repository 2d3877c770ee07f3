"""The classes of the last weeks from the club's folder, and the plans with a date to come.

Files are told apart by the date in their name: those of other weeks are never opened.
"""

import codecs
import datetime as dt
import os
import re
from collections.abc import Iterator
from pathlib import Path

from msgspec import Struct

from classclock.book.files.class_plans import plan_in, read_again
from classclock.book.files.saved_results import ResultsError, journal_of, read_results
from classclock.club import folder as club_folder
from classclock.machine.opening import WITHOUT_WAITING, open_raw
from classclock.planning.patterns import ClassHeld, held
from classclock.planning.weeks import first_day, last_day
from classclock.records.document import PieceResults, ResultsDocument, known
from classclock.units.loads import Unit

_DATED = re.compile(r"(\d{4}-\d\d-\d\d)-\d{4}-.*\.json")
_DATE = re.compile(rb"^[ \t]*date[ \t]*=[ \t]*(\d{4}-\d\d-\d\d)[ \t\r]*(?:#.*)?$", re.MULTILINE)
_HEAD = 4096
"""Bytes in which a plan says its date."""
_LARGEST = 256 * 1024
"""Bytes of a plan, as `plan.reading` has them."""


class ReadWeeks(Struct, frozen=True):
    held: tuple[ClassHeld, ...]
    planned: tuple[ClassHeld, ...]
    without_plan: int
    """Classes whose journal is gone: they count by what their results say."""


def read_weeks(folder: Path, today: dt.date, unit: Unit = "kg") -> ReadWeeks:
    """Read the classes with results of these weeks, and the plans in `plans` with a day to come.

    What can't be read is passed over.
    """
    found = [_class_of(folder, path, day) for path, day in _results_of(folder, today)]
    classes = [one for one in found if one is not None]
    return ReadWeeks(
        tuple(one for one, _ in classes),
        tuple(_planned(folder / "plans", today, unit)),
        sum(not planned for _, planned in classes),
    )


def _results_of(folder: Path, today: dt.date) -> Iterator[tuple[Path, dt.date]]:
    results = club_folder.results(folder)
    since, until = first_day(today).isoformat(), today.isoformat()
    for name in _names(results):
        if since <= name[:10] <= until and (match := _DATED.fullmatch(name)):
            try:
                yield results / name, dt.date.fromisoformat(match[1])
            except ValueError:
                continue  # no such day: not a file of ours


def _names(folder: Path) -> list[str]:
    try:
        return sorted(os.listdir(folder))  # noqa: PTH208  25,000 names: no Path for each of them
    except OSError:
        return []


def _class_of(folder: Path, results: Path, day: dt.date) -> tuple[ClassHeld, bool] | None:
    """One class, and whether its plan was there."""
    journal = Path(journal_of(results)).name
    plan = plan_in(club_folder.journals(folder) / journal) if journal else None
    if plan is not None:
        return held(day, plan), True
    try:
        return _by_results(day, read_results(results)), False
    except ResultsError:
        return None


def _by_results(day: dt.date, document: ResultsDocument) -> ClassHeld:
    lifts = [piece for piece in document.pieces if _by_load(piece)]
    names = tuple(dict.fromkeys(lift for one in lifts if (lift := known(one.lift, None))))
    timed = [piece for piece in document.pieces if not _by_load(piece)]
    hard = ([one for one in timed if one.benchmark] or timed)[-1:]
    seconds = known(hard[0].length_s, None) if hard else None
    length = None if seconds is None else seconds * 1000
    return ClassHeld(day, document.title, names, length, names)


def _by_load(piece: PieceResults) -> bool:
    tried = any(lane.attempts for lane in piece.lanes)
    return tried or bool(known(piece.lift, None) and known(piece.sets, ()))


def _planned(plans: Path, today: dt.date, unit: Unit) -> Iterator[ClassHeld]:
    for name in _names(plans):
        if not name.endswith(".toml"):
            continue
        path = f"{plans}{os.sep}{name}"
        if not _coming(_date_of(_bytes_of(path, _HEAD)), today):
            continue
        text = _bytes_of(path, _LARGEST).decode("utf-8-sig", "replace")
        plan = read_again(text.replace("\r\n", "\n"), unit)
        if plan is not None and plan.date is not None:
            yield held(plan.date, plan)


def _date_of(head: bytes) -> str:
    """The date that a plan begins with, as in 2026-11-24; empty where it has none.

    A plan's own keys stand before its first table.
    """
    match = _DATE.search(head.removeprefix(codecs.BOM_UTF8).partition(b"\n[")[0])
    return match[1].decode() if match else ""


def _bytes_of(path: str, most: int) -> bytes:
    """The first bytes of a file; none of one that can't be read."""
    try:
        opened = open_raw(path, os.O_RDONLY | WITHOUT_WAITING)  # a pipe must not hold us up
    except OSError:
        return b""
    try:
        return os.read(opened, most)
    except OSError:
        return b""
    finally:
        os.close(opened)


def _coming(written: str, today: dt.date) -> bool:
    return today.isoformat() <= written <= last_day(today).isoformat()
