"""A class whose piece was made shorter for the clock: run, cut off, rejoined, saved, compared."""

import csv
import json
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from msgspec import UNSET

from classclock.book.files.journal import read_journal
from classclock.book.files.saved_results import read_results
from classclock.clock.source import WoundSource
from classclock.commands.command_line import main
from classclock.live import session_opening
from classclock.live.replaying import replayed
from classclock.live.session_opening import open_session, rejoin_session
from classclock.plan.formats.fit import Fit
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.records.document import ResultsDocument
from classclock.tally.lane_keys import people_named
from classclock.tally.load_flags import open_flags
from classclock.wall.board_content import board_now

WARM_UP, TURNTABLE = 0, 1
SHORTER = Fit(length=12 * 60_000)
CAPPED = """
title = "Depot Thursday"
[[segment]]
name = "Warm-up"
format = "countdown"
time = "1:00"
[[segment]]
name = "Third Rail"
benchmark = "third-rail"
format = "capped-for-time"
cap = "12:00"
scheme = [18, 12, 6]
  [[segment.station]]
  movement = "sit-up"
[[segment]]
name = "Cool-down"
format = "countdown"
time = "1:00"
"""
Opens = Callable[[], Any]


@pytest.fixture(autouse=True)
def _own_club(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, source: WoundSource) -> None:
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(tmp_path))
    monkeypatch.setattr(session_opening, "raw_now", source.now)
    monkeypatch.setattr(session_opening, "boot_id", lambda: "one boot")


@pytest.fixture
def opens(tmp_path: Path, source: WoundSource, coach_of: Any) -> Opens:
    """Opens the class with a cap."""
    plan, findings = parse_plan(CAPPED, "third-rail.toml")
    assert plan is not None, findings

    def make() -> Any:
        session = open_session(
            PlanFile("third-rail", CAPPED, plan),
            people_named(("Ilse", "Bram")),
            folder=tmp_path,
            club=Club(),
            source=source,
            sound=False,
        )
        return coach_of(session, source)

    return make


def fitted(coach: Any, segment: int, fit: Fit | None) -> str:
    outcome = coach.session.live.fit(segment, fit)
    assert not outcome.refused, outcome.text
    return str(outcome.text)


def to_the_piece(coach: Any) -> None:
    coach.type("<down>")
    coach.start()


def to_the_end(coach: Any, odd: str) -> ResultsDocument:
    """To the cap, the odd reps, and settled."""
    live = coach.session.live
    left = live.record.sheet.timeline.total - live.record.sheet.elapsed(live.clock.now())
    coach.wind(left / 1000 + 5)
    coach.type(odd)
    coach.wind(2)
    coach.type("<enter>")
    assert coach.session.save()
    document = read_results(coach.session.results.saved[0])
    coach.session.close()
    return document


def test_the_shorter_clock_counts_ends_and_stands_in_the_results(coach: Any) -> None:
    assert fitted(coach, TURNTABLE, SHORTER) == "Turntable: 12:00 of 16:00 planned"
    to_the_piece(coach)
    live = coach.session.live
    for _ in range(5):
        coach.wind(130)
        coach.type("n")
    assert live.phase == "running"
    coach.wind(12 * 60 - 650)
    assert live.phase == "over"
    document = to_the_end(coach, "4n.i1.b1")
    (piece,) = document.pieces
    assert (piece.length_s, piece.planned_s) == (720, 960)
    noor = next(lane for lane in piece.lanes if lane.athlete == "Noor")
    assert (noor.score, noor.note) == ("5+4", "12:00 of 16:00 planned")


def test_the_table_and_the_report_say_what_was_planned(
    coach: Any, capsys: pytest.CaptureFixture[str]
) -> None:
    fitted(coach, TURNTABLE, SHORTER)
    to_the_piece(coach)
    coach.wind(60)
    coach.type("n")
    to_the_end(coach, "0n.i1.b1")
    table = coach.session.results.saved[0].with_suffix(".csv")
    paths = list(table.parent.glob("*.csv"))
    rows = list(csv.DictReader(paths[0].read_text("utf-8").splitlines()))
    notes = {row["athlete"]: row["note"] for row in rows}
    assert notes == {"Noor": "12:00 of 16:00 planned", "Ilse": "", "Bram": ""}
    assert main(["report"]) == 0
    assert "Turntable, rounds and reps in 12:00 of 16:00 planned" in capsys.readouterr().out
    assert main(["results"]) == 0
    assert "12:00 of 16:00 planned" in capsys.readouterr().out


