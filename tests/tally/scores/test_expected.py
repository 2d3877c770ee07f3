"""What somebody is expected to do, against the published law and sums by hand."""

from math import log

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from pydantic import TypeAdapter
from scipy.optimize import brentq
from scipy.stats import linregress

from classclock.plan.model import Segment
from classclock.tally.counting.work import Work
from classclock.tally.lanes import Lane
from classclock.tally.piece import Piece
from classclock.tally.scores.expected import Expected, expected, middle_pace, pace

READ: TypeAdapter[Segment] = TypeAdapter(Segment)
ILSE = Lane("ilse", "Ilse", "i", ("ilse",))


def work(*reps: int, **keys: object) -> Work:
    """A piece with these stations: rounds in 16:00 unless `cap` says otherwise."""
    stations = [{"movement": f"movement {n}", "reps": one} for n, one in enumerate(reps)]
    form = "capped-for-time" if "cap" in keys else "rounds-in-time"
    keys = {"station": stations, **({} if "cap" in keys else {"time": "16:00"}), **keys}
    segment = READ.validate_python({"name": "Headway", "format": form, **keys})
    return Work(Piece.of(segment, "kg"), ILSE)


def seconds(count: float) -> int:
    return round(count * 1000)


def alike(work: Work, at: int, done: int) -> tuple[float, ...]:
    return (pace((at, done)),) * len(work.piece.stations)


def test_the_same_piece_again_is_expected_to_go_as_it_went() -> None:
    turntable = work(6, 9, 12)
    for rounds, odd in ((8, 0), (7, 12), (1, 26)):
        paces = alike(turntable, seconds(960), rounds * 27 + odd)
        told = expected(turntable, paces, seconds(960))
        # Odd reps go evenly within their round, the law bends a little: a rep at most apart.
        assert told.rounds == rounds
        assert abs(told.odd - odd) <= 1


def test_a_longer_time_by_hand() -> None:
    # 216 reps in 960 s, now 1200 s. By the law 243 reps take 960 (243/216)^1.06 = 1087.7 s and 270
    # take 1216.2 s; of the round between them (1200 - 1087.7) / 128.5 = 0.874 is done: 23 of 27.
    turntable = work(6, 9, 12)
    paces = alike(turntable, seconds(960), 216)
    assert expected(turntable, paces, seconds(1200)) == Expected(9, 23, 266)


def test_riegels_own_law_for_more_work_by_hand() -> None:
    # 72 reps in 8:31; 120 take 511 (120/72)^1.06 = 878.2 s: within 15:00, not within 12:00.
    longer = work(24, cap="15:00", rounds=5)
    paces = alike(longer, seconds(511), 72)
    finish = expected(longer, paces, seconds(900)).finish
    assert finish is not None
    assert abs(finish - 878_170) < 10
    cut_off = expected(longer, paces, seconds(720))
    # 96 reps take 511 (96/72)^1.06 = 693.2 s; (720 - 693.2) / 185 = 0.145 of the round: 3 reps.
    assert cut_off == Expected(4, 3, 99)


def test_a_pace_for_each_station_by_hand() -> None:
    # 150 reps in 600 s: q = 600000 / 150^1.06 = 2961; 300 in 600 s: 1420. Six reps of the one and
    # twelve of the other take 18^0.06 (6 x 2961 + 12 x 1420) = 41.4 s.
    mixed = work(6, 12, cap="5:00", rounds=1)
    paces = (pace((seconds(600), 150)), pace((seconds(600), 300)))
    finish = expected(mixed, paces, seconds(300)).finish
    assert finish is not None
    assert abs(finish - 41_406) < 10


def test_a_staggered_start_gives_each_station_its_own_pace() -> None:
    mixed = work(6, 12, cap="5:00", rounds=1)
    paces = (pace((seconds(600), 150)), pace((seconds(600), 300)))
    later = Work(mixed.piece, Lane("b", "Bram", "b", ("b",), start_station=1))
    assert expected(later, paces, seconds(300)) == expected(mixed, paces, seconds(300))


