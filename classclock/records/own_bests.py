"""Each athlete's own bests as a class needs them: beside a score, and as a run to race against.

Empty until the book has been read: a class never waits for it.
"""

from collections.abc import Iterable, Iterator, Mapping

from msgspec import Struct, field
from msgspec.structs import replace

from classclock.records.bests import Standing, best_of, earlier_run, standing
from classclock.records.class_entries import (
    PieceEntry,
    benchmark_key,
    length_words,
    load_words,
    read_class,
    sets_of,
)
from classclock.records.document import ResultsDocument
from classclock.records.goals import Goal, goal_score
from classclock.records.result import Result, Terms
from classclock.tally.counting.portion_words import portion_in
from classclock.tally.lanes import Lane
from classclock.tally.piece import Piece
from classclock.tally.scores.on_for import Earlier

History = Mapping[tuple[str, str], tuple[Result, ...]]
"""Results by the id that the class knows somebody by, and benchmark."""
OwnGoals = Mapping[tuple[str, str], tuple[Goal, ...]]
"""What they work towards, by the same; as it was when the class began, without what was reached."""


class OwnBests(Struct, frozen=True):
    """What the people of one class did before it began at `began`, milliseconds since 1970."""

    history: History = field(default_factory=dict)
    began: int = 0
    goals: OwnGoals = field(default_factory=dict)

    def best(self, piece: Piece, lane: Lane, length: int) -> Result | None:
        """The lane's own best under the terms it has now; `length` is the piece's, in ms.

        None for a team, and for a piece scored by load: its terms depend on the set.
        """
        benchmark = benchmark_key(piece.segment.benchmark)
        if len(lane.members) != 1 or piece.counts_by == "load" or not benchmark:
            return None
        terms = lane_terms(piece, lane, length)
        return best_of(
            one
            for one in self._earlier(lane.members[0], benchmark)
            if one.terms.equal(terms, any_length=one.finish_s is not None)
        )

    def goal(self, piece: Piece, lane: Lane, length: int) -> Goal | None:
        """What the lane works towards under the terms it has now; `length` is the piece's, in ms.

        None for a team and for who came late.
        """
        benchmark = benchmark_key(piece.segment.benchmark or piece.segment.lift)
        goals = self.goals.get((lane.members[0], benchmark), ()) if benchmark else ()
        goal = next((one for one in goals if not one.until), None)
        if goal is None or len(lane.members) != 1 or lane.late:
            return None
        terms = lane_terms(piece, lane, length)
        if piece.counts_by == "load":
            return goal if goal.terms.equal(terms, any_length=True) else None
        in_time = goal.as_result.finish_s
        if in_time is not None and in_time * 1000 > length:
            return None
        return goal if goal.terms.equal(terms, any_length=in_time is not None) else None

    def runs(self, piece: Piece, lanes: Iterable[Lane], length: int) -> dict[str, Earlier]:
        """By lane, the own best run to be ahead of or behind, where its rounds were timed.

        `length` is the piece's, in ms.
        """
        runs: dict[str, Earlier] = {}
        for lane in lanes:
            best = self.best(piece, lane, length)
            run = None if best is None or lane.late else earlier_run(best)
            if run is not None:
                runs[lane.id] = run
        return runs

    def with_best_before(self, document: ResultsDocument) -> ResultsDocument:
        """The results document with each lane's best until then under equal terms."""
        best: dict[tuple[int, int], str | None] = {}
        for entry in self._entries(document):
            earlier = self._earlier(entry.result.athlete, entry.result.benchmark)
            before = best_of(one for one in earlier if one.compares(entry.result))
            best[entry.piece, entry.lane] = None if before is None else before.score
        pieces = (
            replace(
                piece,
                lanes=tuple(
                    replace(lane, best_before=best.get((number, place), lane.best_before))
                    for place, lane in enumerate(piece.lanes)
                ),
            )
            for number, piece in enumerate(document.pieces)
        )
        return replace(document, pieces=tuple(pieces))

    def standings(self, document: ResultsDocument) -> dict[tuple[int, int], Standing]:
        """By piece and lane of a results document, how the score stands beside earlier ones."""
        return {
            (entry.piece, entry.lane): replace(
                standing(entry.result, self._earlier(entry.result.athlete, entry.result.benchmark)),
                goal=self._goal_reached(entry),
            )
            for entry in self._entries(document)
        }

    def _goal_reached(self, entry: PieceEntry) -> str:
        """The highest goal that this score reaches; empty where there is none."""
        made = (entry.result, *sets_of(entry))
        goals = self.goals.get((entry.result.athlete, entry.result.benchmark), ())
        reached = [goal for goal in goals if any(map(goal.reached_by, made))]
        return goal_score(max(reached, key=lambda goal: goal.worth)) if reached else ""

    def _earlier(self, person: str, benchmark: str) -> list[Result]:
        found = self.history.get((person, benchmark), ())
        return [one for one in found if one.moment < self.began]

    def _entries(self, document: ResultsDocument) -> Iterator[PieceEntry]:
        """Lanes of one athlete on a benchmark."""
        if not self.history and not self.goals:
            return
        for entry in read_class(document).entries:
            if entry.result.benchmark and entry.result.terms.team == 1:
                yield entry


def lane_terms(piece: Piece, lane: Lane, length: int) -> Terms:
    """The terms under which a lane does a piece, as its results will say them."""
    names = (
        station.options[number - 1].name
        for place, station in enumerate(piece.stations)
        if (number := lane.option(place))
    )
    loads = (piece.station_load(lane, place) for place in range(len(piece.stations)))
    return Terms(
        ", ".join((*names, *portion_in(piece.segment, lane))),
        load_words([load for load in loads if load]),
        length_words(length // 1000),
        len(lane.members),
    )
