"""What the lanes of the wall are ahead of or behind: own best runs, and goals."""

from collections.abc import Mapping

from classclock.records.goals import Goal
from classclock.records.own_bests import OwnBests
from classclock.tally.lanes import Lane, Person
from classclock.tally.piece import Piece
from classclock.tally.scores.on_for import Earlier
from classclock.units.kept import Same
from classclock.wall.kept_off import off_the_wall


def own_runs(
    bests: Same[OwnBests],
    piece: Same[Piece],
    lanes: tuple[Lane, ...],
    length: int,
    people: tuple[Person, ...],
) -> Mapping[str, Earlier]:
    """By lane; nobody's who keeps their bests off the wall. `length` is the piece's, in ms."""
    shown = [lane for lane in lanes if not off_the_wall(lane, people)]
    return bests.it.runs(piece.it, shown, length)


def own_goals(
    bests: Same[OwnBests],
    piece: Same[Piece],
    lanes: tuple[Lane, ...],
    length: int,
    people: tuple[Person, ...],
) -> Mapping[str, Goal]:
    """By lane what it works towards, as `own_runs`."""
    if not bests.it.goals:
        return {}
    found = (
        (lane.id, bests.it.goal(piece.it, lane, length))
        for lane in lanes
        if not off_the_wall(lane, people)
    )
    return {lane: goal for lane, goal in found if goal is not None}
