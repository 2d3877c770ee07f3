"""What most here would do in the class's hard piece, while the coach says who is here."""

from collections.abc import Sequence
from functools import lru_cache
from pathlib import Path

from msgspec.structs import replace

from classclock.club import folder as club_folder
from classclock.plan.model import Segment
from classclock.planning.cap_fit import Basis, can_be_told
from classclock.planning.patterns import hard_piece
from classclock.screens.pages.who.who_list import WhoList
from classclock.tally.lanes import Lane
from classclock.tally.lineup import draw_lanes
from classclock.units.kept import Same
from classclock.wall.expected_line import expected_words


class FitHere:
    """Each person's results are read once, as they come in."""

    def __init__(self, who: WhoList, folder: Path, began: int) -> None:
        """`folder` is the club's; `began` milliseconds since 1970."""
        self._who, self._folder, self._began = who, folder, began
        self._segment = hard_piece(who.plan)
        self._asked: set[str] = set()
        self._basis = Basis()
        self._expected = lru_cache(maxsize=1)(expected_words)

    def to_read(self) -> list[str]:
        """The ids of those here whose results are still to be read; each is given once."""
        if self._segment is None or not can_be_told(self._segment):
            return []
        unread = [one.id for one in self._who.people if one.id not in self._asked]
        self._asked.update(unread)
        return unread

    def read(self, people: Sequence[str]) -> Basis:
        """Read their results; loads sqlalchemy, and takes its time: for a thread."""
        from classclock.book.asking.fit_reading import FitQuestion, basis_for  # noqa: PLC0415  see above

        remembers = club_folder.results(self._folder).is_dir()
        asked = FitQuestion(people, self._who.plan, self._began)
        return basis_for(self._folder, asked) if remembers else Basis()

    def learn(self, read: Basis) -> None:
        """Take up what was read."""
        self._basis = replace(read, past={**self._basis.past, **read.past})

    def words(self) -> str:
        """`Turntable: most here would get 5 to 8 rounds`; empty where too few can be told of."""
        segment, who = self._segment, self._who
        if segment is None or not can_be_told(segment):
            return ""
        said = self._expected(Same(segment), who.unit, self._lanes(segment), Same(self._basis))
        return f"{segment.name}: {said}" if said else ""

    def _lanes(self, segment: Segment) -> tuple[Lane, ...]:
        """By what each has chosen; whoever is off the wall is left out."""
        who = self._who
        people = [one for one in who.people if not one.off_the_wall]
        return draw_lanes(segment, people, who.choices.in_segment(who.plan.segment.index(segment)))
