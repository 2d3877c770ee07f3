"""A class that somebody follows: the room sees there what the class itself shows."""

import sqlite3
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from msgspec.structs import replace

from classclock.book.tables.book_lock import book_lock
from classclock.clock.class_clock import ClassClock
from classclock.clock.source import WoundSource
from classclock.following.followed_class import FollowedClass
from classclock.following.follower import Follower
from classclock.live.session_opening import open_session, rejoin_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.tally.lane_keys import people_named
from classclock.wall.board_content import board_now
from classclock.wall.seen.started_content import StartedContent

LIFTS = """
title = "Depot strength"

[[segment]]
name = "Front squat"
format = "interval"
repeat = 2
steps = [{ work = "1:00", label = "3 reps" }]
lift = "front squat"
sets = [{ reps = 3, percent = 70 }, { reps = 3, percent = 80 }]
score = "load"

[[segment]]
name = "Front squat, once more"
format = "interval"
repeat = 2
steps = [{ work = "1:00", label = "3 reps" }]
lift = "front squat"
sets = [{ reps = 3, percent = 70 }, { reps = 3, percent = 80 }]
score = "load"
"""
PRESSES = """
title = "Depot Thursday"

[[segment]]
name   = "Headway"
format = "rounds-in-time"
time   = "9:00"

  [[segment.station]]
  movement = "push press"
  reps     = 9
"""


@pytest.fixture(autouse=True)
def _book_in_the_folder(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)


def shown(seen: Any) -> object:
    """All that the room sees of a class as it stands."""
    record = seen.live.record
    if record.sheet is None and not record.closed:
        return board_now(seen)
    started = StartedContent(seen)
    match started.screen:
        case "wall":
            return started.wall()
        case "settle":
            return started.settle()
        case "summary":
            return started.summary()


def followed(session: Any, folder: Path, club: Club | None = None) -> FollowedClass:
    """The class as somebody who comes now sees it, all read."""
    clock: ClassClock = session.live.clock
    if club is not None:
        inventory = "\n".join(f"{name} = {count}" for name, count in club.inventory.items())
        (folder / "club.toml").write_text(f"[equipment]\n{inventory}\n", "utf-8")
    follower = Follower(folder, club or Club(), clock_of=lambda _: clock)
    follower.look()
    assert follower.followed is not None, follower.trouble
    seen = follower.followed.seen
    seen.read_ahead()
    return seen


def typed_to_the_end(coach: Any) -> None:
    """From the board of its last piece to the settle."""
    coach.start()
    for key in "nibn":
        coach.wind(60)
        coach.type(key)
    coach.wind(20 * 60)


def test_own_bests_are_those_that_the_class_has_read(
    open_class: Callable[..., Any], source: WoundSource, tmp_path: Path
) -> None:
    first = open_class()
    first.type("<down>")
    typed_to_the_end(first)
    first.type("5n*<enter>")
    first.session.save()
    first.session.close()
    source.set_wall(source.wall() + timedelta(days=7))
    coach = open_class()
    coach.type("<down>")
    coach.session.remember()
    seen = followed(coach.session, tmp_path)
    assert seen.read_book() == ""
    assert seen.own_bests == coach.session.own_bests
    assert seen.own_bests.history
    assert seen.basis is not None
    assert seen.basis.past == coach.session.basis.past
    coach.start()
    for key in "nin":
        coach.wind(50)
        coach.type(key)
        seen.look()
        assert shown(seen) == shown(coach.session)
    wall = StartedContent(seen).wall()
    assert wall is not None
    assert any(lane.against for lane in wall[1]), "somebody is ahead or behind"
    coach.wind(16 * 60)
    coach.type("7n")
    seen.look()
    assert shown(seen) == shown(coach.session)
    coach.type("*<enter>")
    seen.look()
    assert shown(seen) == shown(coach.session)
    coach.session.close()


def test_the_book_is_read_while_somebody_writes_it_and_nothing_is_written(
    open_class: Callable[..., Any], tmp_path: Path
) -> None:
    coach = open_class()
    coach.session.remember()
    seen = followed(coach.session, tmp_path)
    before = {path: path.stat().st_mtime_ns for path in tmp_path.rglob("*")}
    with book_lock(tmp_path):
        assert seen.read_book() == ""
    after = {path: path.stat().st_mtime_ns for path in tmp_path.rglob("*")}
    assert {path for path in after if after[path] != before.get(path)} <= {
        path
        for path in after
        if path.name.endswith("lock") or path in (tmp_path, tmp_path / "book.holder")
    }
    coach.session.close()


