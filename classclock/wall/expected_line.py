"""What most here would do in the piece on the board: a count and a spread, nobody's own number."""

from msgspec.structs import replace

from classclock.live.live_class import LiveClass
from classclock.planning.cap_fit import Basis, can_be_told, cap_fit
from classclock.report.fit_words import room_words
from classclock.tally.piece import Piece
from classclock.wall.board_content import BoardContent
from classclock.wall.kept_off import off_the_wall


class KeptExpectation:
    """Worked out anew only when the segment, a lane or what it rests on changes."""

    def __init__(self) -> None:
        self._basis: Basis | None = None
        self._for: tuple[object, ...] = ()
        self._words = ""

    def beside(self, content: BoardContent, live: LiveClass, basis: Basis) -> BoardContent:
        """The board with it; whoever is off the wall is left out of it."""
        segment = live.record.segment
        if not can_be_told(segment):
            return content
        lanes = tuple(one for one in live.lineup() if not off_the_wall(one, live.record.people))
        if self._basis is not basis or self._for != (live.record.chosen, lanes):
            self._basis, self._for = basis, (live.record.chosen, lanes)
            self._words = room_words(cap_fit(Piece.of(segment, live.record.unit), lanes, basis))
        return replace(content, expected=self._words)
