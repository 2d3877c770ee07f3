"""A clock without a plan in whole classes: counted, saved, rejoined, replayed like any other."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from classclock.book.files.journal import read_journal
from classclock.book.files.saved_results import read_results
from classclock.clock.source import WoundSource
from classclock.commands.command_line import main
from classclock.live import session_opening
from classclock.live.replaying import replayed
from classclock.live.session_opening import open_session, rejoin_session
from classclock.plan.model import Segment
from classclock.plan.open_class import open_class
from classclock.plan.reading.clock_line import NoClock, read_clock_line
from classclock.plan.settings.club import Club
from classclock.tally import commands as cmd
from classclock.tally.lane_keys import people_named


def clock(line: str, scored: str) -> Segment:
    read = read_clock_line(line)
    assert not isinstance(read, NoClock)
    return {way.scored: way.segment for way in read}[scored]


def go_on(coach: Any) -> None:
    """Settle what is over as it stands, and go on."""
    for _ in range(5):
        coach.wind(2)
        if coach.session.live.phase == "over":
            coach.type("<enter>")


def held(coach: Any) -> Any:
    """A warm-up, rounds that no plan has, the piece, a countdown after the end."""
    live = coach.session.live
    coach.start()
    coach.wind(62)
    coach.type("<enter>")
    live.start_clock(clock("rounds 3", "rounds"))
    coach.wind(10)
    for _ in range(4):
        coach.wind(40)
        coach.type("in")
    coach.wind(25)
    go_on(coach)
    assert live.record.segment.name == "Turntable"
    coach.start()
    coach.wind(60)
    coach.type("in12b")
    coach.wind(960)
    go_on(coach)
    assert live.phase == "closed"
    live.start_clock(clock("down 1", "reps"))
    coach.wind(10)
    coach.type("9i7b5n")
    coach.wind(65)
    go_on(coach)
    assert live.phase == "closed"
    return coach


def test_its_scores_stand_among_the_results_in_the_order_in_which_it_ran(
    coach: Any, tmp_path: Path
) -> None:
    held(coach)
    assert coach.session.save()
    (path,) = (tmp_path / "results").glob("*.json")
    pieces = read_results(path).pieces
    assert [(one.name, one.format, one.status, one.length_s) for one in pieces] == [
        ("Rounds 3:00", "rounds-in-time", "settled", 180),
        ("Turntable", "rounds-in-time", "settled", 960),
        ("Down 1:00", "countdown", "settled", 60),
    ]
    assert [(lane.rank, lane.athlete, lane.score) for lane in pieces[0].lanes] == [
        (1, "Ilse", "4+0"),
        (1, "Noor", "4+0"),
        (3, "Bram", "0+0"),
    ]
    assert [lane.score for lane in pieces[2].lanes] == ["9 reps", "7 reps", "5 reps"]
    tables = {table.name.removeprefix(f"{path.stem}-") for table in path.parent.glob("*.csv")}
    assert tables == {"rounds-3-00.csv", "turntable.csv", "down-1-00.csv"}


def test_a_replay_comes_to_what_was_saved(
    coach: Any, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(tmp_path))
    held(coach)
    coach.session.save()
    record, path = coach.session.live.record, coach.session.journal.path
    coach.session.close()
    assert replayed(read_journal(path)) == record
    assert main(["replay", str(path)]) == 0
    assert "The same as saved" in capsys.readouterr().out


@pytest.fixture
def rejoin(
    source: WoundSource, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, coach_of: Any
) -> Callable[[Any], Any]:
    """The class as it comes back after its process was killed."""
    monkeypatch.setattr(session_opening, "raw_now", source.now)
    monkeypatch.setattr(session_opening, "boot_id", lambda: "one boot")

    def rejoined(coach: Any) -> Any:
        folder = tmp_path / "rejoined" / "journals"
        folder.mkdir(parents=True)
        path = Path(shutil.copy(coach.session.journal.path, folder))
        session, _ = rejoin_session(
            path, folder=folder.parent, club=Club(), source=source, sound=False
        )
        return coach_of(session, source)

    return rejoined


def test_killed_in_it_the_class_comes_back_in_it_and_goes_on_to_the_plan(
    coach: Any, rejoin: Callable[[Any], Any]
) -> None:
    coach.start()
    coach.wind(62)
    coach.type("<enter>")
    coach.session.live.start_clock(clock("rounds 3", "rounds"))
    coach.wind(50)
    coach.type("n")
    again = rejoin(coach)
    live = again.session.live
    assert live.record == coach.session.live.record
    again.wind(45)
    assert live.phase == "running"
    assert live.record.sheet.clock.elapsed(live.clock.now()) == 85_000
    again.type("n")
    assert len(live.record.sheet.tallies["Noor"].rounds) == 2
    again.wind(100)
    go_on(again)
    assert live.record.segment.name == "Turntable"
    assert live.phase == "board"


def test_killed_before_it_counted_in_it_is_not_there(
    coach: Any, rejoin: Callable[[Any], Any]
) -> None:
    """The line was typed and no more: nothing of it was written."""
    again = rejoin(coach)
    assert len(again.session.live.record.in_order) == 2
    again.session.live.start_clock(clock("down 1", "not scored"))
    assert [again.session.live.record.plan.segment[n].name for n in (0, 1, 2)] == [
        "Warm-up",
        "Turntable",
        "Down 1:00",
    ]


def test_nothing_of_it_would_be_lost_once_it_is_on_disk(coach: Any) -> None:
    held(coach)
    coach.session.save()
    coach.session.journal.settle(30)  # the disk confirms in a thread, late where much is tested
    assert coach.session.on_disk.lacking is None
    assert coach.session.on_disk.loss.entries == 0


def test_what_would_be_lost_of_it_is_told_by_its_name(
    coach: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    live, journal = coach.session.live, coach.session.journal
    coach.wind(2)
    live.start_clock(clock("rounds 3", "rounds"))
    coach.wind(60)
    on_disk = journal.number
    coach.type("n")
    monkeypatch.setattr(type(journal), "on_disk", property(lambda _: on_disk))
    (lost,) = [one for one in coach.session.on_disk.loss.scores if one.score == "1+0"]
    assert (lost.lane.name, lost.piece, lost.kept) == ("Noor", "Rounds 3:00", "0+0")


def test_somebody_who_is_erased_leaves_the_others_scores_in_it(
    coach: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(tmp_path))
    held(coach)
    coach.session.save()
    path = coach.session.journal.path
    coach.session.close()
    assert main(["book", "erase", "Ilse", "--yes"]) == 0
    (saved,) = (tmp_path / "results").glob("*.json")
    lanes = [(lane.athlete, lane.score) for lane in read_results(saved).pieces[0].lanes]
    assert lanes == [("erased", "4+0"), ("Noor", "4+0"), ("Bram", "0+0")]
    assert replayed(read_journal(path)).plan.segment[2].name == "Rounds 3:00"
    assert main(["replay", str(path)]) == 0


def test_an_athlete_called_like_a_key_of_it_leaves_it_readable(
    open_class: Callable[..., Any], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(tmp_path))
    coach = open_class("Time", "Rounds", "Noor")
    held_before = coach.session.journal.path
    coach.wind(2)
    coach.session.live.start_clock(clock("rounds 3", "rounds"))
    coach.wind(195)
    go_on(coach)
    coach.session.save()
    coach.session.close()
    for name in ("Time", "Rounds"):
        assert main(["book", "erase", name, "--yes"]) == 0
    record = replayed(read_journal(held_before))
    assert record.plan.segment[2] == clock("rounds 3", "rounds")


def test_a_class_that_is_nothing_else_has_it_for_its_plan(
    source: WoundSource, tmp_path: Path, coach_of: Any
) -> None:
    session = open_session(
        open_class(clock("8 x 20/10", "reps in all")),
        people_named(("Ilse", "Bram")),
        folder=tmp_path,
        club=Club(),
        source=source,
        sound=False,
    )
    coach = coach_of(session, source)
    session.live.do(cmd.Start())
    coach.wind(10)
    for interval in range(8):
        coach.wind(22)
        coach.type(f"{10 - interval}i8b")
        coach.wind(8)
    go_on(coach)
    assert session.live.phase == "closed"
    session.save()
    (path,) = (tmp_path / "results").glob("*-open-class.json")
    document = json.loads(path.read_text("utf-8"))
    assert document["title"] == "Open class"
    (piece,) = document["pieces"]
    assert [(lane["athlete"], lane["score"]) for lane in piece["lanes"]] == [
        ("Bram", "64 reps"),
        ("Ilse", "52 reps"),
    ]
    assert replayed(read_journal(session.journal.path)) == session.live.record
