"""Taps in a piece that counts station by station."""

from typing import Any

import pytest


@pytest.fixture
def piece(rehearsal: Any, turntable: Any) -> Any:
    return rehearsal(**turntable, count="station")


def test_a_tap_is_one_station_and_the_last_one_a_round(piece: Any) -> None:
    piece.tap("Noor", "0:20", "0:50")
    assert piece.tally("Noor").odd_floor == 15
    assert piece.tally("Noor").station == 2
    piece.tap("Noor", "1:30")
    assert [(r.reps, r.split) for r in piece.tally("Noor").rounds] == [(27, 90_000)]
    assert piece.tally("Noor").station == 0


def test_a_stations_reps_are_known_at_least_and_the_odd_ones_beyond_are_not(piece: Any) -> None:
    piece.tap("Noor", "0:20")
    assert piece.tally("Noor").odd is None
    assert piece.score("Noor").score == "0+?"
    assert piece.score("Noor").total_reps == 6
    assert piece.score("Noor", settled=True).score == "0+6"


def test_a_number_says_at_which_station_the_lane_is(piece: Any) -> None:
    piece.number("Noor", 17, "1:00")
    assert piece.tally("Noor").station == 2
    piece.tap("Noor", "1:30")
    assert len(piece.tally("Noor").rounds) == 1


def test_a_number_beyond_a_run_says_that_it_is_done(rehearsal: Any) -> None:
    stations = [
        {"movement": "box step-over", "reps": 6},
        {"movement": "run", "metres": 200},
        {"movement": "bodyweight squat", "reps": 12},
    ]
    piece = rehearsal(format="rounds-in-time", time="20:00", count="station", station=stations)
    piece.number("Noor", 6, "0:30")
    assert piece.tally("Noor").station == 1, "she may still be running"
    piece.number("Bram", 10, "2:00")
    assert piece.tally("Bram").station == 2, "four squats come after the run"
    piece.tap("Bram", "2:30")
    assert len(piece.tally("Bram").rounds) == 1


def test_a_staggered_lane_counts_the_stations_from_where_it_began(
    rehearsal: Any, turntable: Any
) -> None:
    piece = rehearsal(lane={"Noor": {"start_station": 2}}, **turntable, count="station")
    assert piece.tally("Noor").station == 2
    piece.tap("Noor", "0:40")
    assert (piece.tally("Noor").odd_floor, piece.tally("Noor").station) == (12, 0)


def test_the_last_station_of_the_work_is_the_finish(rehearsal: Any, third_rail: Any) -> None:
    piece = rehearsal(**{**third_rail, "rounds": 1}, count="station")
    piece.tap("Noor", "0:40", "1:10")
    assert piece.tally("Noor").finish == 70_000


def test_each_station_is_compared_with_itself_so_a_short_one_after_a_long_one_is_not_doubted(
    rehearsal: Any,
) -> None:
    stations = [{"movement": "row", "calories": 20}, {"movement": "burpee", "reps": 20}]
    piece = rehearsal(format="rounds-in-time", time="20:00", count="station", station=stations)
    for start in range(4):
        piece.tap("Noor", f"{2 * start + 1}:40", f"{2 * start + 2}:00")
    assert not piece.tally("Noor").doubts


def test_a_station_far_too_soon_makes_its_round_doubtful(piece: Any) -> None:
    for start in range(3):
        piece.tap("Noor", f"{start}:20", f"{start}:35", f"{start + 1}:00")
    piece.tap("Noor", "3:20", "3:22", "3:50")
    assert [r.doubtful for r in piece.tally("Noor").rounds] == [False, False, False, True]
