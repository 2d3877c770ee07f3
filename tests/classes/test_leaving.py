"""Whole classes out of which people go, and into which they come back: what is counted, and saved.

That the number of lanes, ranks and absences follow who is in the room is the project's own rule.
"""

from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from classclock.book.asking.people_reading import in_files
from classclock.book.erasing.name_finding import name_finder
from classclock.book.erasing.scrubbing import Scrub
from classclock.book.files.journal import read_journal
from classclock.book.files.saved_results import read_results
from classclock.clock.source import MS, WoundSource
from classclock.live.replaying import replayed
from classclock.live.session_opening import open_session, rejoin_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.records.class_document import results_document
from classclock.records.document import LaneResults, ResultsDocument, known
from classclock.tally.lane_keys import people_named
from tests.classes.conftest import Coach

PIECE = """
[[segment]]
name   = "{name}"
format = "countdown"
time   = "2:00"
score  = "reps"
{teams}
"""


def plan_of(*names: str, teams: str = "") -> PlanFile:
    text = 'title = "Depot Tuesday"\n' + "".join(
        PIECE.format(name=name, teams=teams) for name in names
    )
    plan, findings = parse_plan(text, "depot.toml")
    assert plan is not None, findings
    return PlanFile("depot", text, plan)


@pytest.fixture
def evening(source: WoundSource, tmp_path: Path, coach_of: Any) -> Callable[..., Any]:
    """A coach with a class of these people; a piece of two minutes each."""

    def begin(*names: str, pieces: tuple[str, ...] = ("Shunt", "Depot"), teams: str = "") -> Any:
        session = open_session(
            plan_of(*pieces, teams=teams),
            people_named(names),
            folder=tmp_path,
            club=Club(),
            source=source,
            sound=False,
        )
        return coach_of(session, source)

    return begin


def played(coach: Any, keys: str = "") -> None:
    """The piece on the board, with what is typed in it, until the next is on the board."""
    coach.start()
    coach.wind(30)
    coach.type(keys)
    coach.wind(120)
    coach.type("<enter>")


def saved(coach: Any) -> ResultsDocument:
    assert coach.session.save()
    (path,) = coach.session.results.folder.glob("*.json")
    return read_results(path)


def lanes(document: ResultsDocument, piece: int) -> dict[str, LaneResults]:
    return {lane.athlete: lane for lane in document.pieces[piece].lanes}


def test_who_left_is_in_no_later_piece_and_their_earlier_score_and_rank_stand(
    evening: Callable[..., Any],
) -> None:
    coach = evening("Ilse", "Bram", "Noor")
    played(coach, "30b20i10n")
    first = lanes(saved(coach), 0)
    coach.session.live.leave("Bram")
    played(coach, "12i11n")
    document = saved(coach)
    assert lanes(document, 0) == first
    assert (first["Bram"].rank, first["Bram"].score) == (1, "30 reps")
    assert set(lanes(document, 1)) == {"Ilse", "Noor"}
    assert {lane.status for lane in document.pieces[1].lanes} == {"scored"}
    assert [lane.rank for lane in document.pieces[1].lanes] == [1, 2]
    assert [(one.name, known(one.left_after, None)) for one in document.people] == [
        ("Ilse", None),
        ("Bram", "Shunt"),
        ("Noor", None),
    ]


def test_who_left_before_the_first_piece_came_all_the_same(evening: Callable[..., Any]) -> None:
    coach = evening("Ilse", "Bram")
    coach.session.live.leave("Bram")
    played(coach, "20i")
    document = saved(coach)
    assert [(one.name, known(one.left_after, None)) for one in document.people] == [
        ("Ilse", None),
        ("Bram", ""),
    ]
    assert [one.name for one in in_files(coach.session.results.folder.parent)] == ["Ilse", "Bram"]


def test_of_a_pair_that_was_here_whoever_stays_goes_on(evening: Callable[..., Any]) -> None:
    """The pair of whom one had gone was scored as absent, though the other was there."""
    coach = evening("Pavel", "Tom", "Ilse", "Bram", teams="teams = 2")
    played(coach, "30p20i")
    coach.session.live.leave("Pavel")
    played(coach, "25t22i")
    later = lanes(saved(coach), 1)
    assert {name: (lane.score, lane.status) for name, lane in later.items()} == {
        "Tom": ("25 reps", "scored"),
        "Ilse + Bram": ("22 reps", "scored"),
    }
    assert later["Tom"].members == ("Tom",)


def test_who_is_back_is_in_the_pieces_from_then_on(evening: Callable[..., Any]) -> None:
    coach = evening("Ilse", "Bram", pieces=("Shunt", "Depot", "Yard"))
    coach.session.live.leave("Bram")
    played(coach, "20i")
    played(coach, "20i")
    coach.session.live.back("Bram")
    played(coach, "20i21b")
    document = saved(coach)
    assert [set(lanes(document, piece)) for piece in (0, 1, 2)] == [
        {"Ilse"},
        {"Ilse"},
        {"Ilse", "Bram"},
    ]
    assert [known(one.left_after, None) for one in document.people] == [None, None]


def test_rejoined_and_replayed_it_is_the_same(
    evening: Callable[..., Any], source: WoundSource, tmp_path: Path, coach_of: Any
) -> None:
    coach = evening("Ilse", "Bram", "Noor", pieces=("Shunt", "Depot", "Yard"))
    played(coach, "30b20i10n")
    coach.session.live.leave("Bram")
    coach.session.live.leave("Noor")
    before, path = coach.session.live.record, coach.session.journal.path
    coach.session.close()
    session, _ = rejoin_session(path, folder=tmp_path, club=Club(), source=source, sound=False)
    assert session.live.record == before
    again = coach_of(session, source)
    session.live.back("Noor")
    played(again, "12i11n")
    document = saved(again)
    worked_out = results_document(
        replayed(read_journal(path)), started=document.started, journal=path.name
    )
    assert worked_out.people == document.people
    assert [set(lanes(worked_out, piece)) for piece in (0, 1)] == [
        {"Ilse", "Bram", "Noor"},
        {"Ilse", "Noor"},
    ]


def test_who_left_can_be_erased_as_anybody(evening: Callable[..., Any]) -> None:
    coach = evening("Ilse", "Bram")
    played(coach, "30b20i")
    coach.session.live.leave("Bram")
    document = Scrub(frozenset({"Bram"}), name_finder({"Bram"}), "erased-1").results(saved(coach))
    assert [one.name for one in document.people] == ["Ilse"]
    assert [known(one.left_after, None) for one in document.people] == [None]


@given(st.lists(st.sampled_from([".i", ".b", ".n", "-i", "-b", "-n", "play"]), max_size=14))
@settings(max_examples=25, deadline=None)
def test_however_people_come_and_go_a_journal_replays_to_the_same_class(typed: list[str]) -> None:
    with TemporaryDirectory() as folder:
        source = WoundSource(start=5_000 * MS)
        session = open_session(
            plan_of(*(f"Shunt {number}" for number in range(16))),
            people_named(("Ilse", "Bram", "Noor")),
            folder=Path(folder),
            club=Club(),
            source=source,
            sound=False,
        )
        coach = Coach(session, source)
        for keys in typed:
            source.jump(2_000 * MS)
            if keys == "play":
                played(coach)
            else:
                coach.type(keys)
        session.close()
        record = session.live.record
        assert replayed(read_journal(session.journal.path)) == record
        for run, sheet in record.runs.items():
            gone = {ident for ident, after in record.left.items() if after is None or after < run}
            assert not gone & {ident for lane in sheet.lanes for ident in lane.members}
