"""Visitors of a class that was really held: counted, told from all others, not remembered."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from classclock.book.asking.people_reading import in_files, people_called, remembered
from classclock.book.files.journal import read_journal
from classclock.book.files.saved_results import read_results
from classclock.clock.source import WoundSource
from classclock.commands.command_line import main
from classclock.live.replaying import replayed
from classclock.live.session_opening import open_session, rejoin_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.settings.club import Club
from classclock.screens.live.class_actions import note, take_in

Hold = Callable[..., Any]


@pytest.fixture
def opened(
    plan_file: PlanFile,
    source: WoundSource,
    tmp_path: Path,
    coach_of: Any,
    monkeypatch: pytest.MonkeyPatch,
) -> Hold:
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(tmp_path))

    def open_it(*names: str) -> Any:
        people = people_called(names, in_files(tmp_path))
        session = open_session(
            plan_file, people, folder=tmp_path, club=Club(), source=source, sound=False
        )
        return coach_of(session, source)

    return open_it


def through_the_piece(coach: Any, *, late: str = "") -> None:
    """To the scores: everybody who is here has three rounds and four reps."""
    coach.start()
    coach.wind(60)
    coach.type("<enter>")
    coach.start()
    if late:
        coach.wind(30)
        assert not take_in(coach.session, late).refused
    keys = "".join(lane.key for lane in coach.session.live.record.sheet.lanes)
    for _ in range(3):
        coach.wind(100)
        coach.type(keys)
    coach.wind(900)
    coach.type("".join(f"4{key}" for key in keys))


def closed(coach: Any) -> Path:
    for _ in range(2):
        coach.wind(2)
        coach.type("<enter>")
    assert coach.session.live.phase == "closed"
    coach.session.save()
    coach.session.close()
    return Path(coach.session.results.saved[0])


def said(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str]:
    status = main(words)
    out = capsys.readouterr()
    return status, out.out + out.err


def chart(capsys: pytest.CaptureFixture[str]) -> list[str]:
    _, out = said(capsys, "chart", "--json")
    return [row["name"] for row in json.loads(out)["rows"]]


def test_visitors_count_and_are_marked_and_nothing_remembers_them(
    opened: Hold, capsys: Any, tmp_path: Path
) -> None:
    coach = opened("Ilse", "?", "?")
    through_the_piece(coach, late="?, Uri")
    path = closed(coach)
    document = read_results(path)
    assert [(one.name, bool(one.visitor)) for one in document.people] == [
        ("Ilse", False),
        ("visitor 1", True),
        ("visitor 2", True),
        ("visitor 3", True),
        ("Uri", False),
    ]
    (piece,) = document.pieces
    assert {lane.athlete for lane in piece.lanes} == {one.name for one in document.people}
    assert {lane.score for lane in piece.lanes} == {"3+4"}
    plain = json.loads(path.read_bytes())["people"]
    assert [one.get("visitor") for one in plain] == [None, True, True, True, None]
    assert chart(capsys) == ["Ilse"]  # Uri came late: no best
    for known in (in_files(tmp_path), remembered(tmp_path)):
        assert sorted(one.name for one in known) == ["Ilse", "Uri"]
    assert said(capsys, "athlete", "visitor 1")[0] == 2
    assert "The same as saved" in said(capsys, "replay", str(coach.session.journal.path))[1]
    assert "visitor 1" in said(capsys, "results")[1]
    assert said(capsys, "report", "--text")[0] == 0


def test_the_next_unnamed_one_is_somebody_else(opened: Hold) -> None:
    first = opened("Ilse", "?")
    through_the_piece(first)
    closed(first)
    ilse, again = opened("Ilse", "?").session.live.record.people
    was = {person.name: person.id for person in first.session.live.record.people}
    assert ilse.id == was["Ilse"]
    assert again.id != was["visitor 1"]
    assert again.name == "visitor 1"


def test_a_visitor_who_is_named_in_the_class_is_in_the_book(
    opened: Hold, capsys: Any, tmp_path: Path
) -> None:
    coach = opened("Ilse", "?", "?")
    through_the_piece(coach)
    outcome = take_in(coach.session, "visitor 1 = Anna")
    assert outcome.text == "visitor 1 is Anna"
    refused = take_in(coach.session, "2 = anna")
    assert refused.refused
    assert refused.text == "there is a anna already: add an initial, as in anna B"
    assert take_in(coach.session, "Bram = Anna").refused
    document = read_results(closed(coach))
    assert [lane.athlete for lane in document.pieces[0].lanes] == ["Ilse", "Anna", "visitor 2"]
    assert chart(capsys) == ["Anna", "Ilse"]
    assert replayed(read_journal(coach.session.journal.path)) == coach.session.live.record


def test_a_visitor_whom_the_book_knows_is_joined_to_it_in_words_and_that_can_be_taken_back(
    opened: Hold, capsys: Any
) -> None:
    first = opened("Anna", "Ilse")
    through_the_piece(first)
    closed(first)
    coach = opened("Ilse", "?")
    through_the_piece(coach)
    text = take_in(coach.session, "1 = anna").text
    assert text == (
        "visitor 1 is Anna, whom the book knows; classclock book undo makes two of them again"
    )
    coach.session.remember()
    closed(coach)
    assert chart(capsys) == ["Anna", "Ilse"]
    _, page = said(capsys, "athlete", "Anna", "--json")
    assert json.loads(page)["classes"] == 2
    assert said(capsys, "book", "undo")[0] == 0
    assert len(chart(capsys)) == 3


def test_a_visitor_is_named_after_the_class(opened: Hold, capsys: Any) -> None:
    coach = opened("Ilse", "?", "?")
    through_the_piece(coach)
    path = closed(coach)
    status, words = said(capsys, "book", "name", "visitor 2", "Zoe\u0308")
    assert (status, words) == (0, "visitor 2 is Zo\u00eb now, new in the book.\n")
    document = read_results(path)
    assert [lane.athlete for lane in document.pieces[0].lanes] == ["Ilse", "visitor 1", "Zo\u00eb"]
    table = path.with_name(f"{path.stem}-turntable.csv").read_text("utf-8")
    assert "1,Zo\u00eb,3+4" in table
    assert chart(capsys) == ["Ilse", "Zo\u00eb"]
    journal = coach.session.journal.path
    assert said(capsys, "replay", str(journal))[1].endswith(f"The same as saved in {path.name}.\n")
    assert not read_journal(journal).unfinished
    status, words = said(capsys, "book", "name", "2", "Bea")
    assert (status, words) == (2, "which visitor? visitor 1: as in visitor 1 = Anna\n")
    assert said(capsys, "book", "name", "1", "Ilse")[0] == 2
    assert said(capsys, "book", "name", "1", "Bea\x1b[2J")[0] == 2
    assert said(capsys, "book", "name", "1", "[red]=cmd()")[0] == 0
    assert "[red]=cmd()" in said(capsys, "results")[1]
    assert "'=" in path.with_name(f"{path.stem}-turntable.csv").read_text("utf-8") or (
        ",[red]=cmd()," in path.with_name(f"{path.stem}-turntable.csv").read_text("utf-8")
    )


def test_after_the_class_one_whom_the_book_knows_is_joined_to_it(opened: Hold, capsys: Any) -> None:
    first = opened("Anna", "Ilse")
    through_the_piece(first)
    closed(first)
    coach = opened("Ilse", "?")
    through_the_piece(coach)
    closed(coach)
    status, words = said(capsys, "book", "name", "1", "ANNA")
    assert status == 0
    assert words == (
        "visitor 1 is Anna, whom the book knows; classclock book undo makes two of them again.\n"
    )
    assert chart(capsys) == ["Anna", "Ilse"]
    status, words = said(capsys, "book", "name", "1", "Ilse")
    assert (status, words) == (2, "Ilse was in that class too: add an initial to the name\n")


def test_a_class_that_runs_names_its_visitors_itself(opened: Hold, capsys: Any) -> None:
    coach = opened("Ilse", "?")
    through_the_piece(coach)
    coach.session.save()
    before = coach.session.journal.path.read_bytes()
    status, words = said(capsys, "book", "name", "1", "Anna")
    assert (status, words) == (2, "that class runs now: + in it, then visitor 1 = Anna\n")
    assert coach.session.journal.path.read_bytes() == before


def test_a_class_that_was_cut_off_goes_on_at_the_right_moment(
    opened: Hold, capsys: Any, source: WoundSource
) -> None:
    coach = opened("Ilse", "?")
    through_the_piece(coach)
    coach.session.save()
    coach.session.close()  # the window, not the class
    path = coach.session.journal.path
    before = read_journal(path)
    assert said(capsys, "book", "name", "1", "Anna")[0] == 0
    after = read_journal(path)
    wall = source.wall()
    anchor = before.anchors[0]
    for boot, raw in ((anchor.boot, anchor.raw + 10**12), ("another boot", 1)):
        moments = [one.moment(boot=boot, raw=raw, wall=wall) for one in (before, after)]
        assert moments[0] == moments[1]
    assert after.unfinished


def test_somebody_who_was_a_visitor_is_erased_like_anybody(opened: Hold, capsys: Any) -> None:
    coach = opened("Ilse", "?")
    through_the_piece(coach)
    take_in(coach.session, "1 = Saoirse")
    path = closed(coach)
    assert said(capsys, "book", "erase", "Saoirse", "--yes")[0] == 0
    journal = coach.session.journal.path
    for file in (path, journal):
        assert "Saoirse" not in file.read_text("utf-8")
    assert "The same as saved" in said(capsys, "replay", str(journal))[1]
    assert chart(capsys) == ["Ilse"]


def test_a_killed_class_comes_back_with_visitors_names_and_notes(
    opened: Hold, source: WoundSource
) -> None:
    coach = opened("Ilse", "?", "?")
    take_in(coach.session, "1 = Anna")
    coach.start()
    note(coach.session, "left knee", coach.session.live.record.people[1].id)
    before = coach.session.live.record
    coach.session.close()
    path = coach.session.journal.path
    session, _ = rejoin_session(
        path, folder=path.parent.parent, club=Club(), source=source, sound=False
    )
    assert session.live.record == before
    assert [one.name for one in session.live.record.people] == ["Ilse", "Anna", "visitor 2"]
    assert take_in(session, "?").text == ""
    assert session.live.record.people[-1].name == "visitor 3"
    session.close()
