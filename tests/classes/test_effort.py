"""How hard an hour was: said on the last screen, put right after it, and what becomes of it."""

import json
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from classclock.book.files.journal import read_journal
from classclock.book.files.saved_results import read_results
from classclock.clock.source import WoundSource
from classclock.commands.command_line import main
from classclock.live.replaying import replayed
from classclock.live.session_opening import open_session, rejoin_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.records.class_document import results_document
from classclock.records.document import ResultsDocument, known
from classclock.tally.lane_keys import people_named

TWO_PIECES = 'title = "Depot Tuesday"\n' + "".join(
    f'[[segment]]\nname = "{name}"\nformat = "countdown"\ntime = "2:00"\nscore = "reps"\n'
    for name in ("Shunt", "Depot")
)
ASKS = Club.model_validate({"class": {"ask_effort": True}})


@pytest.fixture
def evening(source: WoundSource, tmp_path: Path, coach_of: Any) -> Callable[..., Any]:
    def begin(*names: str, club: Club = ASKS) -> Any:
        plan, findings = parse_plan(TWO_PIECES, "depot.toml")
        assert plan is not None, findings
        session = open_session(
            PlanFile("depot", TWO_PIECES, plan),
            people_named(names),
            folder=tmp_path / "club",
            club=club,
            source=source,
            sound=False,
        )
        return coach_of(session, source)

    return begin


def played(coach: Any, after: int = 60) -> None:
    """The piece on the board, two minutes long, and a minute after it."""
    coach.start()
    coach.wind(120 + after)
    coach.type("* <enter>".replace(" ", ""))


def saved(coach: Any) -> ResultsDocument:
    assert coach.session.save()
    (path,) = coach.session.results.folder.glob("*.json")
    return read_results(path)


def said(document: ResultsDocument) -> dict[str, tuple[int | None, int | None]]:
    return {one.name: (known(one.effort, None), known(one.here_s, None)) for one in document.people}


def test_a_class_counts_from_its_first_start_to_its_last_end_or_until_somebody_left(
    evening: Callable[..., Any],
) -> None:
    coach = evening("Ilse", "Bram", "Noor")
    coach.wind(300)  # the board stands for a while: that is no part of it
    played(coach)
    coach.type(".b")
    played(coach)
    coach.wind(600)
    coach.type("7i10b")
    # From go: two minutes and one after, 2 s and 10 s to the next go, two minutes.
    assert said(saved(coach)) == {
        "Ilse": (7, 180 + 12 + 120),
        "Bram": (10, 180),
        "Noor": (None, 312),
    }


def test_it_is_put_right_by_saying_it_again_and_the_journal_tells_the_same(
    evening: Callable[..., Any],
) -> None:
    coach = evening("Ilse", "Bram")
    played(coach)
    played(coach)
    coach.type("7i")
    coach.wind(2)
    coach.type("4i")
    document = saved(coach)
    assert said(document)["Ilse"][0] == 4
    journal = read_journal(coach.session.journal.path)
    again = results_document(replayed(journal), started=document.started, journal=document.journal)
    assert again.people == document.people


def test_it_is_not_asked_while_the_class_goes_on(evening: Callable[..., Any]) -> None:
    coach = evening("Ilse", "Bram")
    played(coach)
    coach.type("7i")
    assert coach.session.live.record.efforts == {}


def test_the_answer_is_a_tick_and_the_number_stands_nowhere(evening: Callable[..., Any]) -> None:
    coach = evening("Ilse", "Bram")
    played(coach)
    played(coach)
    coach.type("7")
    assert coach.session.desk.pending == "•"
    assert coach.type("i") == "Ilse, how hard it was: ✓"
    coach.wind(2)
    coach.type("83")
    assert "8" not in coach.type("<enter>")
    assert "8" not in coach.type("x")
    assert "8" not in coach.type("b")
    coach.wind(2)
    coach.type("9")
    coach.wind(5)
    lapsed = coach.session.desk.lapse(coach.source.stroke_ms(0.0) + 60_000)
    assert "9" not in lapsed


def test_enter_asks_no_more_and_who_says_it_all_the_same_is_heard(
    evening: Callable[..., Any],
) -> None:
    coach = evening("Ilse", "Bram")
    played(coach)
    played(coach)
    record = coach.session.live.record
    assert (record.closed, record.asks_effort) == (True, True)
    coach.wind(2)
    coach.type("<enter>")
    assert not coach.session.live.record.asks_effort
    coach.wind(2)
    assert coach.type("<enter>").startswith("the class is over")
    coach.type("3b")
    assert coach.session.live.record.efforts == {coach.session.live.record.people[1].id: 3}


def test_a_club_that_does_not_ask_hears_it_all_the_same(evening: Callable[..., Any]) -> None:
    coach = evening("Ilse", club=Club())
    played(coach)
    played(coach)
    assert not coach.session.live.record.asks_effort
    coach.type("6i")
    assert said(saved(coach))["Ilse"][0] == 6


def test_nothing_is_kept_of_who_has_no_name(evening: Callable[..., Any]) -> None:
    coach = evening("Ilse", "?")
    played(coach)
    played(coach)
    (visitor,) = (one for one in coach.session.live.record.people if one.visitor)
    assert "isn't in the book" in coach.type(f"7{visitor.key}")
    assert coach.session.live.record.efforts == {}


def test_a_class_that_is_rejoined_knows_what_was_said(
    evening: Callable[..., Any], source: WoundSource
) -> None:
    coach = evening("Ilse", "Bram")
    played(coach)
    played(coach)
    coach.type("7i")
    coach.session.close()
    path, folder = coach.session.journal.path, coach.session.results.folder.parent
    again, _ = rejoin_session(path, folder=folder, club=ASKS, source=source, sound=False)
    assert again.live.record.efforts == coach.session.live.record.efforts
    again.close()


def test_from_the_last_screen_to_the_athletes_page_and_put_right_and_taken_back(
    evening: Callable[..., Any],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(tmp_path / "club"))
    today = datetime.fromisoformat("2026-11-29T20:00:00+01:00")
    for module in ("athlete", "effort"):
        monkeypatch.setattr(f"classclock.commands.{module}.local_now", lambda: today)
    coach = evening("Ilse", "Bram")
    played(coach)
    played(coach)
    coach.type("7i")
    saved(coach)
    coach.session.close()

    def command_says(*words: str) -> str:
        assert main(words) == 0
        return capsys.readouterr().out

    def week() -> dict[str, Any]:
        found: dict[str, Any] = json.loads(command_says("athlete", "Ilse", "--json"))["weeks"][0]
        return found

    minutes = round(7 * 312 / 60)
    assert week() == {
        "monday": "2026-11-23",
        "classes": 1,
        "effort_minutes": minutes,
        "monotony": pytest.approx(7**-0.5),  # one class in seven days, whatever it was
        "strain": pytest.approx(minutes * 7**-0.5),
    }
    command_says("effort", "Ilse", "4")
    assert week()["effort_minutes"] == round(4 * 312 / 60)
    command_says("effort", "Ilse", "--drop")
    assert week()["effort_minutes"] is None
    command_says("book", "undo")
    assert week()["effort_minutes"] == round(4 * 312 / 60)
    command_says("book", "undo")
    assert week()["effort_minutes"] == minutes
    command_says("book", "rebuild")
    assert week()["effort_minutes"] == minutes
