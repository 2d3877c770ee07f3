"""Who comes back after weeks, while the coach says who is here: read once, and what is given."""

from collections.abc import Sequence
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import UNSET
from msgspec.structs import replace

from classclock.club import folder as club_folder
from classclock.planning.portions import LessOffer, less_offer
from classclock.report.return_words import less_lines, return_words
from classclock.screens.pages.who.who_list import WhoList
from classclock.tally.lineup import draw_lanes
from classclock.tally.piece import Piece

if TYPE_CHECKING:
    from classclock.book.asking.return_reading import Returns  # loads sqlalchemy

KEY = "5"
"""Behind the marks, which have the digits before it."""


class ReturnsHere:
    """For the coach's eyes alone; who asks sees to it that no room reads along."""

    def __init__(self, who: WhoList) -> None:
        self._who = who
        self._known: Returns | None = None

    def learn(self, read: "Returns") -> None:
        """Take up what was read."""
        known = self._known or read
        past = {**known.basis.past, **read.basis.past}
        basis = replace(read.basis if read.basis.past else known.basis, past=past)
        self._known = replace(known, weeks={**known.weeks, **read.weeks}, basis=basis)

    def words(self, ident: str) -> str:
        """`first in 5 weeks`; empty for whoever comes as ever."""
        weeks = self._known.weeks.get(ident) if self._known else None
        return "" if weeks is None else return_words(weeks)

    def lines(self, ident: str) -> tuple[str, ...]:
        """All there is to say of one of them."""
        weeks = self._known.weeks.get(ident) if self._known else None
        if weeks is None:
            return ()
        name, offers = self._who.person(ident).name, self._offers(ident)
        given = self._given(ident)
        return tuple(less_lines(name, weeks, tuple(offers.values()), given=given, key=KEY))

    def turn(self, ident: str) -> str:
        """Give what is proposed, in every piece, or take it back; what to say of it."""
        name, offers = self._who.person(ident).name, self._offers(ident)
        if not offers:
            return f"{name}: nothing is proposed"
        given = self._given(ident)
        for segment, offer in offers.items():
            self._who.choices.agree(ident, segment, UNSET if given else offer.portion)
        said = "all of it again" if given else ", ".join(one.words for one in offers.values())
        return f"{name}: {said}"

    def _given(self, ident: str) -> bool:
        return any(self._who.choices.agreed(ident, segment) for segment in self._offers(ident))

    def _offers(self, ident: str) -> dict[int, LessOffer]:
        """By segment."""
        weeks = self._known.weeks.get(ident) if self._known else None
        if weeks is None or self._known is None:
            return {}
        who, found = self._who, {}
        for index, segment in enumerate(who.plan.segment):
            chosen = who.choices.in_segment(index)
            (lane,) = draw_lanes(segment, (who.person(ident),), chosen)
            piece = Piece.of(segment, who.unit)
            if segment.teams is None and (
                offer := less_offer(piece, lane, weeks, self._known.basis)
            ):
                found[index] = offer
        return found


def read_returns_here(
    folder: Path, people: Sequence[str], who: WhoList, now: datetime
) -> "Returns":
    """Read it for these ids; loads sqlalchemy, and takes its time: for a thread."""
    from classclock.book.asking.return_reading import (  # noqa: PLC0415  see above
        ReturnQuestion,
        Returns,
        returns_for,
    )

    if not club_folder.results(folder).is_dir():
        return Returns()
    began = int(now.timestamp() * 1000)
    return returns_for(folder, ReturnQuestion(people, who.plan, now.date(), began))