def test_without_a_book_that_is_said_and_the_class_is_seen_all_the_same(
    open_class: Callable[..., Any], tmp_path: Path
) -> None:
    coach = open_class()
    seen = followed(coach.session, tmp_path)
    assert "there is no book yet" in seen.read_book()
    assert shown(seen) == shown(coach.session)
    coach.session.close()


def test_another_version_s_book_is_refused_in_words(
    open_class: Callable[..., Any], tmp_path: Path
) -> None:
    coach = open_class()
    coach.session.remember()
    seen = followed(coach.session, tmp_path)
    book = sqlite3.connect(tmp_path / "book.sqlite")
    book.execute("PRAGMA user_version = 9999")
    book.close()
    assert "a newer classclock" in seen.read_book()
    coach.session.close()


@pytest.fixture
def open_lifts(depot: Any, source: WoundSource, coach_of: Any) -> Callable[[], Any]:
    depot.held("2026-10-06", depot.squats(depot.lifted("Ilse", "80 kg", "90 kg", "100 kg")))
    plan, findings = parse_plan(LIFTS, "strength.toml")
    assert plan is not None, findings

    def opened() -> Any:
        session = open_session(
            PlanFile("strength", LIFTS, plan),
            people_named(("Ilse", "Bram")),
            folder=depot.folder,
            club=Club(),
            source=source,
            sound=False,
        )
        return coach_of(session, source)

    return opened


def test_loads_are_those_of_before_the_class_whatever_was_lifted_in_it(
    depot: Any, open_lifts: Callable[[], Any], source: WoundSource
) -> None:
    coach = open_lifts()
    coach.session.live.plan_loads()
    assert shown(followed(coach.session, depot.folder)) == shown(coach.session)
    coach.start()
    coach.wind(20)
    coach.type("140i")
    coach.wind(200)
    coach.type("*<enter>*<enter>")
    coach.session.save()
    assert coach.session.live.record.chosen.segment == 1
    late = followed(coach.session, depot.folder)
    before = shown(coach.session)
    assert shown(late) == before
    coach.session.close()
    again, _ = rejoin_session(
        coach.session.journal.path, folder=depot.folder, club=Club(), source=source, sound=False
    )
    again.live.plan_loads()
    assert shown(again) == before, "one that was resumed has them too"
    again.close()


def test_a_load_that_is_kept_off_the_wall_is_on_no_screen(
    depot: Any, open_lifts: Callable[[], Any]
) -> None:
    coach = open_lifts()
    coach.session.live.plan_loads()
    ilse = coach.session.live.record.people[0]
    coach.session.live.change_person(replace(ilse, marks=("off the wall",)))
    content = shown(followed(coach.session, depot.folder))
    assert content == shown(coach.session)
    assert "70" not in repr(content).replace("70 %", "")
    coach.session.close()


def test_what_is_short_is_said_there_too(
    source: WoundSource, tmp_path: Path, coach_of: Callable[..., Any]
) -> None:
    club = Club.model_validate({"equipment": {"bars": 1}})
    plan, findings = parse_plan(PRESSES, "headway.toml")
    assert plan is not None, findings
    session = open_session(
        PlanFile("headway", PRESSES, plan),
        people_named(("Ilse", "Bram", "Noor")),
        folder=tmp_path,
        club=club,
        source=source,
        sound=False,
    )
    session.learn_equipment()
    seen = followed(session, tmp_path, club)
    content = shown(seen)
    assert content == shown(session)
    assert getattr(content, "equipment", "")
    session.close()


def test_twenty_follow_and_the_class_has_its_journal_to_itself(
    open_class: Callable[..., Any], source: WoundSource, tmp_path: Path
) -> None:
    coach = open_class()
    followers = [
        Follower(tmp_path, Club(), clock_of=lambda _: coach.session.live.clock) for _ in range(20)
    ]
    coach.type("<down>")
    coach.start()
    for number in range(3):
        coach.wind(5)
        coach.type("nib"[number % 3])
        for one in followers:
            one.look()
            assert one.followed is not None
            assert one.followed.seen.live.record == coach.session.live.record
    assert coach.session.journal.fault == ""
    assert len([*(tmp_path / "journals").iterdir()]) == 2, "the journal and its lock"
    coach.session.close()
