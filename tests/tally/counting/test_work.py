"""Rounds and reps: what the work is worth, against closed forms."""

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from classclock.tally.counting.work import Work
from classclock.tally.lanes import Lane
from classclock.tally.piece import Piece

small = st.integers(1, 40)


def _lane(**fields: Any) -> Lane:
    return Lane("Noor", "Noor", "n", ("Noor",), **fields)


def _work(segment: Any, **lane: Any) -> Work:
    return Work(Piece.of(segment, "kg"), _lane(**lane))


@given(first=small, step=small, rounds=st.integers(0, 30))
def test_a_climb_adds_up_as_an_arithmetic_series(
    segment_of: Any, first: int, step: int, rounds: int
) -> None:
    """n(2a + (n-1)d)/2, the sum of an arithmetic series."""
    climb = {"movement": "pull-up", "climb": {"first": first, "step": step}}
    work = _work(segment_of(format="rounds-in-time", time="10:00", station=[climb]))
    assert work.before(rounds) == rounds * (2 * first + (rounds - 1) * step) // 2


@given(scheme=st.lists(small, min_size=1, max_size=12), stations=st.integers(1, 4))
def test_a_scheme_is_done_by_every_station_that_names_no_reps(
    segment_of: Any, scheme: list[int], stations: int
) -> None:
    movements = [{"movement": f"station {number}"} for number in range(stations)]
    segment = segment_of(format="capped-for-time", cap="10:00", scheme=scheme, station=movements)
    assert _work(segment).total == stations * sum(scheme)


@given(reps=st.lists(st.integers(1, 50), min_size=1, max_size=6), start=st.integers(0, 5), n=small)
def test_a_staggered_start_turns_the_stations_round_and_keeps_the_rounds_size(
    segment_of: Any, reps: list[int], start: int, n: int
) -> None:
    stations = [{"movement": f"station {number}", "reps": each} for number, each in enumerate(reps)]
    segment = segment_of(format="rounds-in-time", time="10:00", station=stations)
    start %= len(reps)
    work = _work(segment, start_station=start)
    assert work.station_worths(0) == tuple(reps[start:] + reps[:start])
    assert work.before(n) == n * sum(reps)


@given(
    worths=st.lists(st.integers(0, 9), min_size=1, max_size=6),
    data=st.data(),
    odd=st.integers(0, 60),
)
def test_the_station_of_an_odd_rep_is_the_one_in_which_it_was_done(
    segment_of: Any, worths: list[int], data: Any, odd: int
) -> None:
    stations = [
        {"movement": f"station {number}", "metres": 100, "counts": each}
        for number, each in enumerate(worths)
    ]
    work = _work(segment_of(format="rounds-in-time", time="10:00", station=stations))
    # The station in which each rep is done; after its last rep the next one is in progress.
    done_in = [station for station, worth in enumerate(worths) for _ in range(worth)]
    odd = min(odd, max(0, len(done_in) - 1))
    expected = 0
    if odd:
        last = done_in[odd - 1]
        expected = last + (1 if sum(worths[: last + 1]) == odd else 0)
    assert work.position_of(0, odd) == expected


def test_metres_and_seconds_count_nothing_unless_the_station_says(segment_of: Any) -> None:
    stations = [
        {"movement": "run", "metres": 400},
        {"movement": "plank", "seconds": 30},
        {"movement": "row", "calories": 15},
        {"movement": "carry", "metres": 40, "counts": 4},
    ]
    work = _work(segment_of(format="rounds-in-time", time="10:00", station=stations))
    assert work.station_worths(0) == (0, 0, 15, 4)


def test_an_option_counts_what_it_names_and_else_what_the_station_has(
    segment_of: Any, turntable: Any
) -> None:
    segment = segment_of(**turntable)
    assert _work(segment, options=(1, 0, 0)).round_reps(0) == 27
    assert _work(segment, options=(2, 0, 1)).round_reps(0) == 4 + 9 + 8


def test_options_are_numbered_through_the_piece_in_reading_order(
    segment_of: Any, turntable: Any
) -> None:
    assert Piece.of(segment_of(**turntable), "kg").option_menu == ((0, 1), (0, 2), (2, 1))
