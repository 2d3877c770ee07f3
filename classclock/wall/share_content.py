"""The ways to share what is short, in lines: for the board, and for "who is here"."""

from collections.abc import Iterator, Sequence
from textwrap import wrap
from typing import TYPE_CHECKING

from msgspec import Struct

from classclock.tally.decide_groups import SharedWay
from classclock.tally.record import ClassRecord
from classclock.units.printable import printable

if TYPE_CHECKING:
    from classclock.planning.equipment_offers import Offer  # loaded only where equipment is counted


class ShareLine(Struct, frozen=True):
    text: str
    bold: bool = False


def share_lines(
    asked: "Offer", holds: SharedWay, columns: int, *, brief: bool = False
) -> Iterator[ShareLine]:
    """What is short, then each way with its digit; what holds now is in bold."""
    who = f"{asked.name}, {asked.people} people"
    head = f"{who}: {asked.short}" if asked.short else who
    yield from broken("", (head, asked.otherwise), columns)
    if asked.ways:
        for number, way in enumerate(asked.ways, start=1):
            words = way.brief if brief else way.words
            yield from broken(f"{number}  ", (words,), columns, bold=_alike(way.shared, holds))
        as_planned = _alike(SharedWay(), holds)
        yield from broken("0  ", (asked.planned,), columns, bold=as_planned)


def shared_now(record: ClassRecord) -> SharedWay:
    """How the segment on the board is shared."""
    index = record.chosen.segment
    return SharedWay(
        record.shared.get(index), record.partners.get(index, ()), record.teams.get(index)
    )


def _alike(one: SharedWay, other: SharedWay) -> bool:
    """Whether both are the same way; a lot that is drawn anew is, whoever it brings together."""
    way, other_way = one.sharing, other.sharing
    teams, other_teams = one.teams, other.teams
    return (
        (way.way if way else "") == (other_way.way if other_way else "")
        and {frozenset(group) for group in one.partners}
        == {frozenset(group) for group in other.partners}
        and (teams.how if teams else "") == (other_teams.how if other_teams else "")
    )


def broken(
    mark: str, texts: Sequence[str], columns: int, *, bold: bool = False
) -> Iterator[ShareLine]:
    """The texts in lines of this width; the first line of each begins with the mark."""
    for text in texts:
        later = " " * (len(mark) or 2)
        for line in wrap(printable(mark + text, 400), columns, subsequent_indent=later):
            yield ShareLine(line, bold)
