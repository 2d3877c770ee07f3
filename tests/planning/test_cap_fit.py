"""Whether the cap fits those who are here, from what the book knows of them."""

import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.book.asking.fit_reading import FitQuestion, basis_for
from classclock.book.files.event_lines import event_line
from classclock.book.files.journal import Anchor
from classclock.commands.command_line import main
from classclock.plan.model import Plan
from classclock.plan.reading.plan_reading import parse_plan
from classclock.planning.cap_fit import Basis, Past, PieceFit, StationDone, cap_fit
from classclock.records.result import Result, Terms, finish_worth, rounds_worth
from classclock.records.written_terms import NOT_SAID
from classclock.report.fit_words import fit_line, fit_values, room_words
from classclock.tally.events import ClassOpened
from classclock.tally.lanes import Choice, Lane, Person
from classclock.tally.lineup import draw_lanes
from classclock.tally.piece import Piece
from classclock.units.spelling import fold

PLAN = """
title = "Depot"

[[segment]]
name = "Turntable"
benchmark = "turntable"
format = "rounds-in-time"
time = "16:00"

  [[segment.station]]
  movement = "box step-over"
  reps = 15
  options = ["step-up"]

  [[segment.station]]
  movement = "bodyweight squat"
  reps = 12

[[segment]]
name = "Third Rail"
benchmark = "third-rail"
format = "capped-for-time"
cap = "12:00"
rounds = 3

  [[segment.station]]
  movement = "kettlebell swing"
  load = "16 kg"
  reps = 15

  [[segment.station]]
  movement = "push-up"
  reps = 9
"""
DAY = "2026-10-02"
WRITTEN = Terms("", "", "16:00")
SWINGS = StationDone(("kettlebell swing", "reps"), "16 kg")
PUSH_UPS = StationDone((fold("push-up"), "reps"), "")


def read(text: str = PLAN) -> Plan:
    plan, findings = parse_plan(text, "depot.toml")
    assert plan is not None, [str(one) for one in findings]
    return plan


def piece(number: int, text: str = PLAN) -> Piece:
    return Piece.of(read(text).segment[number], "kg")


def lanes(number: int, *names: str, **options: tuple[int, ...]) -> tuple[Lane, ...]:
    """Ids are the names in small letters, as in the Depot's classes."""
    people = [Person(name.lower(), name, name[0].lower()) for name in names]
    chosen = {one.id: Choice(options[one.name]) for one in people if one.name in options}
    return draw_lanes(read().segment[number], people, chosen)


def rounds(score: str, moment: int = 1, terms: Terms = WRITTEN, **more: Any) -> Past:
    whole, odd = map(int, score.split("+"))
    worth, total = rounds_worth(whole, odd), more.pop("total", whole * 27 + odd)
    result = Result(
        "x", "Turntable", "turntable", DAY, moment, score, "rounds", worth, total, terms
    )
    return Past(result, **more)


def timed(seconds: int, reps: int, moment: int = 1, **more: Any) -> Past:
    """A finish of some other piece."""
    terms = more.pop("terms", Terms("", "", "20:00"))
    benchmark = more.pop("benchmark", "")
    result = Result(
        "x",
        "Siding",
        benchmark,
        "2026-10-02",
        moment,
        "",
        "time",
        finish_worth(seconds),
        reps,
        terms,
    )
    return Past(result, **more)


def told(number: int, here: Sequence[Lane], **past: Sequence[Past]) -> PieceFit:
    by_id = {lane.members[0]: past.get(lane.name, ()) for lane in here}
    return cap_fit(piece(number), here, Basis(by_id))


def test_an_own_result_on_the_benchmark_is_what_is_expected() -> None:
    here = lanes(0, "Ilse", "Bram", "Noor")
    fit = told(0, here, Ilse=[rounds("8+0")], Bram=[rounds("6+0")])
    assert [one.score for one in fit.told] == ["6+0", "8+0"]
    assert (fit.here, fit.without, fit.results, fit.people, fit.otherwise) == (3, 1, 2, 2, 0)
    assert fit_line(fit) == (
        "Turntable: 2 of 3 here would get 6+0 to 8+0, the middle 6+0, in 16:00 "
        "(rests on 2 results of 2 people); 1 has no records"
    )


