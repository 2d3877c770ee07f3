"""Whole classes at the settle: who is asked what, answered by keys, kept, rejoined and replayed."""

import json
from pathlib import Path
from typing import Any

import pytest

from classclock.book.files.journal import read_journal
from classclock.commands.command_line import main
from classclock.live.replaying import replayed
from classclock.tally.scores.questions import questions


@pytest.fixture
def settle(coach: Any) -> Any:
    """Over: Ilse has two rounds, Bram one, Noor six, of which the fifth was two taps at once."""
    coach.start()
    coach.wind(60)
    coach.type("<enter>")
    coach.start()
    coach.wind(59)
    coach.type("ib")
    coach.wind(1)
    coach.type("n")
    for seconds in (60, 60, 60, 2, 58):
        coach.wind(seconds)
        coach.type("n")
    coach.type("i")
    coach.wind(725)
    assert coach.session.live.phase == "over"
    return coach


def asked(coach: Any) -> list[str]:
    return [f"{one.name}: {one.words}" for one in questions(coach.session.live.record.sheet)]


def scores(coach: Any) -> list[str]:
    tallies = coach.session.live.record.sheet.tallies.values()
    return [f"{len(tally.rounds)}+{tally.odd}" for tally in tallies]


def test_they_are_asked_in_the_order_of_the_lanes_and_numbers_answer(settle: Any) -> None:
    assert asked(settle) == [
        "Ilse: odd reps?",
        "Bram: odd reps?",
        "Noor: odd reps?",
        "Noor: round 5 came fast: two taps?",
    ]
    assert settle.type("5<enter>").startswith("Ilse, 2+5")
    assert settle.type("11<enter>").startswith("Bram, 1+11")
    assert settle.type("0<enter>").startswith("Noor, 6+0")
    assert asked(settle) == ["Noor: round 5 came fast: two taps?"]
    assert settle.type("-<enter>").startswith("took back Noor's entry, 5+0")
    assert asked(settle) == []
    settle.wind(2)
    settle.type("<enter>")
    assert settle.session.live.phase == "closed"


def test_out_of_turn_a_number_and_its_letter_answer_too(settle: Any) -> None:
    settle.type("3n7b")
    assert asked(settle) == ["Ilse: odd reps?", "Noor: round 5 came fast: two taps?"]


def test_enter_alone_lets_each_stand_and_the_results_say_so(settle: Any) -> None:
    for _ in range(5):
        settle.type("<enter>")
        settle.wind(1.3)
    assert settle.session.live.phase == "closed"
    settle.session.save()
    document = json.loads(Path(settle.session.results.saved[0]).read_text("utf-8"))
    lanes = document["pieces"][0]["lanes"]
    assert [(lane["athlete"], lane["score"], lane["flags"]) for lane in lanes] == [
        ("Noor", "6+0", []),
        ("Ilse", "2+0", []),
        ("Bram", "1+0", []),
    ]


def test_everything_stands_at_once(settle: Any) -> None:
    settle.type("*<enter>")
    assert settle.session.live.phase == "closed"
    assert scores(settle) == ["2+0", "1+0", "6+0"]


def test_each_answer_is_taken_back_and_asked_again(settle: Any) -> None:
    before = asked(settle)
    settle.type("5<enter>")
    settle.type("<backspace>")
    assert asked(settle) == before
    settle.wind(2)
    settle.type("<enter>")
    assert asked(settle) == before[1:]
    settle.wind(2)
    settle.type("<backspace>")
    assert asked(settle) == before
    settle.type("-<backspace>")
    assert asked(settle) == before[1:]


def test_the_third_newest_is_taken_back_while_the_clock_runs(coach: Any) -> None:
    coach.start()
    coach.wind(60)
    coach.type("<enter>")
    coach.start()
    for key in "inb":
        coach.wind(60)
        coach.type(key)
    assert coach.type("-3<enter>") == "took back Ilse's entry, 0+?. - backspace brings it back"
    assert coach.type("-9<enter>") == (
        "there are only 2 entries to take back: -2 and enter is the oldest"
    )
    assert scores(coach) == ["0+None", "1+None", "1+None"]


def test_what_was_let_stand_is_so_after_a_restart_and_in_a_replay(
    settle: Any, capsys: pytest.CaptureFixture[str]
) -> None:
    settle.type("<enter>")
    settle.wind(2)
    settle.type("4<enter>")
    record = settle.session.live.record
    settle.session.save()
    path = settle.session.journal.path
    settle.session.close()
    again: Any = replayed(read_journal(path))
    assert again.sheet.tallies == record.sheet.tallies
    assert [one.words for one in questions(again.sheet)] == [
        "odd reps?",
        "round 5 came fast: two taps?",
    ]
    assert main(["replay", str(path)]) == 0
    said = capsys.readouterr().out
    assert '" Noor: round 5 in 0:02 is very short' in said
    assert "6+?" in said


def rehearsed(plan: Any, taps: Path, capsys: Any, rows: tuple[str, ...]) -> dict[str, Any]:
    path = taps / "turntable.toml"
    path.write_text(plan.text, "utf-8")
    typed = taps / "taps.csv"
    typed.write_text("\n".join(("seconds,keys", *rows)), "utf-8")
    names = "Ilse, Bram, Noor"
    asked = ["rehearse", str(path), "--athletes", names, "--taps", str(typed), "--json"]
    assert main(asked) == 0
    document: dict[str, Any] = json.loads(capsys.readouterr().out)
    return document


def test_a_rehearsal_answers_at_the_settle_too(plan_file: Any, tmp_path: Path, capsys: Any) -> None:
    rows = ("60,i", "61,n", "62,b", "100,-3<enter>", "970,4<enter>", "970,5<enter>", "971,6<enter>")
    document = rehearsed(plan_file, tmp_path, capsys, rows)
    lanes = document["pieces"][0]["lanes"]
    assert {lane["athlete"]: lane["score"] for lane in lanes} == {
        "Ilse": "0+4",
        "Bram": "1+5",
        "Noor": "1+6",
    }


def test_who_stopped_in_it_stays_and_who_leaves_has_no_lane_in_what_comes(settle: Any) -> None:
    live = settle.session.live
    settle.type(".b")
    assert settle.session.desk.pending == ".B"
    settle.type("1")
    assert live.record.sheet.tallies["Bram"].stopped is not None
    settle.type(".i2")
    assert live.record.sheet.tallies["Ilse"].stopped is None
    settle.type("*<enter>")
    settle.wind(2)
    settle.type("<up><ctrl+r>")
    assert [lane.id for lane in live.lineup()] == ["Bram", "Noor"]
