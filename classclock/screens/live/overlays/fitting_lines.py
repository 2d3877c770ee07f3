"""What fits the class to the clock, in lines: over the board, a digit for each way."""

from collections.abc import Iterator

from msgspec import Struct

from classclock.live.session import Session
from classclock.plan.formats.fit import length_of_planned
from classclock.planning.fitting import ClassFit, FittingWay, class_fit, fits_to_take_back
from classclock.tally.fitted_words import fitted_words
from classclock.tally.record import ClassRecord
from classclock.units.printable import printable
from classclock.units.times import show_time
from classclock.wall.share_content import ShareLine, broken
from classclock.wall.time_words import minutes, time_left

_LONGEST_NAME, _SHORT_NAME = 28, 16


class FittingContent(Struct, frozen=True):
    fit: ClassFit
    names: tuple[str, ...]
    """Of the segments of the ways."""
    taken: tuple[tuple[int, str], ...]
    """What was taken and can be taken back, the newest first: the segment, and how it is now."""


def fitting_now(session: Session) -> FittingContent | None:
    """How the class stands at this moment; None where nobody said when it ends."""
    record = session.live.record
    left = time_left(session.source.wall(), record.ends)
    return None if left is None else fitting_content(record, left)


def fitting_content(record: ClassRecord, left: int) -> FittingContent:
    """`left` is the milliseconds until the class's end."""
    fit = class_fit(record, left)
    names = tuple(_name(record, way.segment) for way in fit.ways)
    taken = tuple((index, _now(record, index)) for index in fits_to_take_back(record))
    return FittingContent(fit, names, taken)


def _name(record: ClassRecord, index: int) -> str:
    return printable(record.plan.segment[index].name, _LONGEST_NAME)


def _now(record: ClassRecord, index: int) -> str:
    return f"{_name(record, index)}, {fitted_words(record, index)}"


def time_line(fit: ClassFit) -> str:
    """`37 min left, the plan needs 45: 8 min too long`."""
    then = f"{minutes(fit.over)} min too long" if fit.over else "it ends in time"
    left, needs = minutes(fit.left), minutes(fit.needs)
    return f"{left} min left, the plan needs {needs}: {then}"


def fitting_lines(
    content: FittingContent, columns: int, *, brief: bool = False
) -> Iterator[ShareLine]:
    """How the class stands for time, each way with its digit, and what 0 takes back."""
    fit = content.fit
    yield from broken("", (time_line(fit),), columns, bold=True)
    if fit.over and not fit.ways:
        yield from broken("", (_NOTHING,), columns)
    elif fit.over and not fit.enough:
        yield from broken("", (_TOGETHER,), columns)
    for number, (way, name) in enumerate(zip(fit.ways, content.names, strict=True), start=1):
        yield from broken(f"{number}  ", (_way(way, name, brief=brief),), columns)
    taken = "; then ".join(now for _, now in content.taken[: 1 if brief else None])
    if taken:
        yield from broken("0  ", (f"takes back {taken}",), columns)


_NOTHING = (
    "nothing more makes sense: no time goes under half of what was planned, and the warm-up stays"
)
_TOGETHER = "none of these is enough alone: take one, see what then fits"


def _way(way: FittingWay, name: str, *, brief: bool) -> str:
    how = "leave it out" if way.fit.left_out else length_of_planned(way.length, way.planned)
    if way.fit.repeat is not None and not brief:
        how = f"{way.fit.repeat} times, {how}"
    if not brief or way.fit.left_out:
        how = f"{how}, {show_time(way.saves)} less"
    over = minutes(way.over)
    if brief:
        return f"{printable(name, _SHORT_NAME)}: {how}" + (f"; {over} min over" if over else "")
    return f"{name}: {how}" + (f"; still {over} min too long" if over else "")
