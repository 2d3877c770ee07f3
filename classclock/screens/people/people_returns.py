"""Who comes back after weeks, among those who are here, and the less that is given them."""

from typing import TYPE_CHECKING

from msgspec import UNSET
from msgspec.structs import replace

from classclock.report.return_words import less_lines, return_words
from classclock.screens.people.people_here import PeopleHere
from classclock.tally.lineup import draw_lanes
from classclock.tally.piece import Piece

if TYPE_CHECKING:
    from classclock.book.asking.return_reading import Returns  # loads sqlalchemy
    from classclock.planning.portions import LessOffer

LESS = "5"
"""The digit behind those of the marks."""


class ReturnsHere:
    """For the coach's eyes alone; who asks sees to it that no room reads along."""

    def __init__(self, here: PeopleHere) -> None:
        self._here = here
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

    def lines(self, ident: str, name: str) -> tuple[str, ...]:
        """All there is to say of one of them."""
        weeks = self._known.weeks.get(ident) if self._known else None
        if weeks is None:
            return ()
        offers, given = tuple(self._offers(ident).values()), self._given(ident)
        return tuple(less_lines(name, weeks, offers, given=given, key=LESS))

    def turn(self, ident: str, name: str) -> str:
        """Give what is proposed, in every piece, or take it back; what to say of it."""
        offers = self._offers(ident)
        if not offers:
            return f"{name}: nothing is proposed"
        given = self._given(ident)
        portions = {index: UNSET if given else one.portion for index, one in offers.items()}
        self._here.agree(ident, portions)
        said = "all of it again" if given else ", ".join(one.words for one in offers.values())
        return f"{name}: {said}"

    def _given(self, ident: str) -> bool:
        return any(self._here.choice(ident, index).portion for index in self._offers(ident))

    def _offers(self, ident: str) -> "dict[int, LessOffer]":
        """By segment."""
        weeks = self._known.weeks.get(ident) if self._known else None
        person = next((one for one in self._here.people if one.id == ident), None)
        if weeks is None or self._known is None or person is None:
            return {}
        from classclock.planning.portions import less_offer  # noqa: PLC0415  few come back

        found = {}
        for index in self._here.to_choose():
            segment = self._here.plan.segment[index]
            chosen = {ident: self._here.choice(ident, index)}
            (lane,) = draw_lanes(segment, (person,), chosen)
            piece = Piece.of(segment, self._here.unit)
            alone = segment.teams is None
            offer = less_offer(piece, lane, weeks, self._known.basis) if alone else None
            if offer is not None:
                found[index] = offer
        return found
