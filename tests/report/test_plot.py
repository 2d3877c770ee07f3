"""A history as a plot for the terminal."""

from collections.abc import Sequence
from typing import Any

import pytest

from classclock.records.class_entries import read_class
from classclock.records.result import Result
from classclock.records.score_trend import measured
from classclock.report.plot import plot_lines


@pytest.fixture
def runs(depot: Any) -> Any:
    def make(*lanes: dict[str, Any], piece: str = "turntable") -> list[Result]:
        return [
            read_class(depot.document(f"2026-{month:02}-03", getattr(depot, piece)(lane)))
            .entries[0]
            .result
            for month, lane in enumerate(lanes, start=1)
        ]

    return make


def test_each_result_has_its_mark_modified_ones_another(runs: Any, depot: Any) -> None:
    results = runs(
        depot.rounds("Ilse", 6),
        depot.rounds("Ilse", 7),
        depot.rounds("Ilse", 9, modification="step-up"),
    )
    drawn = "\n".join(plot_lines(results, 72))
    assert (drawn.count("o"), drawn.count("~")) == (2, 1)
    assert max(map(len, plot_lines(results, 72))) <= 72


def test_times_stand_on_a_scale_of_times(runs: Any, depot: Any) -> None:
    results = runs(depot.timed("Ilse", "8:00"), depot.timed("Ilse", "9:00"), piece="third_rail")
    assert _scale(plot_lines(results, 72)) == ["9:00", "8:30", "8:00"]


def test_a_scale_has_round_numbers_and_none_twice(runs: Any, depot: Any) -> None:
    one_rep_more = runs(depot.rounds("Ilse", 7, 3), depot.rounds("Ilse", 7, 4))
    assert _scale(plot_lines(one_rep_more, 72)) == ["193", "192"]
    many = runs(depot.rounds("Ilse", 3), depot.rounds("Ilse", 9))
    assert _scale(plot_lines(many, 72)) == ["200", "100"]


def _scale(lines: Sequence[str]) -> list[str]:
    beside = (line.partition("|")[0].strip() for line in lines[1:-2])
    return [tick for tick in beside if tick]


def test_what_is_drawn_is_reps_seconds_or_kilograms(runs: Any, depot: Any) -> None:
    (rounds,) = runs(depot.rounds("Ilse", 7, 12))
    assert measured(rounds) == 7 * 27 + 12
    done, cut_off = runs(
        depot.timed("Ilse", "8:31"), depot.timed("Ilse", "70 reps"), piece="third_rail"
    )
    assert (measured(done), measured(cut_off)) == (511, None)
    (lift,) = runs(depot.lifted("Ilse", "100 lb"), piece="squats")
    assert measured(lift) == pytest.approx(45.359237)  # NIST SP 811


def test_one_result_is_no_plot(runs: Any, depot: Any) -> None:
    assert plot_lines(runs(depot.rounds("Ilse", 6)), 72) == ()
