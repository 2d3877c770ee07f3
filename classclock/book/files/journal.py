"""The live record of a class: one event a line, each with its moment, in order.

Three other kinds of lines tell no event. Anchors tie the class's clock to the machine's: one when
the class is opened, one each time it is rejoined. A line that says what is lost stands where a
window was closed though the disk had refused some of its class, one that says where it went on
where the coach took another place for it. The file can be read while a class runs.
"""

import json
from collections.abc import Iterable
from datetime import datetime, timedelta
from pathlib import Path

from msgspec import Struct, convert, to_builtins

from classclock.book.files.event_lines import LaterEventError, event_of
from classclock.machine.boot import same_boot
from classclock.machine.plain_file import read_file
from classclock.tally.events import ClassClosed, ClassOpened, Event, SegmentChosen
from classclock.units.printable import printable

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


class Lost(Struct, frozen=True):
    """Events that were shown, and were in memory only when the window was closed."""

    events: int
    lane: tuple[str, ...]
    """The ids of the lanes that they were of, each once."""
    since: str
    """The time of day of the first, RFC 3339 with offset."""
    wall: str
    """When the window was closed."""

    def line(self) -> bytes:
        return json.dumps({"lost": to_builtins(self)}, separators=(",", ":")).encode() + b"\n"


class MovedTo(Struct, frozen=True):
    """The whole class, and what comes after this, is in another file."""

    to: str
    wall: str

    def line(self) -> bytes:
        return json.dumps({"moved": to_builtins(self)}, separators=(",", ":")).encode() + b"\n"


class Journal(Struct, frozen=True):
    """A journal as read. `whole` is how many bytes of it are whole lines."""

    path: Path
    anchors: tuple[Anchor, ...]
    events: tuple[Event, ...]
    whole: int
    torn: bool
    last_wall: str
    """The time of day beside the last line."""
    lost: tuple[Lost, ...] = ()
    """What is known to be missing in it."""
    moved: MovedTo | None = None
    """Where the class went on instead."""

    @property
    def opened(self) -> ClassOpened:
        first = self.events[0]
        if not isinstance(first, ClassOpened):
            raise JournalUnreadableError(self.path, 2, "the class's opening is missing")
        return first

    @property
    def unfinished(self) -> bool:
        """Whether the class could be rejoined: nobody closed it since a segment was chosen."""
        return _left_open(type(event).__name__ for event in reversed(self.events))

    def time_of_day(self, at: int) -> datetime:
        """The time of day at a moment of the class, as the anchor before it has it."""
        anchor = next((one for one in reversed(self.anchors) if one.at <= at), self.anchors[0])
        gone = timedelta(milliseconds=(at - anchor.at) / anchor.rate)
        return datetime.fromisoformat(anchor.wall) + gone

    def moment(self, *, boot: str, raw: int, wall: datetime) -> tuple[int, bool]:
        """The class's moment now, in ms, and whether it had to be taken from the time of day.

        In the same boot the raw clock is right, whatever happened to the time of day; otherwise
        the time of day since the last line is all there is.
        """
        anchor = self.anchors[-1]
        last = max((event.at for event in self.events), default=anchor.at)
        if same_boot(boot, anchor.boot) and raw >= anchor.raw:
            return max(last, anchor.at_raw(raw)), False
        away = (wall - datetime.fromisoformat(self.last_wall)) // timedelta(milliseconds=1)
        return last + max(0, away) * anchor.rate, True


class JournalUnreadableError(Exception):
    """A line of the journal can't be read by this version; `str` says which and why."""

    def __init__(self, path: Path, line: int, why: str) -> None:
        super().__init__(f"{path}:{line}: {why}")
        self.line, self.why = line, why


class JournalTooNewError(JournalUnreadableError):
    """A later version wrote the line: nothing is wrong with it."""

    def __init__(self, path: Path, line: int, what: str, *, unfinished: bool) -> None:
        why = f"{what} was written by a later classclock: update this one"
        super().__init__(path, line, why)
        self.unfinished = unfinished
        """As a journal's, as far as this version can tell."""


def read_journal(path: Path) -> Journal:
    """Read a journal. A last line that was torn is left out, and said so by `torn`.

    Raises:
        JournalTooNewError: a later version wrote a line of it.
        JournalUnreadableError: another can't be read though it wasn't torn, or none is there.
        OSError: the file can't be read.
    """
    if path.stat().st_size > MAX_BYTES:
        raise JournalUnreadableError(path, 1, "this file is too large for a journal")
    return journal_of(path, read_file(path))


