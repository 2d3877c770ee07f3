"""What can be opened from home: a class that was cut off, and the plans."""

from datetime import datetime
from pathlib import Path
from typing import Literal

from msgspec import Struct

from classclock.book.files.journal import Journal
from classclock.book.files.unfinished import LaterJournal, unfinished
from classclock.club import folder as club_folder
from classclock.club.plan_files import read_plan
from classclock.plan.outline import outline
from classclock.plan.plan_file import PlanFile
from classclock.units.loads import Unit
from classclock.units.printable import printable
from classclock.units.times import show_time


class HomeEntry(Struct, frozen=True):
    """One line of home. `opens` is what enter gives; None can't be opened, and `words` says why.

    `instead` is what to do before it can be.
    """

    title: str
    words: str
    length: str = ""
    opens: PlanFile | Path | None = None
    kind: Literal["plan", "unfinished", "faulty", "unread"] = "plan"
    instead: str = "put it right"


def unread(path: Path) -> HomeEntry:
    """A plan that hasn't been read yet."""
    return HomeEntry(printable(path.stem), "", kind="unread")


def plan_entry(path: Path, unit: Unit) -> HomeEntry:
    """A plan, read: its length and its pieces; or the first thing that is wrong with it."""
    plan, findings = read_plan(path, unit)
    if plan is None:
        first = next(finding for finding in findings if finding.level == "error")
        where = f"line {first.line}: " if first.line else ""
        words = printable(f"{where}{first.what}. {first.instead}.", 300)
        return HomeEntry(printable(path.name), words, kind="faulty")
    told = outline(plan)
    pieces = ", ".join(segment.name for segment in told.segments if segment.scored)
    text = path.read_text(encoding="utf-8-sig")
    return HomeEntry(
        printable(plan.title, 80),
        printable(pieces or "nothing scored", 200),
        show_time(told.total_with_count_ins_ms),
        PlanFile(path.stem, text, plan),
    )


def unfinished_entries(folder: Path, now: datetime) -> tuple[HomeEntry, ...]:
    """The classes that can be rejoined, the latest first."""
    return tuple(map(_unfinished, unfinished(club_folder.journals(folder), now)))


def _unfinished(journal: Journal | LaterJournal) -> HomeEntry:
    if isinstance(journal, LaterJournal):
        title, words = printable(journal.path.name), printable(journal.why, 300)
        return HomeEntry(title, words, kind="faulty", instead="update classclock")
    began = datetime.fromisoformat(journal.anchors[0].wall)
    stopped = datetime.fromisoformat(journal.last_wall)
    name = printable(journal.opened.plan_name)
    title = f"{name}, class of {began:%H:%M}, cut off at {stopped:%H:%M}"
    return HomeEntry(title, "enter rejoins", opens=journal.path, kind="unfinished")
