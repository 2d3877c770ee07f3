"""Whom the coach may offer the next option, nearer to as written or farther from it.

Options of a station stand from nearest to farthest (`nearest_first`). A score is held against the
middle one of all others who did the same piece in the same class, whatever they modified, in reps
a second:

- *like the others'*: at least nine tenths of it (`LIKE`);
- *far behind*: less than six tenths of it (`FAR`).

Whoever's latest scores with an option, as many as the club says, are all like the others' is named
with the next one up; whoever's latest two are both far behind is named with the one below. A class
with fewer than three others tells nothing. Common practice, no source: neither these numbers nor
that steps are to be taken. How somebody moves no score says; the coach sees it.
"""

from collections.abc import Sequence
from itertools import takewhile
from statistics import median

from msgspec import Struct

from classclock.plan.option_menu import nearest_first
from classclock.plan.station import Station

LIKE = 0.9
FAR = 0.6
OTHERS = 3
"""So many others at least make a middle to be held against."""
TWICE = 2


class Used(Struct, frozen=True):
    """A score that somebody made with an option, or as written."""

    pace: float
    """Reps a second."""
    others: tuple[float, ...]
    """The same of everybody else in that class's piece."""

    @property
    def beside(self) -> float | None:
        """As a share of the middle one of the others'; None where they are too few, or did none."""
        if len(self.others) < OTHERS:
            return None
        middle = median(self.others)
        return self.pace / middle if middle else None


class NextStep(Struct, frozen=True):
    """What the coach may offer. Options are numbers of the station's, 0 being as written."""

    option: int
    times: int
    """How often in a row, the latest ones."""
    to: int
    up: bool
    """Whether that is nearer to as written."""


def next_step(station: Station, option: int, used: Sequence[Used], enough: int) -> NextStep | None:
    """What may be offered to whoever uses this option now; None where nothing may.

    `used` are their scores with it, the latest first; `enough` is the club's number, 0 for never.
    """
    shares = [share for one in used if (share := one.beside) is not None]
    like = sum(1 for _ in takewhile(lambda share: share >= LIKE, shares))
    behind = sum(1 for _ in takewhile(lambda share: share < FAR, shares))
    ladder = (0, *nearest_first(station))
    at = ladder.index(option)
    if not enough:
        return None
    if like >= enough and at:
        return NextStep(option, like, ladder[at - 1], up=True)
    if behind >= TWICE and at + 1 < len(ladder):
        return NextStep(option, behind, ladder[at + 1], up=False)
    return None
