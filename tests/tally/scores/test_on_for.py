"""What a lane is on for, against published records and worked values."""

from itertools import accumulate
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.tally.scores.on_for import (
    Earlier,
    earlier_time,
    earlier_work,
    exponent,
    fitted,
    on_for,
    time_for,
    work_by,
)

np = pytest.importorskip("numpy")  # it comes with scipy

# Record times in minutes over kilometres: worldRecords of the R package DAAG.
KM = (1, 1.5, 1.609, 2, 3, 3.218, 5, 10)
MINUTES = (2.199333, 3.433333, 3.718833, 4.7465, 7.3445, 7.976833, 12.6225, 26.292167)


def test_twice_the_work_takes_2_085_times_as_long() -> None:
    """Riegel, American Scientist 69 (1981) 285."""
    assert time_for(2, (1000, 1)) / 1000 == pytest.approx(2.085, abs=0.0005)


@pytest.mark.parametrize(
    ("km", "minutes", "to_km", "seconds"),
    [(3, 7.3445, 5, 12 * 60 + 37.31), (5, 12.6225, 10, 26 * 60 + 19.02)],
)
def test_records_are_foretold_from_shorter_ones(
    km: int, minutes: float, to_km: int, seconds: float
) -> None:
    """DAAG's records by Riegel's formula; the records were 12:37.35 and 26:17.53."""
    foretold = time_for(to_km, (round(minutes * 60_000), km))
    assert foretold / 1000 == pytest.approx(seconds, abs=0.01)


def test_the_fit_is_that_of_numpy_over_the_records() -> None:
    """k = 1.0775 by numpy.polyfit on the logarithms."""
    points = list(zip(np.log(KM), np.log(MINUTES), strict=True))
    assert fitted(points) == pytest.approx(np.polyfit(np.log(KM), np.log(MINUTES), 1)[0])
    assert fitted(points) == pytest.approx(1.0775, abs=0.00005)


@pytest.mark.parametrize(
    ("rounds", "at", "expected"), [(3, 330_000, 7.73), (4, 300_000, 11.28), (5, 600_000, 7.33)]
)
def test_rounds_by_a_cap_of_fifteen_minutes(rounds: int, at: int, expected: float) -> None:
    """n2 = n1 (T/t1)^(1/1.06), worked."""
    assert work_by(900_000, (at, rounds)) == pytest.approx(expected, abs=0.005)


def test_a_lane_that_follows_the_law_gives_its_exponent_back() -> None:
    """t_n = 75 n^1.06 gives k = 1.06 and 10.425 rounds at 15:00, worked."""
    marks = [(round(75_000 * n**1.06), n) for n in range(1, 6)]
    assert exponent(marks) == pytest.approx(1.06, abs=0.0001)
    assert work_by(900_000, marks[-1], exponent(marks)) == pytest.approx(10.425, abs=0.001)


def test_before_the_fourth_split_the_exponent_is_the_published_one() -> None:
    three = [(60_000, 1), (130_000, 2), (220_000, 3)]
    assert exponent(three) == exponent([(0, 1), *three]) == 1.06, "at the very go is no pace"


@pytest.mark.parametrize(("growth", "kept"), [(0.8, 1.0), (1.5, 1.2)])
def test_the_fitted_exponent_is_kept_within_limits(growth: float, kept: float) -> None:
    assert exponent([(round(60_000 * n**growth), n) for n in range(1, 8)]) == kept


def _on_for(piece: Any, when: str, **more: Any) -> Any:
    at = piece.at(when)
    total = piece.sheet.timeline.total
    return on_for(
        piece.sheet.piece, piece.tally("Noor"), elapsed=piece.sheet.elapsed(at), cap=total, **more
    )


def test_a_lane_shows_what_it_is_on_for_from_its_second_split_on(
    rehearsal: Any, turntable: Any
) -> None:
    piece = rehearsal(**turntable)
    piece.tap("Noor", "2:00")
    assert _on_for(piece, "2:01") is None
    piece.tap("Noor", "4:00")
    assert _on_for(piece, "4:01").rounds == 7  # 2 (16/4)^(1/1.06) = 7.4


def test_rounds_that_count_no_reps_are_foretold_from_the_second_split_on_too(
    rehearsal: Any,
) -> None:
    run = {"movement": "run", "metres": 200}
    piece = rehearsal(format="rounds-in-time", time="16:00", station=[run])
    piece.tap("Noor", "2:00")
    assert _on_for(piece, "2:01") is None
    piece.tap("Noor", "4:00")
    assert _on_for(piece, "4:01").rounds == 7  # 2 (16/4)^(1/1.06) = 7.4


def test_even_splits_give_exactly_the_steady_pace(rehearsal: Any, turntable: Any) -> None:
    piece = rehearsal(**turntable)
    piece.tap("Noor", "2:00", "4:00", "6:00", "8:00")
    told = _on_for(piece, "8:01")
    assert (told.rounds, told.reps) == (8, 8 * 27)


def test_it_is_equal_to_what_is_done_at_the_cap(rehearsal: Any, turntable: Any) -> None:
    piece = rehearsal(**turntable)
    piece.tap("Noor", "2:00", "4:00", "6:00")
    piece.number("Noor", 13, "16:02")
    told = _on_for(piece, "16:02")
    assert (told.rounds, told.reps) == (3, 94)