def test_as_planned_the_results_say_nothing_of_it(coach: Any) -> None:
    fitted(coach, TURNTABLE, SHORTER)
    assert fitted(coach, TURNTABLE, None) == "Turntable: as planned again"
    to_the_piece(coach)
    coach.wind(60)
    coach.type("n")
    (piece,) = to_the_end(coach, "0n.i1.b1").pieces
    assert (piece.length_s, piece.planned_s) == (960, UNSET)
    assert {lane.note for lane in piece.lanes} == {""}


def test_a_class_that_was_cut_off_goes_on_with_the_shorter_clock(
    coach: Any, source: WoundSource, tmp_path: Path
) -> None:
    fitted(coach, TURNTABLE, SHORTER)
    to_the_piece(coach)
    coach.wind(700)
    coach.type("n")
    before, path = coach.session.live.record, coach.session.journal.path
    coach.session.close()
    session, journal = rejoin_session(
        path, folder=tmp_path, club=Club(), source=source, sound=False
    )
    assert session.live.record == before == replayed(journal)
    coach.session = session
    coach.wind(20)
    assert session.live.phase == "over"
    to_the_end(coach, "3n.i1.b1")
    assert main(["replay", str(path)]) == 0


def test_the_plan_in_the_journal_stays_as_it_was_written(coach: Any, plan_file: PlanFile) -> None:
    fitted(coach, TURNTABLE, SHORTER)
    coach.session.close()
    journal = read_journal(coach.session.journal.path)
    assert journal.opened.plan_text == plan_file.text
    assert replayed(journal).planned(TURNTABLE) == plan_file.plan.segment[TURNTABLE]


def test_what_is_left_out_is_passed_by_on_enter_and_the_board_says_how_time_stands(
    opens: Opens,
) -> None:
    coach = opens()
    live, (third_rail, cool_down) = coach.session.live, (1, 2)
    assert board_now(coach.session).left == "the plan needs 15 min more"
    said = fitted(coach, third_rail, Fit(left_out=True))
    assert said == "Third Rail is left out: going on passes it by"
    board = board_now(coach.session)
    assert (board.next, board.left) == ("next: Cool-down, 1:00", "the plan needs 3 min more")
    coach.start()
    coach.wind(60)
    coach.type("<enter>")
    assert live.record.chosen.segment == cool_down
    coach.wind(2)
    coach.type("<up>")
    board = board_now(coach.session)
    assert (board.name, board.place) == ("Third Rail", "segment 2 of 3, left out")
    coach.start()
    coach.wind(30)
    coach.type("*i*b")
    coach.wind(15)
    (piece,) = to_the_end(coach, "").pieces
    assert (piece.length_s, piece.planned_s) == (720, UNSET)


def test_of_a_scheme_only_the_cap_changes_and_a_finish_is_a_finish(opens: Opens) -> None:
    coach = opens()
    fitted(coach, 1, Fit(length=8 * 60_000))
    to_the_piece(coach)
    for seconds in (100, 90, 80):
        coach.wind(seconds)
        coach.type("i")
    coach.type("b")
    (piece,) = to_the_end(coach, "5b").pieces
    lanes = {lane.athlete: lane for lane in piece.lanes}
    assert (lanes["Ilse"].score, lanes["Ilse"].status, lanes["Ilse"].note) == (
        "4:30",
        "finished",
        "",
    )
    assert (lanes["Bram"].score, lanes["Bram"].status, lanes["Bram"].note) == (
        "23 reps",
        "capped",
        "8:00 of 12:00 planned",
    )


