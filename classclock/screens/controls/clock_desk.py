"""The line that says a clock without a plan, and how it is scored: what the keys make of it."""

from classclock.plan.model import Segment
from classclock.plan.reading.clock_line import ClockWay, NoClock, read_clock_line
from classclock.screens.controls.typed_line import TypedLine

_LONGEST = 60
"""Signs."""
_TURNS = {"<tab>": 1, "<shift+tab>": -1}


class ClockDesk:
    """How it is scored stays as it was chosen, while the line changes, for as long as it can."""

    def __init__(self, line: str = "") -> None:
        self.line = TypedLine.of(line, longest=_LONGEST)
        self.refused = ""
        """Why the line can't be run, once it was to be."""
        self._scored = ""

    @property
    def ways(self) -> tuple[ClockWay, ...]:
        """All ways to score what the line says, the likeliest first; none where it says nothing."""
        read = read_clock_line(self.line.text)
        return () if isinstance(read, NoClock) else read

    @property
    def way(self) -> ClockWay | None:
        """How it would be run now."""
        ways = self.ways
        return next((one for one in ways if one.scored == self._scored), next(iter(ways), None))

    def sign(self, sign: str) -> None:
        """One key but enter and escape."""
        self.refused = ""
        if sign in _TURNS:
            self._turn(_TURNS[sign])
        else:
            self.line.sign_at_end(sign)

    def entered(self) -> Segment | None:
        """The segment to run; None where the line has to be written otherwise."""
        read = read_clock_line(self.line.text)
        if isinstance(read, NoClock):
            self.refused = read.why
            return None
        way = self.way
        return way.segment if way is not None else None

    def _turn(self, steps: int) -> None:
        ways, way = self.ways, self.way
        if way is not None:
            names = [one.scored for one in ways]
            self._scored = names[(names.index(way.scored) + steps) % len(names)]