def test_the_middle_of_the_last_three_counts() -> None:
    past = [rounds("12+0", 1), rounds("7+0", 2), rounds("9+0", 3), rounds("8+0", 4)]
    fit = told(0, lanes(0, "Ilse"), Ilse=past)
    assert [one.score for one in fit.told] == ["8+0"]
    assert fit.results == 3


def test_equal_options_come_before_others_and_others_are_named() -> None:
    modified = Terms("step-up", "", "16:00")
    past = [rounds("9+0", 2, modified), rounds("6+0", 1)]
    as_written = told(0, lanes(0, "Ilse"), Ilse=past)
    stepping = told(0, lanes(0, "Ilse", Ilse=(1, 0)), Ilse=past)
    assert [as_written.told[0].score, stepping.told[0].score] == ["6+0", "9+0"]
    assert as_written.otherwise == stepping.otherwise == 0
    named = told(0, lanes(0, "Ilse"), Ilse=past[:1])
    assert named.otherwise == 1
    assert fit_line(named).endswith(
        "(rests on 1 result of 1 person); 1 by results with other options or loads"
    )


def test_a_shorter_run_of_the_benchmark_is_carried_on_by_the_law() -> None:
    # 4 rounds in 8:00; 8 rounds take 480 x 2^1.06 = 1000.8 s and 7 take 480 x (7/4)^1.06 = 868.7:
    # at 16:00 (960 - 868.7) / 132.1 = 0.69 of the eighth is done, 18 of 27.
    fit = told(0, lanes(0, "Ilse"), Ilse=[rounds("4+0", 1, Terms("", "", "8:00"))])
    assert [one.score for one in fit.told] == ["7+18"]


def test_a_score_from_an_old_spreadsheet_is_worked_out_in_reps_of_today() -> None:
    old = rounds("7+12", 1, Terms("", NOT_SAID, NOT_SAID), total=None)
    fit = told(0, lanes(0, "Ilse"), Ilse=[old])
    assert fit.told[0].total == pytest.approx(7 * 27 + 12, abs=1)


def test_finishers_are_counted_and_those_cut_off_are_not() -> None:
    here = lanes(1, "Ilse", "Bram", "Noor", "Uri")
    terms = Terms("", "16 kg", "12:00")
    capped = Result("x", "Third Rail", "third-rail", DAY, 1, "60 reps", "time", 60, 60, terms)
    fit = told(
        1,
        here,
        Ilse=[timed(511, 72, benchmark="third-rail", terms=terms)],
        Bram=[timed(720, 72, benchmark="third-rail", terms=terms)],
        Noor=[Past(capped)],
    )
    assert [one.finish for one in fit.told] == [None, 720_000, 511_000]
    assert fit_line(fit) == (
        "Third Rail: of 4 here 2 would finish within 12:00 "
        "(rests on 3 results of 3 people); 1 has no records"
    )
    assert fit_values(fit)["would_finish"] == 2


def test_pieces_with_the_same_movements_tell_where_the_benchmark_is_new() -> None:
    # 45 swings and 27 push-ups. Swings at 600 s for 150 reps, q = 2961.4; push-ups at 600 s for
    # 300, q = 1420.4: 72^0.06 x (45 x 2961.4 + 27 x 1420.4) = 1.2925 x 171,614 = 221.8 s.
    past = [timed(600, 150, 1, stations=(SWINGS,)), timed(600, 300, 2, stations=(PUSH_UPS,))]
    fit = told(1, lanes(1, "Ilse"), Ilse=past)
    finish = fit.told[0].finish
    assert finish is not None
    assert abs(finish - 221_800) < 200
    assert (fit.results, fit.people, fit.otherwise, fit.by_movements) == (2, 1, 0, 1)
    assert fit_line(fit).endswith("; 1 by other pieces with the same movements")


