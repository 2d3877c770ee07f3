"""Too little equipment for who is here: what is short, and the keys that share it."""

from typing import TYPE_CHECKING

from classclock.screens.pages.who.who_list import WhoList
from classclock.tally.decide_groups import SharedWay

if TYPE_CHECKING:
    from classclock.planning.equipment_offers import (  # loaded only where it is counted
        EquipmentOffers,
        Offer,
    )


class WhoSharing:
    def __init__(self, who: WhoList) -> None:
        self._who = who
        self._shared: dict[int, SharedWay] = {}
        """By segment, for those who were here when that was chosen."""
        self.offers: EquipmentOffers | None = None
        """What is short for who is here, once it is known; None where nothing is counted."""
        self.asked: Offer | None = None
        """The offer that is open: its ways have the digits."""

    def of(self, segment: int) -> SharedWay:
        """How a segment is shared, as long as the same people are here; as planned otherwise."""
        way = self._shared.get(segment, SharedWay())
        places = way.sharing.places if way.sharing is not None else ()
        members = [ident for place in places for ident in place.members]
        return way if members == [person.id for person in self._who.people] else SharedWay()

    def chosen(self) -> dict[int, SharedWay]:
        """By segment, what still fits those who are here."""
        every = ((segment, self.of(segment)) for segment in self._shared)
        return {segment: way for segment, way in every if way.sharing is not None}

    def short(self) -> tuple["Offer", ...]:
        """The segments for which something is short, as those who are here modify them."""
        who, offers = self._who, self.offers
        if offers is None:
            return ()
        every = (
            offers.of(who.plan, index, who.people, who.choices.in_segment(index))
            for index in range(len(who.plan.segment))
        )
        return tuple(offer for offer in every if offer is not None)

    def sign(self, sign: str) -> str | None:
        """What to say of this key; None: it isn't for sharing, and closes what is open."""
        asked = self.asked
        if sign == "<ctrl+t>":
            return self._open_next()
        self.asked = None
        if asked is None:
            return None
        if sign == "<escape>":
            return ""
        if sign.isdecimal() and sign.isascii():
            return self._choose(asked, int(sign))
        return None

    def _open_next(self) -> str:
        """The ways for the first segment that lacks something; for the next; none."""
        short = self.short()
        at = -1 if self.asked is None else self.asked.segment
        self.asked = next((offer for offer in short if offer.segment > at), None)
        return "" if short else "nothing that was counted is short"

    def _choose(self, asked: "Offer", number: int) -> str:
        if number > len(asked.ways):
            self.asked = asked
            return f"there are {len(asked.ways)} ways here"
        self._shared.pop(asked.segment, None)
        if not number:
            return f"{asked.name}: as planned"
        self._shared[asked.segment] = asked.ways[number - 1].shared
        return f"{asked.name}: shared as chosen"
