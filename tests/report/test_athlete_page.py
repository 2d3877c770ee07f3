"""An athlete's page: for the coach in the terminal, for the athlete as a file."""

import re
import shutil
import subprocess
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from classclock.book.goals.standing import GoalNow
from classclock.commands.command_line import main
from classclock.records.class_entries import read_class
from classclock.records.goals import Goal, goal_stands
from classclock.records.result import Result, Terms, rounds_worth
from classclock.records.score_trend import pointed_to
from classclock.report.history_svg import HEIGHT, WIDTH, Point, drawn
from classclock.report.plot import legend, plot_lines

TIDY = shutil.which("tidy")


@pytest.fixture
def runs(depot: Any) -> Any:
    def make(piece: str, *lanes: dict[str, Any]) -> list[Result]:
        return [
            read_class(depot.document(f"2026-{month:02}-03", getattr(depot, piece)(lane)))
            .entries[0]
            .result
            for month, lane in enumerate(lanes, start=1)
        ]

    return make


def points(results: list[Result]) -> tuple[Point, ...]:
    return drawn(results).points


def test_better_is_higher_whatever_the_benchmark_is_scored_in(runs: Any, depot: Any) -> None:
    slower, faster = points(
        runs("third_rail", depot.timed("Ilse", "9:00"), depot.timed("Ilse", "8:00"))
    )
    assert (slower.y, faster.y) == (HEIGHT, 0)  # in a page's plane y grows downwards
    fewer, more = points(runs("turntable", depot.rounds("Ilse", 6), depot.rounds("Ilse", 7)))
    assert (fewer.x, more.x) == (0, WIDTH)
    assert fewer.y > more.y


def test_a_best_at_its_time_is_ringed_for_each_set_of_terms(runs: Any, depot: Any) -> None:
    found = points(
        runs(
            "turntable",
            depot.rounds("Ilse", 7),
            depot.rounds("Ilse", 6),
            depot.rounds("Ilse", 5, modification="step-up"),
            depot.rounds("Ilse", 9, late=True),
            depot.rounds("Ilse", 8),
        )
    )
    assert [point.best for point in found] == [True, False, True, False, True]
    assert [point.modified for point in found] == [False, False, True, False, False]


def test_a_finish_is_ringed_whatever_the_cap_and_what_was_cut_off_by_its_own(depot: Any) -> None:
    def run(month: int, score: str, length: int) -> Result:
        piece = depot.third_rail(depot.timed("Ilse", score), length_s=length)
        return read_class(depot.document(f"2026-{month:02}-03", piece)).entries[0].result

    found = points(
        [
            run(1, "11:00", 720),
            run(2, "10:40", 660),
            run(3, "10:50", 720),
            run(4, "9:00", 600),
        ]
    )
    assert [point.best for point in found] == [True, True, False, True]


def test_equal_results_stand_in_the_middle(runs: Any, depot: Any) -> None:
    found = points(runs("turntable", depot.rounds("Ilse", 7), depot.rounds("Ilse", 7)))
    assert {point.y for point in found} == {HEIGHT / 2}


@pytest.fixture
def page(depot: Any, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(depot.folder))
    for month in range(1, 9):
        lane = depot.rounds("<b>Ilse</b>", month, modification="step-up" if month % 2 else "")
        squats = depot.squats(depot.lifted("<b>Ilse</b>", "60 kg", "/70 kg"))
        depot.held(f"2020-{month:02}-07", depot.turntable(lane), squats)
    assert main(["book", "mark", "<b>Ilse</b>", "under-18"]) == 0
    path = tmp_path / "ilse.html"
    assert main(["athlete", "<b>Ilse</b>", "--benchmark", "turntable", "--html", str(path)]) == 0
    return path


def test_the_athletes_own_file_has_no_marks_and_asks_nothing_of_any_address(page: Path) -> None:
    html = page.read_text("utf-8")
    assert "&lt;b&gt;Ilse&lt;/b&gt;" in html
    assert "8+0" in html
    assert "under 18" not in html
    assert not re.findall(r"https?:|//|url\(|@import|<script|<link|<img|<b>", html)


def test_in_a_narrow_window_the_terms_of_a_best_go_on_in_another_line(
    depot: Any, capsys: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(depot.folder))
    monkeypatch.setenv("COLUMNS", "80")
    words = "step-up, seated press, band row, ring row, bike, chair stand"
    depot.held("2020-01-07", depot.turntable(depot.rounds("Ilse", 7, 12, modification=words)))
    assert main(["athlete", "Ilse"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert max(map(len, lines)) <= 80
    (best,) = [place for place, line in enumerate(lines) if line.startswith("  Turntable")]
    assert lines[best].endswith("once")
    shown = " ".join(" ".join(lines[best : best + 3]).replace("once", "").split())
    assert f"Turntable 7+12 2020-01-07 {words}; 16:00" in shown


@pytest.mark.skipif(TIDY is None, reason="Debian's tidy isn't installed")
def test_a_validator_finds_no_fault_in_the_athletes_file_nor_in_the_chart(
    page: Path, tmp_path: Path
) -> None:
    # HTML Tidy 5: exit status 0 is no error and no warning.
    assert main(["chart", "--html", str(tmp_path / "chart.html")]) == 0
    for path in (page, tmp_path / "chart.html"):
        done = subprocess.run(
            [str(TIDY), "-e", "-q", str(path)], capture_output=True, text=True, check=False
        )
        assert (done.returncode, done.stderr) == (0, "")


def test_a_goal_is_a_level_and_the_last_scores_a_straight_line(runs: Any, depot: Any) -> None:
    """Both are drawn on the scores' own scale; the line goes on to the goal's day."""
    results = runs("turntable", *(depot.rounds("Ilse", 5 + month) for month in range(5)))
    aim = Goal(
        *("ilse", "turntable", "Turntable", "11+0", "rounds", rounds_worth(11, 0)),
        *(Terms(work="16:00"), "2026-05-03", "2026-06-03"),
    )
    pointed = pointed_to(aim, results, date(2026, 5, 4))
    assert pointed is not None
    now = GoalNow(goal_stands(aim, results), pointed, 11 * 27.0)
    found = drawn(results, now)
    assert found.level == 0  # the highest of all
    assert found.line is not None
    assert (found.line[0], found.line[2]) == (0, WIDTH)
    assert found.line[1] > found.line[3]
    assert found.points[-1].x < WIDTH
    assert drawn(results).level is None
    lines = "\n".join(plot_lines(results, 100, goal=now))
    assert len(re.findall("- +- +- +-", lines)) > 1
    assert lines.count("\u00b7") > 3
    assert legend(results, now).endswith("- goal, \u00b7 straight line of the last 5")
