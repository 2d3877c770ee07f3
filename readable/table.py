"""The table: how large each role's text is in each state, beside how large it could be."""

from collections.abc import Iterable, Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

from readable.bound import bounds, capital
from readable.finding import pieces, standing
from readable.heights import minutes
from readable.made_class import Kind, Seen, Size
from readable.reason import NOT_ALL, why_small
from readable.room_texts import Role, first
from readable.script import State


class Line(Struct, frozen=True):
    """One role on one screen; heights are a capital's, in rows, of the smallest of its texts."""

    kind: Kind
    state: State
    size: Size
    role: Role
    high: float
    """0 where one of its texts isn't there whole."""
    could_be: float
    reason: str | None = None
    """Why it is in one row, where that is right."""

    @property
    def share(self) -> float:
        """Of what it could be."""
        return self.high / self.could_be if self.could_be else 1.0

    @property
    def too_small(self) -> bool:
        """Whether it is one-row text, or not there, for no good reason."""
        return self.reason is None and self.small and self.role != "coach"

    @property
    def small(self) -> bool:
        """Whether it is one-row text, or not there."""
        return self.high < capital(3, self.kind.dots)


def lines(seen: Seen) -> Iterator[Line]:
    """One for each role that the room needs there."""
    every = pieces(seen)
    columns, rows = seen.size.columns, seen.size.rows
    could_be = bounds(seen.wanted, first(seen.state), columns, rows, seen.kind.dots)
    every_line = []
    for wanted in seen.wanted:
        if not wanted.texts:
            continue
        found = standing(every, wanted.texts)
        high = min(min((piece.high for piece in places), default=0.0) for places in found)
        bound = could_be.get(wanted.role, 0.0) if wanted.role != "coach" else 0.0
        every_line.append(Line(seen.kind, seen.state, seen.size, wanted.role, high, bound))
    small = [line.role for line in every_line if line.small and line.role != "coach"]
    there = [line.role for line in every_line if line.high]
    for line in every_line:
        if line.role not in small:
            yield line
        elif line.high:
            yield replace(line, reason=why_small(seen, line.role, small))
        else:
            last = not could_be and _is_last(line.role, there, first(seen.state))
            yield replace(line, reason=NOT_ALL if last else None)


def _is_last(role: Role, there: Iterable[Role], order: Sequence[Role]) -> bool:
    return all(order.index(one) < order.index(role) for one in there if one != "coach")


HEAD = (
    f"{'state':<17}{'window':<8}{'lanes':>5} {'names':>5} {'dots':<10}{'':<9}"
    f"{'rows':>6}{'at 10 m':>9}{'could be':>10}{'at 10 m':>9}"
)


def shown(line: Line) -> str:
    """A line of the table."""
    kind, rows = line.kind, line.size.rows
    could_be = (
        f"{line.could_be:>10.1f}{minutes(line.could_be, rows):>8.1f}'"
        if line.could_be
        else f"{'?':>10}"
    )
    return (
        f"{line.state:<17}{line.size!s:<8}{kind.lanes:>5} {kind.letters or 'mixed':>5} "
        f"{kind.dots:<10}{line.role:<9}{line.high:>6.1f}{minutes(line.high, rows):>8.1f}'"
        f"{could_be}{'  too small' if line.too_small else ''}"
        f"{f'  {line.reason}' if line.reason else ''}"
    ).rstrip()


def worst_first(every: Iterable[Line]) -> list[Line]:
    """First what is least of what it could be, then what is least seen."""
    return sorted(every, key=lambda line: (line.share, minutes(line.high, line.size.rows)))
