"""Which class is followed, from when on, and until when."""

import json
import os
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest

from classclock.clock.class_clock import ClassClock
from classclock.clock.source import MS, WoundSource, time_source
from classclock.following.follower import PATIENCE, Follower
from classclock.following.view_file import VERSION, ToldView, ViewFile, view_path
from classclock.live.session import Session
from classclock.live.session_opening import open_session, rejoin_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.settings.club import Club
from classclock.tally import events as ev
from classclock.tally.lane_keys import people_named
from classclock.wall.seen.room_values import RoomView
from tests.following.conftest import PLAN, plan_of

WALL = datetime.fromisoformat("2026-11-24T18:30:00+01:00")


class Watch:
    """A follower, and time that is wound."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.source = WoundSource(wall=WALL)
        self._real = WoundSource()
        self.follower = Follower(
            folder,
            Club(),
            clock_of=lambda _: ClassClock(self.source, 0),
            real=lambda: self._real.now() // MS,
        )

    def open(self, name: str = "turntable", *names: str) -> Session:
        return open_session(
            PlanFile(name, PLAN, plan_of(PLAN)),
            people_named(names or ("Ilse", "Bram")),
            folder=self.folder,
            club=Club(),
            source=self.source,
            sound=False,
        )

    def later(self, milliseconds: int = 500) -> bool:
        self._real.jump(milliseconds * MS)
        return self.follower.look()

    @property
    def title(self) -> str:
        """Of the class that is followed, what its plan's file is called; empty where none is."""
        followed = self.follower.followed
        return "" if followed is None else followed.seen.live.record.plan_name


def tell(session: Session, room: RoomView = RoomView()) -> ViewFile:  # noqa: B008  it is frozen
    file = ViewFile(session.journal.path)
    assert file.write(ToldView(str(session.journal.path), room))
    return file


@pytest.fixture
def watch(tmp_path: Path) -> Watch:
    return Watch(tmp_path)


def test_where_no_class_runs_it_waits_and_then_follows_the_one_that_does(watch: Watch) -> None:
    assert not watch.later()
    assert watch.title == ""
    session = watch.open()
    assert watch.later()
    assert watch.title == "turntable"
    assert not watch.later(), "nothing has happened"
    session.close()


def test_what_happens_in_it_is_there_at_the_next_look(watch: Watch) -> None:
    session = watch.open()
    watch.later()
    session.live.record_event(ev.SegmentChosen(session.live.clock.now(), 1))
    assert watch.later(1)
    assert watch.follower.followed is not None
    assert watch.follower.followed.seen.live.record == session.live.record
    session.close()


def test_what_it_tells_is_heard_and_of_another_class_is_not(watch: Watch) -> None:
    session, other = watch.open(), watch.open("other")
    os.utime(session.journal.path, (0, 0))
    watch.later()
    assert watch.title == "other"
    tell(session, RoomView(card=True))
    watch.later()
    assert watch.follower.followed is not None
    assert not watch.follower.followed.guide.room.card
    tell(other, RoomView(lesson=2))
    assert watch.later(1)
    assert watch.follower.followed.guide.room == RoomView(lesson=2)
    session.close()
    other.close()


def test_it_stays_with_its_class_as_long_as_that_runs_then_goes_on_to_another(
    watch: Watch,
) -> None:
    first = watch.open("first")
    watch.later()
    second = watch.open("second")
    watch.later()
    assert watch.title == "first"
    first.close()
    watch.later()
    assert watch.title == "second"
    second.close()


def test_a_class_whose_process_is_gone_is_alone_after_a_while_until_it_is_resumed(
    watch: Watch,
) -> None:
    session = watch.open()
    tell(session)
    watch.later()
    session.close()
    watch.later()
    assert not watch.follower.alone
    watch.later(PATIENCE)
    assert watch.follower.alone
    assert watch.title == "turntable"
    again, _ = rejoin_session(
        session.journal.path, folder=watch.folder, club=Club(), source=watch.source, sound=False
    )
    before = watch.follower.followed
    watch.later()
    assert not watch.follower.alone
    assert watch.follower.followed is not before, "its clock may be another one"
    again.live.record_event(ev.SegmentChosen(again.live.clock.now(), 1))
    watch.later()
    assert watch.follower.followed is not None
    assert watch.follower.followed.seen.live.record == again.live.record
    again.close()


