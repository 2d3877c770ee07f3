"""What the room sees of a class and no event says: what the coach's keys have put on the screen.

Nothing in it is private: it says which, never who or how much.
"""

from msgspec import Struct

from classclock.wall.seen.page_turning import PageTurns


class RoomView(Struct, frozen=True, omit_defaults=True):
    segment: int = -1
    """The segment whose movement is taught."""
    lesson: int = 0
    """Which of its movements that is, from 1; 0: none."""
    selected: str = ""
    """The key of the lane that is selected."""
    turns: PageTurns = PageTurns()
    """Which page is on, of a screen with several."""
    saved: tuple[str, ...] = ()
    """The results files, where they tell every piece that is over as it stands."""
    readings: int = 0
    """How often the book has been read: bests are shown from then on."""
    card: bool = False
    """Whether the emergency card is up."""
    sharing: bool = False
    """Whether who shares and starts where is up."""