def test_a_station_that_no_result_holds_leaves_no_guess() -> None:
    fit = told(1, lanes(1, "Ilse"), Ilse=[timed(600, 150, stations=(SWINGS,))])
    assert fit.told == ()
    assert fit_line(fit) == "Third Rail: nothing tells how it would go: 1 has no records"


def test_another_load_is_used_where_there_is_no_equal_one_and_is_named() -> None:
    light = StationDone(SWINGS.movement, "8 kg")
    push_ups = timed(600, 300, 1, stations=(PUSH_UPS,))
    other = told(1, lanes(1, "Ilse"), Ilse=[push_ups, timed(300, 150, 2, stations=(light,))])
    assert other.otherwise == 1
    both = [push_ups, timed(300, 150, 2, stations=(light,)), timed(600, 150, 3, stations=(SWINGS,))]
    assert told(1, lanes(1, "Ilse"), Ilse=both).otherwise == 0


def test_a_late_or_stopped_score_tells_nothing() -> None:
    late = Result(
        "x",
        "Turntable",
        "turntable",
        "2026-10-02",
        1,
        "8+0",
        "rounds",
        8,
        216,
        WRITTEN,
        "came late",
    )
    assert told(0, lanes(0, "Ilse"), Ilse=[Past(late)]).told == ()


def test_metres_count_nothing_so_no_pace_a_rep_is_told() -> None:
    text = PLAN.replace("reps = 9", "metres = 200")
    here = lanes(1, "Ilse")
    past = [timed(600, 150, stations=(SWINGS,)), timed(600, 300, stations=(PUSH_UPS,))]
    assert cap_fit(piece(1, text), here, Basis({here[0].members[0]: past})).told == ()


def test_the_room_hears_most_and_nobodys_own_number() -> None:
    names = ("Ilse", "Bram", "Noor", "Uri", "Tuva")
    scores = ("4+0", "6+0", "7+0", "8+0", "12+0")
    past = {name: [rounds(score)] for name, score in zip(names, scores, strict=True)}
    assert room_words(told(0, lanes(0, *names), **past)) == "most here would get 6 to 8 rounds"
    few = dict(list(past.items())[:3])
    assert room_words(told(0, lanes(0, *names), **few)) == ""
    alike = {name: [rounds("7+1")] for name in names}
    assert room_words(told(0, lanes(0, *names), **alike)) == "most here would get about 7 rounds"
    finishes = {
        name: [timed(400 + 100 * n, 72, benchmark="third-rail", terms=Terms("", "16 kg", "12:00"))]
        for n, name in enumerate(names)
    }
    words = "4 of 5 here would finish within 12:00"
    assert room_words(told(1, lanes(1, *names), **finishes)) == words


results = st.builds(
    timed,
    st.integers(60, 3_000),
    st.integers(20, 300),
    st.integers(1, 10_000),
    stations=st.sampled_from([(SWINGS,), (PUSH_UPS,), (SWINGS, PUSH_UPS)]),
)


@given(st.lists(results, max_size=6), st.integers(1, 60))
def test_a_faster_newer_record_never_raises_an_expected_time(
    known: list[Past], seconds: int
) -> None:
    here = lanes(1, "Ilse")
    before = told(1, here, Ilse=known).told
    faster = timed(seconds, 300, 20_000, stations=(SWINGS, PUSH_UPS))  # than any of the others
    after = told(1, here, Ilse=[*known, faster]).told
    assert after, "with one record of each movement something can be told"
    if before:
        assert after[0].total >= before[0].total
        if before[0].finish is not None:
            assert after[0].finish is not None
            assert after[0].finish <= before[0].finish


# -- from the book ------------------------------------------------------------------


def journal(folder: Path, name: str, plan: str) -> None:
    wall = "2026-10-02T18:30:00.000+01:00"
    opening = event_line(ClassOpened(0, "depot", plan, "kg", (), None), 0, wall)
    (folder / "journals").mkdir(parents=True, exist_ok=True)
    (folder / "journals" / name).write_bytes(Anchor("b", 0, 0, wall).line() + opening)