def test_sets_beyond_the_repeats_are_dropped_with_their_loads_and_flags(
    depot: Any, source: WoundSource, coach_of: Any
) -> None:
    depot.held("2026-10-06", depot.squats(depot.lifted("Ilse", "80 kg", "90 kg", "100 kg")))
    sets = ", ".join(f"{{ reps = 3, percent = {percent} }}" for percent in (65, 70, 75, 80, 105))
    text = f"""
title = "Depot strength"
[[segment]]
name = "Front squat"
format = "interval"
repeat = 5
steps = [{{ work = "2:00" }}]
lift = "front squat"
sets = [{sets}]
score = "load"
"""
    plan, findings = parse_plan(text, "strength.toml")
    assert plan is not None, findings
    file = PlanFile("strength", text, plan)
    session = open_session(
        *(file, people_named(("Ilse",))),
        folder=depot.folder,
        club=Club(),
        source=source,
        sound=False,
    )
    coach, live = coach_of(session, source), session.live
    live.plan_loads()
    (flag,) = open_flags(live.record, live.loads, (0,))
    assert "105 kg is above" in flag.text
    fitted(coach, 0, Fit(repeat=4))
    assert open_flags(live.record, live.loads, (0,)) == (), "nobody lifts that set any more"
    assert len(live.lineup()[0].loads) == 4
    fitted(coach, 0, None)
    assert len(live.lineup()[0].loads) == 5
    fitted(coach, 0, Fit(repeat=4))
    coach.start()
    for _ in range(4):
        coach.wind(60)
        coach.type("i")
        coach.wind(60)
    assert live.phase == "over"
    session.save()
    (piece,) = read_results(session.results.saved[0]).pieces
    session.close()
    assert (piece.sets, piece.length_s, piece.planned_s) == ((3, 3, 3, 3), 480, 600)
    assert [attempt.set for attempt in piece.lanes[0].attempts] == [1, 2, 3, 4]


# -- the next time ------------------------------------------------------------------


def cap_of(coach: Any, cap: int | None, seconds: tuple[int, ...], odd: str) -> ResultsDocument:
    """Ilse does a round after so many seconds each, under this cap in minutes."""
    if cap is not None:
        fitted(coach, 1, Fit(length=cap * 60_000))
    to_the_piece(coach)
    assert coach.session.read_bests() == ""
    for wait in seconds:
        coach.wind(wait)
        coach.type("i")
    coach.type(".b")
    return to_the_end(coach, odd)


def test_a_finish_compares_with_any_cap_and_what_was_cut_off_with_its_own(
    opens: Opens, source: WoundSource, capsys: pytest.CaptureFixture[str]
) -> None:
    def next_week() -> Any:
        source.set_wall(source.wall() + timedelta(days=7))
        return opens()

    def before(document: ResultsDocument) -> str | None:
        return next(lane.best_before for lane in document.pieces[0].lanes if lane.key == "i")

    assert before(cap_of(opens(), None, (300, 200, 100), "")) is None  # 10:00 of 12:00
    assert before(cap_of(next_week(), 8, (300,), "3i")) is None, "21 reps by 8:00: nobody knows"
    assert before(cap_of(next_week(), 8, (300,), "5i")) == "21 reps"
    assert before(cap_of(next_week(), 11, (300, 150, 100), "")) == "10:00", "9:10, any cap"
    assert before(cap_of(next_week(), None, (300, 150, 130), "")) == "9:10"
    assert before(cap_of(next_week(), 7, (200, 100, 100), "")) == "9:10"
    # 6:40 was by 8:00, so it is better than what 8:00 cut off.
    assert before(cap_of(next_week(), 8, (300,), "6i")) == "6:40"
    assert main(["chart"]) == 0
    assert "6:40" in capsys.readouterr().out
    assert main(["athlete", "Ilse", "--json"]) == 0
    page = json.loads(capsys.readouterr().out)
    assert [(best["score"], best["work"], best["times"]) for best in page["bests"]] == [
        ("6:40", "7:00", 7)
    ]


def test_the_run_to_be_ahead_of_is_one_of_the_same_length_or_a_finished_one(
    open_class: Callable[..., Any], opens: Opens, source: WoundSource
) -> None:
    def runs(coach: Any) -> dict[str, int]:
        sheet = coach.session.live.record.sheet
        bests = coach.session.results.own_bests
        found = bests.runs(sheet.piece, sheet.lanes, sheet.timeline.total)
        return {name: run.total for name, run in found.items()}

    coach = open_class()
    to_the_piece(coach)
    coach.wind(100)
    coach.type("n")
    to_the_end(coach, "0n.i1.b1")
    cap_of(opens(), None, (300, 200, 100), "")
    source.set_wall(source.wall() + timedelta(days=7))
    for fit, wanted in ((None, {"Noor": 27}), (SHORTER, {})):
        coach = open_class()
        if fit is not None:
            fitted(coach, TURNTABLE, fit)
        to_the_piece(coach)
        coach.session.read_bests()
        assert runs(coach) == wanted, "rounds in 12:00 are no rounds in 16:00"
        coach.session.close()
    coach = opens()
    fitted(coach, 1, Fit(length=8 * 60_000))
    to_the_piece(coach)
    coach.session.read_bests()
    assert runs(coach) == {"Ilse": 36}, "the same work, whatever the cap"
    coach.session.close()
