"""What is asked of a class by whoever shows it to the room; nothing here changes it.

A running class answers it, and so does one that another process runs and that is followed.
"""

from typing import TYPE_CHECKING, Protocol

from classclock.live.standing_class import StandingClass
from classclock.plan.settings.club import Club

if TYPE_CHECKING:
    from classclock.planning.cap_fit import Basis
    from classclock.planning.equipment_offers import Offer
    from classclock.records.own_bests import OwnBests


class ClassSeen(Protocol):
    @property
    def live(self) -> StandingClass: ...

    @property
    def club(self) -> Club: ...

    @property
    def own_bests(self) -> "OwnBests":
        """Nobody has one until the book has been read."""
        ...

    @property
    def basis(self) -> "Basis | None":
        """What the cap fit rests on, once the book has been read."""
        ...

    @property
    def started(self) -> str:
        """When the class was opened, RFC 3339."""
        ...

    def offer(self) -> "Offer | None":
        """What is short in the segment on the board, and the ways to share it."""
        ...
