"""What most here would do in the piece on the board: a count and a spread, nobody's own number."""

from functools import lru_cache

from msgspec.structs import replace

from classclock.live.standing_class import StandingClass
from classclock.plan.model import Segment
from classclock.planning.cap_fit import Basis, can_be_told, cap_fit
from classclock.report.fit_words import room_words
from classclock.tally.lanes import Lane
from classclock.tally.piece import Piece
from classclock.units.kept import Same
from classclock.units.loads import Unit
from classclock.wall.board_content import BoardContent
from classclock.wall.kept_off import off_the_wall


class Expectation:
    """Worked out anew only when the segment, a lane or what it rests on changes."""

    def __init__(self) -> None:
        self._words = lru_cache(maxsize=1)(expected_words)

    def beside(self, content: BoardContent, live: StandingClass, basis: Basis) -> BoardContent:
        """The board with it; whoever is off the wall is left out of it."""
        record = live.record
        if not can_be_told(record.segment):
            return content
        lanes = tuple(one for one in live.lineup() if not off_the_wall(one, record.people))
        words = self._words(Same(record.segment), record.unit, lanes, Same(basis))
        return replace(content, expected=words)


def expected_words(
    segment: Same[Segment], unit: Unit, lanes: tuple[Lane, ...], basis: Same[Basis]
) -> str:
    """`most here would get 5 to 8 rounds`; empty where too few can be told of."""
    return room_words(cap_fit(Piece.of(segment.it, unit), lanes, basis.it))