def test_rounds_that_count_no_reps_are_told_in_rounds() -> None:
    row = work(station=[{"movement": "row", "metres": 250}])
    told = expected(row, (pace((seconds(960), 8)),), seconds(960))
    assert (told.rounds, told.odd) == (8, 0)


def test_times_grow_with_work_by_riegels_exponent() -> None:
    # The slope of the logarithms, by scipy's regression.
    amounts = [20, 30, 45, 70, 110]
    finishes = []
    for amount in amounts:
        one = work(amount, cap="24:00:00", rounds=1)
        finish = expected(one, alike(one, seconds(511), 72), 24 * 3_600_000).finish
        assert finish is not None
        finishes.append(finish)
    slope = linregress([log(one) for one in amounts], [log(one) for one in finishes]).slope
    assert slope == pytest.approx(1.06, abs=1e-4)


@given(st.integers(60, 3600), st.integers(20, 600), st.integers(0, 3600))
def test_within_a_rep_of_the_law_solved_by_scipy(at: int, done: int, more: int) -> None:
    # Whole reps are told: up to one less. After two rounds of nine the line within a round lies at
    # most (0.434 t)^2 / 8 x 0.0534 w / t^2 below the law's curve: 0.03 of 22 reps.
    one, end = work(5, 4), at + more
    solved = brentq(lambda reps: at * (reps / done) ** 1.06 - end, 1e-6, 1e6)
    assume(solved < 9 * 2_000)  # more rounds than anybody does aren't told apart
    told = expected(one, alike(one, seconds(at), done), seconds(end))
    assert told.total == pytest.approx(solved, abs=1.03)


efforts = st.tuples(st.integers(1_000, 10_000_000), st.integers(1, 2_000))
paces = st.tuples(st.floats(1, 1e6), st.floats(1, 1e6))
pieces = st.sampled_from(
    [
        work(6, 9),
        work(station=[{"movement": "a", "climb": {"first": 4, "step": 4}}] * 2),
        work(21, 15, cap="12:00", rounds=4),
        work(cap="12:00", scheme=[18, 12, 6], station=[{"movement": "a"}, {"movement": "b"}]),
    ]
)


@given(pieces, paces, st.integers(1_000, 4_000_000), st.integers(0, 4_000_000))
def test_more_time_never_lowers_what_is_expected(
    piece: Work, each: tuple[float, float], end: int, more: int
) -> None:
    before, after = expected(piece, each, end), expected(piece, each, end + more)
    assert (after.total, after.rounds) >= (before.total, before.rounds)
    if before.finish is not None:
        assert before.finish <= end
        assert after.finish is not None


@given(pieces, paces, st.floats(0.1, 1), st.integers(1_000, 4_000_000))
def test_a_faster_pace_never_makes_less_of_it(
    piece: Work, each: tuple[float, float], faster: float, end: int
) -> None:
    before = expected(piece, each, end)
    after = expected(piece, (each[0] * faster, each[1]), end)
    assert after.total >= before.total
    if before.finish is not None:
        assert after.finish is not None
        assert after.finish <= before.finish


@given(st.lists(efforts, min_size=1, max_size=7), efforts)
def test_one_more_effort_that_is_faster_never_makes_the_middle_slower(
    known: list[tuple[int, int]], more: tuple[int, int]
) -> None:
    before = middle_pace(known)
    after = middle_pace([*known, more])
    assert after <= before if pace(more) <= before else after >= before


@given(st.lists(efforts, min_size=1, max_size=7))
def test_the_middle_is_the_median_of_the_standard_library(known: list[tuple[int, int]]) -> None:
    from statistics import median  # noqa: PLC0415  only to compare with

    assert middle_pace(known) == pytest.approx(median(map(pace, known)))


@pytest.mark.parametrize("effort", [(0, 5), (5, 0), (-1, 5)])
def test_no_time_or_no_work_is_no_pace(effort: tuple[int, int]) -> None:
    with pytest.raises(ValueError, match="takes time"):
        pace(effort)
