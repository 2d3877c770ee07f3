"""The ways to share what is short, in lines: for the board, and for "who is here"."""

from collections.abc import Iterator, Sequence
from textwrap import wrap
from typing import TYPE_CHECKING

from msgspec import Struct

from classclock.tally.lanes import Sharing
from classclock.units.printable import printable

if TYPE_CHECKING:
    from classclock.planning.equipment_offers import Offer  # loaded only where equipment is counted

_TOGETHER = "all start together, as planned"


class ShareLine(Struct, frozen=True):
    text: str
    bold: bool = False


def share_lines(
    asked: "Offer", chosen: Sharing | None, columns: int, *, brief: bool = False
) -> Iterator[ShareLine]:
    """What is short, then each way with its digit; what holds now is in bold."""
    head = f"{asked.name}, {asked.people} people: {asked.short}"
    yield from broken("", (head, asked.otherwise), columns)
    if asked.ways:
        for number, way in enumerate(asked.ways, start=1):
            holds = chosen is not None and way.sharing.way == chosen.way
            yield from broken(
                f"{number}  ", (way.brief if brief else way.words,), columns, bold=holds
            )
        yield from broken("0  ", (_TOGETHER,), columns, bold=chosen is None)


def broken(
    mark: str, texts: Sequence[str], columns: int, *, bold: bool = False
) -> Iterator[ShareLine]:
    """The texts in lines of this width; the first line of each begins with the mark."""
    for text in texts:
        later = " " * (len(mark) or 2)
        for line in wrap(printable(mark + text, 400), columns, subsequent_indent=later):
            yield ShareLine(line, bold)