SIDING = """
title = "Depot, Friday"
[[segment]]
name = "Siding"
format = "rounds-in-time"
time = "10:00"
  [[segment.station]]
  movement = "Kettlebell Swings"
  load = "16 kg"
  reps = 12
  [[segment.station]]
  movement = "press-up"
  reps = 6
  options = ["push-up to a box"]
"""


@pytest.fixture
def friday(depot: Any, storage: str) -> Any:
    """Ilse and Bram did Siding on a Friday, 10+0 and 8+0; Noor did Turntable once."""
    size = {"size": 18, "loads": ["16 kg"], "options": [None, None]}
    depot.held(
        "2026-10-02",
        depot.piece(
            "Siding",
            "rounds-in-time",
            [depot.rounds("Ilse", 10, **size), depot.rounds("Bram", 8, **size)],
            benchmark=None,
            length_s=600,
        ),
    )
    journal(depot.folder, "2026-10-02-1830-depot.jsonl", SIDING)
    depot.held("2026-10-05", depot.turntable(depot.rounds("Noor", 7, options=[None, None])))
    return depot


def basis(depot: Any, people: Sequence[str], began: int = 1_793_000_000_000) -> Basis:
    return basis_for(depot.folder, FitQuestion(people, read(), began))


def test_the_movements_of_a_result_come_from_the_plan_in_its_journal(friday: Any) -> None:
    known = basis(friday, ("ilse", "bram", "noor", "odell"))
    past = known.past["ilse"][0]
    assert past.stations == (
        StationDone((known.name_of("kettlebell swing"), "reps"), "16 kg"),
        StationDone((known.name_of("push-up"), "reps"), ""),
    )
    assert known.past["odell"] == ()
    here = lanes(1, "Ilse", "Bram", "Noor", "Odell")
    fit = cap_fit(piece(1), here, known)
    # Both of Siding's movements, so one pace: 180 reps in 600 s; 72 take 600 x 0.4^1.06 = 227.2 s.
    assert fit.told[-1].finish == pytest.approx(227_160, abs=50)
    assert (len(fit.told), fit.finish, fit.results, fit.people) == (2, 2, 2, 2)


def test_without_the_journal_a_result_tells_of_its_own_benchmark_only(friday: Any) -> None:
    for path in (friday.folder / "journals").iterdir():
        path.unlink()
    known = basis(friday, ("ilse", "noor"))
    assert known.past["ilse"][0].stations == ()
    assert cap_fit(piece(1), lanes(1, "Ilse"), known).told == ()
    assert cap_fit(piece(0), lanes(0, "Noor"), known).told[0].score == "7+0"


def test_what_was_done_since_isnt_earlier(friday: Any) -> None:
    october = 1_790_000_000_000
    assert basis(friday, ("ilse", "noor"), october).past == {"ilse": (), "noor": ()}


def test_check_says_it_for_those_who_are_named(
    friday: Any, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    plan = tmp_path / "depot.toml"
    plan.write_text(PLAN)
    command = ["check", str(plan), "--club", str(friday.folder), "--athletes", "Ilse, Bram, Noor"]
    assert main(command) == 0
    said = capsys.readouterr().out
    assert (
        "Turntable: 1 of 3 here would get 7+0 in 16:00 (rests on 1 result of 1 person); "
        "2 have no records"
    ) in said
    assert (
        "Third Rail: of 3 here 2 would finish within 12:00 (rests on 2 results of 2 people); "
        "1 has no records; 2 by other pieces with the same movements"
    ) in said
    assert main([*command, "--json"]) == 0
    (values,) = json.loads(capsys.readouterr().out)
    assert [one["name"] for one in values["cap_fit"]] == ["Turntable", "Third Rail"]
    assert values["cap_fit"][0]["middle"] == "7+0"
    assert values["cap_fit"][1]["would_finish"] == 2
    assert values["cap_fit"][1]["without_records"] == 1


def test_check_of_a_club_without_a_memory_leaves_its_folder_as_it_is(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    club = tmp_path / "club"
    assert main(["check", "turntable", "--club", str(club), "--athletes", "Ilse, Bram"]) == 0
    assert "records" not in capsys.readouterr().out
    assert not club.exists()