def journal_of(path: Path, data: bytes, before: Journal | None = None) -> Journal:
    """What a journal's bytes tell, of which `before` is known: the first `before.whole` of them.

    Raises:
        JournalTooNewError, JournalUnreadableError: as `read_journal` does.
    """
    begin = before.whole if before is not None else 0
    whole = data.rfind(b"\n") + 1
    torn = whole < len(data)
    anchors = list(before.anchors) if before is not None else []
    events = list(before.events) if before is not None else []
    asides: list[Lost | MovedTo] = []
    last_wall = before.last_wall if before is not None else ""
    known = data.count(b"\n", 0, begin)
    lines = data[begin:whole].split(b"\n")[:-1]
    for number, raw_line in enumerate(lines, start=known + 1):
        try:
            line = json.loads(raw_line)
        except (ValueError, RecursionError) as error:
            if number == known + len(lines):  # its end came to the disk without its middle
                torn, whole = True, whole - len(raw_line) - 1
                break
            raise JournalUnreadableError(path, number, f"can't be read: {error}") from None
        try:
            last_wall = _take(line, anchors, events, asides)
        except LaterEventError as what:
            left_open = _left_open(map(_event_name, reversed(lines)))
            raise JournalTooNewError(path, number, str(what), unfinished=left_open) from None
        except (ValueError, TypeError) as error:
            raise JournalUnreadableError(path, number, f"can't be read: {error}") from None
    if not anchors or not events:
        raise JournalUnreadableError(path, 1, "no class was opened in it")
    lost = tuple(one for one in asides if isinstance(one, Lost))
    moved = next((one for one in reversed(asides) if isinstance(one, MovedTo)), None)
    if before is not None:
        lost, moved = (*before.lost, *lost), moved or before.moved
    journal = Journal(path, tuple(anchors), tuple(events), whole, torn, last_wall, lost, moved)
    _ = journal.opened
    return journal


def _left_open(latest_first: Iterable[str]) -> bool:
    """Whether nobody closed the class since a segment was chosen, by its events' names."""
    for name in latest_first:
        if name == ClassClosed.__name__:
            return False
        if name == SegmentChosen.__name__:
            return True
    return True


def _event_name(raw_line: bytes) -> str:
    """The name of the event on a line that needn't be one."""
    try:
        line = json.loads(raw_line)
    except (ValueError, RecursionError):
        return ""
    return str(line.get("event", "")) if isinstance(line, dict) else ""


def _take(
    line: object, anchors: list[Anchor], events: list[Event], asides: list[Lost | MovedTo]
) -> str:
    """Add what the line says to what those before it said; the time of day beside it."""
    if not isinstance(line, dict):
        raise ValueError("it is no line of a journal")
    if "anchor" in line:
        anchor = _anchor(line["anchor"])
        anchors.append(anchor)
        return anchor.wall
    if "lost" in line:
        lost = convert(line["lost"], Lost)
        datetime.fromisoformat(lost.since)
        return _aside(lost, asides)
    if "moved" in line:
        return _aside(convert(line["moved"], MovedTo), asides)
    event = event_of(line)  # a later version's may differ in all else too
    if line.get("n") != len(events):
        raise ValueError(f"event {len(events)} should stand here, not {line.get('n')!r}")
    wall = str(line.get("wall"))
    datetime.fromisoformat(wall)
    events.append(event)
    return wall


def _aside(aside: Lost | MovedTo, asides: list[Lost | MovedTo]) -> str:
    datetime.fromisoformat(aside.wall)
    asides.append(aside)
    return aside.wall


def _anchor(fields: object) -> Anchor:
    if not isinstance(fields, dict):
        raise ValueError("an anchor holds readings")
    if more := fields.keys() - set(Anchor.__struct_fields__):
        raise LaterEventError(f'an anchor with "{printable(min(more))}"')
    anchor = Anchor(**fields)
    datetime.fromisoformat(anchor.wall)
    if not all(isinstance(number, int) for number in (anchor.raw, anchor.at, anchor.rate)):
        raise ValueError("an anchor's readings are whole numbers")
    return anchor
