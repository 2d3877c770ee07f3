"""The classes of the last weeks from the club's folder, and the plans with a date to come.

Files are told apart by the date in their name: those of other weeks are never opened.
"""

import codecs
import datetime as dt
import json
import os
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from msgspec import Struct

from classclock.book.files.class_plans import plan_in, read_again
from classclock.book.files.saved_results import read_results
from classclock.club import folder as club_folder
from classclock.planning.patterns import Held, held
from classclock.planning.weeks import first_day, last_day
from classclock.units.loads import Unit

_DATED = re.compile(r"(\d{4}-\d\d-\d\d)-\d{4}-.*\.json")
_JOURNAL = re.compile(rb'^ "journal": ("(?:[^"\\]|\\.)*")', re.MULTILINE)
_DATE = re.compile(rb"^[ \t]*date[ \t]*=[ \t]*(\d{4}-\d\d-\d\d)[ \t\r]*(?:#.*)?$", re.MULTILINE)
_HEAD = 4096
"""Bytes in which a results file names its journal, and a plan its date."""
_LARGEST = 256 * 1024
"""Bytes of a plan, as `plan.reading` has them."""


class ReadWeeks(Struct, frozen=True):
    held: tuple[Held, ...]
    planned: tuple[Held, ...]
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


def _class_of(folder: Path, results: Path, day: dt.date) -> tuple[Held, bool] | None:
    """One class, and whether its plan was there."""
    journal = _journal_of(results)
    plan = plan_in(club_folder.journals(folder) / journal) if journal else None
    if plan is not None:
        return held(day, plan), True
    document = read_results(results)
    return None if document is None else (_by_results(day, document), False)


def _journal_of(results: Path) -> str:
    """The file name of its journal; empty where none is said."""
    try:
        with results.open("rb") as opened:
            match = _JOURNAL.search(opened.read(_HEAD))
        name = json.loads(match[1]) if match else (read_results(results) or {}).get("journal")
    except (OSError, ValueError):
        return ""
    return Path(name).name if isinstance(name, str) else ""


def _by_results(day: dt.date, document: dict[str, Any]) -> Held:
    pieces = [piece for piece in document["pieces"] if isinstance(piece, dict)]
    lifts = [piece for piece in pieces if _by_load(piece)]
    names = tuple(dict.fromkeys(lift for one in lifts if isinstance(lift := one.get("lift"), str)))
    timed = [piece for piece in pieces if not _by_load(piece)]
    hard = ([one for one in timed if one.get("benchmark")] or timed)[-1:]
    seconds = hard[0].get("length_s") if hard else None
    length = seconds * 1000 if isinstance(seconds, int) else None
    return Held(day, document["title"], names, length, names)


def _by_load(piece: dict[str, Any]) -> bool:
    lanes = piece.get("lanes")
    tried = isinstance(lanes, list) and any(
        isinstance(lane, dict) and lane.get("attempts") for lane in lanes
    )
    return tried or bool(piece.get("lift") and piece.get("sets"))


def _planned(plans: Path, today: dt.date, unit: Unit) -> Iterator[Held]:
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
        opened = os.open(path, os.O_RDONLY | os.O_NONBLOCK)  # a pipe must not hold us up
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
