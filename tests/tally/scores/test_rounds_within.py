"""How many rounds so much work is: the short way for even rounds, and counted up."""

from hypothesis import given
from hypothesis import strategies as st

from classclock.plan.model import Segment
from classclock.plan.reading.plan_reading import parse_plan
from classclock.tally.counting.work import Work
from classclock.tally.lane_tally import LaneTally, Round
from classclock.tally.lanes import Lane
from classclock.tally.piece import Piece
from classclock.tally.scores.on_for import _LaneWork


def segment(amount: str) -> Segment:
    text = (
        'title = "t"\n[[segment]]\nname = "Headway"\nformat = "rounds-in-time"\ntime = "20:00"\n'
        f'[[segment.station]]\nmovement = "squat"\n{amount}\n'
    )
    plan, findings = parse_plan(text, "t.toml")
    assert plan is not None, findings
    return plan.segment[0]


@given(
    amount=st.sampled_from(("reps = 7", "reps = 1", "climb = { first = 4, step = 4 }")),
    done=st.integers(1, 6),
    more=st.integers(0, 400),
)
def test_so_much_work_is_as_many_rounds_as_fit_into_it_one_by_one(
    amount: str, done: int, more: int
) -> None:
    piece, lane = Piece.of(segment(amount), "kg"), Lane("Noor", "Noor", "n", ("Noor",))
    work = Work(piece, lane)
    rounds = tuple(Round(work.round_reps(n), (n + 1) * 60_000, 60_000) for n in range(done))
    in_all = work.before(done) + more
    fit = done
    while work.before(fit + 1) <= in_all:
        fit += 1
    assert _LaneWork(piece, LaneTally(lane, rounds=rounds)).rounds_within(in_all) == fit
