"""The live record of a class: one event a line, each with its moment, in order.

Lines of another kind, anchors, tie the class's clock to the machine's: one when the class is
opened, one each time it is rejoined. The file can be read while a class runs.
"""

import json
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from msgspec import Struct, to_builtins

from classclock.book.files.event_lines import event_of
from classclock.tally.events import ClassClosed, ClassOpened, Event, SegmentChosen

MAX_BYTES = 64_000_000


class Anchor(Struct, frozen=True):
    """At the raw reading `raw` (ns, of the boot `boot`) the class's clock read `at` (ms)."""

    boot: str
    raw: int
    at: int
    wall: str
    """The time of day then, RFC 3339 with offset."""
    rate: int = 1
    check_clock: bool = False
    """The moment was taken from the time of day, since the machine had been started anew."""

    def line(self) -> bytes:
        return json.dumps({"anchor": to_builtins(self)}, separators=(",", ":")).encode() + b"\n"

    def at_raw(self, raw: int) -> int:
        """The class's moment at a raw reading of the same boot, to the nearest ms.

        Cut down, it would lose half a millisecond each time that the class is rejoined.
        """
        return self.at + ((raw - self.raw) * self.rate + 500_000) // 1_000_000


class Journal(Struct, frozen=True):
    """A journal as read. `whole` is how many bytes of it are whole lines."""

    path: Path
    anchors: tuple[Anchor, ...]
    events: tuple[Event, ...]
    whole: int
    torn: bool
    last_wall: str
    """The time of day beside the last line."""

    @property
    def opened(self) -> ClassOpened:
        first = self.events[0]
        if not isinstance(first, ClassOpened):
            raise JournalDamagedError(self.path, 2, "the class's opening is missing")
        return first

    @property
    def unfinished(self) -> bool:
        """Whether the class could be rejoined: nobody closed it since a segment was chosen."""
        for event in reversed(self.events):
            if isinstance(event, ClassClosed):
                return False
            if isinstance(event, SegmentChosen):
                break
        return True

    def moment(self, *, boot: str, raw: int, wall: datetime) -> tuple[int, bool]:
        """The class's moment now, in ms, and whether it had to be taken from the time of day.

        In the same boot the raw clock is right, whatever happened to the time of day; otherwise
        the time of day since the last line is all there is.
        """
        anchor = self.anchors[-1]
        last = max((event.at for event in self.events), default=anchor.at)
        if boot == anchor.boot and raw >= anchor.raw:
            return max(last, anchor.at_raw(raw)), False
        away = (wall - datetime.fromisoformat(self.last_wall)) // timedelta(milliseconds=1)
        return last + max(0, away) * anchor.rate, True


class JournalDamagedError(Exception):
    """A line within the journal can't be read; `str` says which, in plain words."""

    def __init__(self, path: Path, line: int, why: str) -> None:
        super().__init__(f"{path}:{line}: {why}")
        self.line = line


def read_journal(path: Path) -> Journal:
    """Read a journal. A torn last line is left out, and said so by `torn`.

    Raises:
        JournalDamagedError: a line before the last can't be read, or nothing is there.
        OSError: the file can't be read.
    """
    if path.stat().st_size > MAX_BYTES:
        raise JournalDamagedError(path, 1, "this file is too large for a journal")
    data = path.read_bytes()
    whole = data.rfind(b"\n") + 1
    torn = whole < len(data)
    anchors: list[Anchor] = []
    events: list[Event] = []
    last_wall = ""
    lines = list(enumerate(data[:whole].split(b"\n")[:-1], start=1))
    for number, raw_line in lines:
        try:
            line = json.loads(raw_line)
            if not isinstance(line, dict):
                raise ValueError("not a journal line")  # noqa: TRY301  one handler for all
            if "anchor" in line:
                anchor = _anchor(line["anchor"])
                anchors.append(anchor)
                last_wall = anchor.wall
            else:
                last_wall = _take_event(line, events)
        except (ValueError, TypeError, RecursionError) as error:
            if number == lines[-1][0]:
                torn, whole = True, whole - len(raw_line) - 1
                break
            raise JournalDamagedError(path, number, f"can't be read: {error}") from None
    if not anchors or not events:
        raise JournalDamagedError(path, 1, "no class was opened in it")
    journal = Journal(path, tuple(anchors), tuple(events), whole, torn, last_wall)
    _ = journal.opened
    return journal


def _anchor(fields: dict[str, Any]) -> Anchor:
    anchor = Anchor(**fields)
    datetime.fromisoformat(anchor.wall)
    if not all(isinstance(number, int) for number in (anchor.raw, anchor.at, anchor.rate)):
        raise ValueError("an anchor's readings are whole numbers")
    return anchor


def _take_event(line: dict[str, Any], events: list[Event]) -> str:
    if line.get("n") != len(events):
        raise ValueError(f"event {len(events)} should stand here, not {line.get('n')!r}")
    wall = str(line.get("wall"))
    datetime.fromisoformat(wall)
    events.append(event_of(line))
    return wall