@given(splits=st.lists(st.integers(1, 200), min_size=2, max_size=12), later=st.integers(0, 900))
def test_it_is_never_below_what_is_done(
    rehearsal: Any, turntable: Any, splits: list[int], later: int
) -> None:
    piece = rehearsal(**turntable)
    at = 0
    for split in splits:
        at += split
        if at >= 900:
            break
        piece.tap("Noor", f"{at // 60}:{at % 60:02}")
    piece.number("Noor", 26, "15:00")
    told = _on_for(piece, f"15:{later % 60:02}")
    tally = piece.tally("Noor")
    if told is not None:
        assert told.rounds >= len(tally.rounds)
        assert told.reps >= tally.total_reps


def test_a_climbing_piece_is_foretold_in_reps_and_shown_in_rounds(rehearsal: Any) -> None:
    climb = {"movement": "pull-up", "climb": {"first": 4, "step": 4}}
    piece = rehearsal(format="rounds-in-time", time="10:00", station=[climb])
    piece.tap("Noor", "0:20", "1:00")  # 12 reps in a minute: 12 (10)^(1/1.06) = 105.3
    told = _on_for(piece, "1:01")
    assert told.reps == 105
    assert told.rounds == 6, "4+8+12+16+20+24 is 84, and 28 more are too many"


def test_a_set_amount_of_work_is_foretold_as_a_finish(rehearsal: Any, third_rail: Any) -> None:
    piece = rehearsal(**third_rail)
    piece.tap("Noor", "2:00", "4:00")
    told = _on_for(piece, "4:01")
    assert told.finish == pytest.approx(240_000 * 2.5**1.06, abs=1)
    assert (told.rounds, told.reps) == (5, 125)


def test_work_that_will_not_be_done_by_the_cap_is_foretold_in_rounds(
    rehearsal: Any, third_rail: Any
) -> None:
    piece = rehearsal(**third_rail)
    piece.tap("Noor", "3:00", "6:00")
    told = _on_for(piece, "6:01")
    assert told.finish is None
    assert told.rounds == 3  # 2 (12/6)^(1/1.06) = 3.85


def test_someone_who_has_finished_or_stopped_is_on_for_nothing_else(
    rehearsal: Any, third_rail: Any
) -> None:
    piece = rehearsal(**third_rail)
    piece.tap("Noor", "1:00", "2:00", "3:00", "4:00", "5:00")
    assert _on_for(piece, "5:01") is None


# -- against the own best --------------------------------------------------------------

FADING = Earlier(
    marks=((100_000, 27), (220_000, 54), (380_000, 81), (580_000, 108), (860_000, 135)), total=140
)


@given(
    st.lists(st.tuples(st.integers(1, 90_000), st.integers(1, 40)), min_size=1, max_size=8),
    st.integers(0, 800_000),
    st.integers(1, 400),
)
def test_between_its_marks_an_earlier_run_went_on_evenly_as_numpy_interpolates(
    steps: list[tuple[int, int]], at: int, work: int
) -> None:
    marks = tuple(accumulate(steps, lambda mark, step: (mark[0] + step[0], mark[1] + step[1])))
    cap, total = marks[-1][0] + 5_000, marks[-1][1] + 7
    earlier = Earlier(marks, total)
    times, works = zip((0, 0), *marks, (cap, total), strict=True)
    assert earlier_work(earlier, at, cap) == pytest.approx(np.interp(at, times, works))
    assert earlier_time(earlier, work, cap) == pytest.approx(np.interp(work, works, times))


def test_an_earlier_runs_shape_is_used_instead(rehearsal: Any, turntable: Any) -> None:
    piece = rehearsal(**turntable)
    piece.tap("Noor", "1:40", "3:40")
    assert _on_for(piece, "3:41", earlier=FADING).reps == 140
    assert _on_for(piece, "3:41").reps > 140, "fresh, by the power law"


def test_level_ahead_and_behind_in_reps_at_this_moment(rehearsal: Any, turntable: Any) -> None:
    for second_round, ahead in (("3:40", 0), ("3:20", 4), ("4:00", -4)):
        piece = rehearsal(**turntable)
        piece.tap("Noor", "1:40", second_round)
        assert _on_for(piece, second_round, earlier=FADING).ahead == ahead


def test_a_round_that_does_not_come_uses_the_lead_up(rehearsal: Any, turntable: Any) -> None:
    piece = rehearsal(**turntable)
    piece.tap("Noor", "1:40", "3:20")
    leads = [_on_for(piece, when, earlier=FADING).ahead for when in ("3:21", "7:00", "12:00")]
    assert leads[0] == 4
    assert leads == sorted(leads, reverse=True)
    assert leads[2] < 0


def test_at_the_cap_the_lead_is_the_difference_of_the_totals(
    rehearsal: Any, turntable: Any
) -> None:
    piece = rehearsal(**turntable)
    piece.tap("Noor", "1:40", "3:20")
    piece.number("Noor", 11, "16:02", rounds=5)
    assert _on_for(piece, "16:02", earlier=FADING).ahead == 146 - 140