def test_a_class_that_nobody_takes_up_again_is_history_one_day(watch: Watch) -> None:
    session = watch.open()
    tell(session)
    watch.later()
    session.close()
    watch.later()
    watch.later(11 * 3_600_000)
    assert watch.title == "turntable"
    watch.later(3_600_000)
    assert watch.title == ""


def left(session: Session, file: ViewFile) -> None:
    file.take_away()
    session.close()


def closed(session: Session, file: ViewFile) -> None:
    session.live.record_event(ev.ClassClosed(session.live.clock.now()))
    session.close()


@pytest.mark.parametrize("end", [left, closed])
def test_a_class_that_is_left_is_waited_for_no_more(
    watch: Watch, end: Callable[[Session, ViewFile], None]
) -> None:
    session = watch.open()
    file = tell(session)
    watch.later()
    end(session, file)
    watch.later()
    assert watch.title == ""
    assert not watch.follower.alone


@pytest.mark.parametrize("told", [True, False])
def test_a_class_that_moves_to_another_folder_is_followed_there(
    watch: Watch, tmp_path: Path, *, told: bool
) -> None:
    session = watch.open()
    began = session.journal.path
    tell(session)
    watch.later()
    stick = tmp_path / "stick"
    session.save_elsewhere(stick)
    if told:
        ViewFile(began).write(ToldView(str(session.journal.path), RoomView(lesson=1)))
    session.live.record_event(ev.SegmentChosen(session.live.clock.now(), 1))
    for _ in range(3):
        watch.later()
    assert watch.follower.followed is not None
    assert watch.follower.followed.seen.live.record == session.live.record
    assert watch.follower.followed.guide.room.lesson == told
    assert not watch.follower.alone
    if told:  # who comes now finds it by what it tells
        another = Watch(tmp_path)
        another.later()
        assert another.title == "turntable"
    session.close()


def test_a_later_version_s_class_is_refused_in_words_and_the_next_one_is_followed(
    watch: Watch,
) -> None:
    session = watch.open()
    watch.later()
    line = {"n": session.journal.number, "event": "LightsOut", "wall": WALL.isoformat()}
    with session.journal.path.open("a", encoding="utf-8") as journal:
        journal.write(json.dumps(line) + "\n")
    assert watch.later()
    assert watch.title == ""
    assert "run by a later classclock" in watch.follower.trouble
    assert "LightsOut" in watch.follower.trouble
    assert not watch.later()
    session.close()
    other = watch.open("other")
    watch.later()
    assert watch.title == "other"
    assert watch.follower.trouble == ""
    other.close()


def test_a_later_version_s_view_is_said_and_the_class_is_followed_without_it(
    watch: Watch,
) -> None:
    session = watch.open()
    view_path(session.journal.path).write_text(f'{{"version": {VERSION + 1}}}', "utf-8")
    watch.later()
    assert watch.follower.followed is not None
    assert "later classclock" in watch.follower.followed.trouble
    tell(session)
    watch.later()
    assert watch.follower.followed.trouble == ""
    session.close()


def test_a_folder_that_is_taken_away_ends_nothing(watch: Watch) -> None:
    session = watch.open()
    tell(session)
    watch.later()
    (watch.folder / "journals").rename(watch.folder / "elsewhere")
    watch.later()
    assert watch.title in ("turntable", "")
    session.close()


def test_whoever_follows_takes_no_lock_and_writes_nothing(watch: Watch) -> None:
    session = watch.open()
    tell(session)
    before = {path: path.stat().st_mtime_ns for path in watch.folder.rglob("*")}
    for _ in range(5):
        watch.later()
    assert {path: path.stat().st_mtime_ns for path in watch.folder.rglob("*")} == before
    session.close()


def test_the_clock_is_the_class_s_own(tmp_path: Path) -> None:
    """By the anchor in the journal, in the machine's own time."""
    for speed in (1, 7):
        source = time_source(speed)
        session = open_session(
            PlanFile("turntable", PLAN, plan_of(PLAN)),
            people_named(("Ilse",)),
            folder=tmp_path / str(speed),
            club=Club(),
            source=source,
            speed=speed,
            sound=False,
        )
        follower = Follower(tmp_path / str(speed), Club())
        follower.look()
        assert follower.followed is not None
        before = session.live.clock.now()
        theirs = follower.followed.seen.live.clock.now()
        after = session.live.clock.now()
        assert before - 1 <= theirs <= after + 1
        wall = follower.followed.seen.source.wall() - source.wall()
        assert abs(wall.total_seconds()) < 1
        session.close()
