"""What most here would do in the class's hard piece, while the coach says who is here."""

from collections.abc import Sequence
from pathlib import Path

from classclock.club import folder as club_folder
from classclock.plan.model import Segment
from classclock.planning.cap_fit import Basis, Past, PieceFit, can_be_told, cap_fit
from classclock.planning.patterns import hard_piece
from classclock.report.fit_words import room_words
from classclock.screens.pages.who.who_list import WhoList
from classclock.tally.lineup import draw_lanes
from classclock.tally.piece import Piece


class FitHere:
    """Each person's results are read once, as they come in."""

    def __init__(self, who: WhoList, folder: Path, began: int) -> None:
        """`folder` is the club's; `began` milliseconds since 1970."""
        self._who, self._folder, self._began = who, folder, began
        self._segment = hard_piece(who.plan)
        self._asked: set[str] = set()
        self._past: dict[str, Sequence[Past]] = {}
        self._name_of = Basis().name_of
        self._for: tuple[object, ...] = ()
        self._words = ""

    def to_read(self) -> list[str]:
        """The ids of those here whose results are still to be read; each is given once."""
        if self._segment is None or not can_be_told(self._segment):
            return []
        unread = [one.id for one in self._who.people if one.id not in self._asked]
        self._asked.update(unread)
        return unread

    def read(self, people: Sequence[str]) -> None:
        """Read their results; loads sqlalchemy, and takes its time: for a thread."""
        from classclock.book.asking.fit_reading import Asked, basis_for  # noqa: PLC0415  see above

        remembers = club_folder.results(self._folder).is_dir()
        asked = Asked(people, self._who.plan, self._began)
        basis = basis_for(self._folder, asked) if remembers else Basis()
        self._name_of = basis.name_of
        self._past |= {person: basis.past.get(person, ()) for person in people}

    def words(self) -> str:
        """`Turntable: most here would get 5 to 8 rounds`; empty where too few can be told of."""
        segment, who = self._segment, self._who
        if segment is None or not can_be_told(segment):
            return ""
        state = (who.people, tuple(who.choices.items()), len(self._past))
        if state != self._for:
            self._for = state
            said = room_words(self._told(segment))
            self._words = f"{segment.name}: {said}" if said else ""
        return self._words

    def _told(self, segment: Segment) -> PieceFit:
        """By what each has chosen; whoever is off the wall is left out of it."""
        who = self._who
        index = who.plan.segment.index(segment)
        choices = {ident: one for (place, ident), one in who.choices.items() if place == index}
        people = [one for one in who.people if not one.off_the_wall]
        lanes = draw_lanes(segment, people, choices)
        return cap_fit(Piece.of(segment, who.unit), lanes, Basis(self._past, self._name_of))
