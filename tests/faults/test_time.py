"""Time that goes wrong round a class: the clock is right, and what came too late is said so."""

import os
import random
from datetime import datetime, timedelta, timezone
from pathlib import Path
from typing import Any

import pytest

from classclock.book.files.held_file import HeldFile
from classclock.clock.source import MS, WoundSource, local_now
from tests.classes.conftest import Coach
from tests.faults.conftest import Machine, WatchedClub
from tests.signals import GO_ON, STOP, TELL

MINUTE = 60_000


def into_the_piece(coach: Coach) -> None:
    coach.type("<down>")
    coach.start()


def elapsed(session: Any) -> int:
    """What the clock of the piece stands at, in milliseconds."""
    sheet = session.live.record.sheet
    return int(sheet.clock.elapsed(session.live.clock.now()))


# -- the time of day is stepped --------------------------------------------------------


@pytest.mark.parametrize("by", [timedelta(hours=1), timedelta(hours=-1)])
def test_a_wall_clock_stepped_by_an_hour_moves_neither_the_clock_nor_a_tap(
    machine: Machine, by: timedelta
) -> None:
    coach = machine.opens()
    into_the_piece(coach)
    coach.wind(120)
    machine.source.set_wall(machine.source.wall() + by)
    coach.wind(60)
    coach.type("n")
    assert elapsed(coach.session) == 3 * MINUTE
    sheet = coach.session.live.record.sheet
    assert sheet is not None
    assert sheet.tallies["Noor"].rounds[0].at == 3 * MINUTE
    coach.session.close()
    coach.wind(30)
    session = machine.rejoins(coach.session.journal.path)
    assert elapsed(session) == 3 * MINUTE + 30_000
    assert not session.check_clock


# -- the machine sleeps, stands still, or is started anew --------------------------------


async def test_after_a_suspend_of_five_minutes_the_clock_is_right_and_the_late_cue_is_said(
    class_on_screen: Any,
) -> None:
    async with class_on_screen(segment=1) as coach:
        await coach.start()
        await coach.wind(4 * 60)
        coach.speaker.scheduled.clear()
        await coach.wind(5 * 60)  # halfway, at 8:00, was slept through
        assert elapsed(coach.session) == 9 * MINUTE
        assert "not sounded, over a second late: halfway" in coach.seen()
        assert not [cue for cue in coach.speaker.scheduled if cue.kind == "halfway"]
        await coach.press("n")
        assert coach.live.record.sheet.tallies["Noor"].rounds[0].at == 9 * MINUTE


async def test_a_suspend_across_the_cap_ends_the_piece_at_the_cap_without_a_burst_of_cues(
    class_on_screen: Any,
) -> None:
    async with class_on_screen(segment=1) as coach:
        await coach.start()
        await coach.wind(60)
        await coach.press("n")
        coach.speaker.scheduled.clear()
        await coach.wind(20 * 60)
        assert coach.live.phase == "over"
        assert "not sounded, over a second late" in coach.seen()
        assert coach.speaker.scheduled == []
        assert coach.live.record.sheet.tallies["Noor"].total_reps == 18


def test_after_another_start_of_the_machine_the_time_of_day_serves_and_is_to_be_checked(
    machine: Machine,
) -> None:
    coach = machine.opens()
    into_the_piece(coach)
    coach.wind(120)
    coach.type("n")
    coach.session.close()
    machine.boot("the second start")
    later = WoundSource(start=9 * MS, wall=machine.source.wall() + timedelta(minutes=3))
    session = machine.rejoins(coach.session.journal.path, later)
    assert elapsed(session) == 5 * MINUTE
    assert session.check_clock


@pytest.mark.real_time
def test_stopped_for_forty_seconds_of_the_class_it_goes_on_at_the_right_time(
    club: WatchedClub,
) -> None:
    terminal = club.begins("3:00", speed=20)
    club.waits_until(65_000, terminal)
    terminal.signal(STOP)
    terminal.passes(2)  # 40 s at this speed, over halfway
    terminal.signal(GO_ON)
    terminal.type("\x0e")  # ctrl+n: all notices
    terminal.shows("not sounded, over a second late: halfway")
    at = club.moment()
    terminal.type("n")
    terminal.shows("Noor, round 1")
    (tap,) = club.tapped()
    assert 0 <= tap["at"] - at < 50 * 20


def test_a_class_rejoined_two_hundred_times_has_not_lost_the_parts_of_a_millisecond(
    machine: Machine,
) -> None:
    coach = machine.opens()
    into_the_piece(coach)
    coach.session.close()
    chance = random.Random(200)  # noqa: S311  a sample, no secret
    before, began = elapsed(coach.session), machine.source.now()
    session = coach.session
    for _ in range(200):
        machine.source.jump(chance.randrange(1_000 * MS))
        session = machine.rejoins(coach.session.journal.path)
        session.close()
    gone = (machine.source.now() - began) / MS
    assert elapsed(session) - before == pytest.approx(gone, abs=15)  # each is 0.5 off at most


# -- the screen is busy --------------------------------------------------------------


BLOCKED = """
import signal, time
signal.signal(signal.SIGUSR1, lambda *_: time.sleep(1))
"""
"""Put where Python looks at its start: a signal then holds up the event loop for a second."""


@pytest.mark.real_time
def test_keys_across_the_cap_count_when_they_were_struck_though_the_screen_stood_still(
    club: WatchedClub, tmp_path: Path
) -> None:
    (tmp_path / "sitecustomize.py").write_text(BLOCKED)
    paths = os.pathsep.join((str(tmp_path), str(Path.cwd())))
    terminal = club.begins("0:04", PYTHONPATH=paths)
    struck = []
    club.waits_until(3_300, terminal)
    terminal.signal(TELL)
    for key, at in (("i", 3_500), ("b", 3_900), ("n", 4_150)):
        club.waits_until(at, terminal)
        struck.append(club.moment())
        terminal.type(key)
    terminal.waits_for(lambda: len(club.tapped()) == 3, "the three taps")
    taps = club.tapped()
    assert [tap["name"] for tap in taps] == ["Ilse", "Bram", "Noor"]
    for tap, at in zip(taps, struck, strict=True):
        assert 0 <= tap["at"] - at < 50
    # Two before the cap, one just after it: a thumb is late, so that counts as at the cap.
    assert taps[1]["at"] < club.go + 4_000 < taps[2]["at"]
    terminal.says("Noor, round 1, 0:04")


def test_a_disk_that_takes_its_time_when_a_class_opens_sets_no_clock_back(
    machine: Machine, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = HeldFile.made

    def slow(path: Path) -> HeldFile:
        machine.source.jump(3_000 * MS)
        return real(path)

    monkeypatch.setattr(HeldFile, "made", slow)
    coach = machine.opens()
    into_the_piece(coach)
    coach.wind(60)
    before = elapsed(coach.session)
    coach.session.close()
    assert elapsed(machine.rejoins(coach.session.journal.path)) == before


# -- summer ends in the middle of a class -------------------------------------------------


@pytest.mark.real_time
def test_a_change_of_daylight_saving_in_the_middle_moves_neither_clock_nor_taps(
    club: WatchedClub,
) -> None:
    change = local_now() + timedelta(seconds=20)  # a busy machine begins late
    terminal = club.begins("0:30", TZ=ending_summer(change))
    club.waits_until(0, terminal)
    struck = [club.moment()]
    terminal.type("n")
    terminal.says("Noor, round 1")
    terminal.waits_for(lambda: local_now() > change + timedelta(seconds=0.5), "the change", 30)
    struck.append(club.moment())
    terminal.type("b")
    terminal.says("Bram, round 1")
    taps = club.tapped()
    walls = [datetime.fromisoformat(tap["wall"]) for tap in taps]
    assert [wall.utcoffset() for wall in walls] == [timedelta(hours=2), timedelta(hours=1)]
    assert timedelta() < walls[1] - walls[0] < timedelta(seconds=22)
    for tap, at in zip(taps, struck, strict=True):
        assert 0 <= tap["at"] - at < 50
    terminal.shows(f"{walls[1]:%H:%M}")


def ending_summer(change: datetime) -> str:
    """A time zone (POSIX TZ) two hours east of Greenwich until this moment, then one hour."""
    summer = change.astimezone(timezone(timedelta(hours=2)))
    return f"WIN-1SUM-2,0/0,{summer:J%j/%H:%M:%S}".replace("J0", "J").replace("J0", "J")


def test_a_class_rejoined_after_a_new_start_and_the_end_of_summer_knows_how_long_it_was_away(
    machine: Machine,
) -> None:
    machine.source.set_wall(datetime.fromisoformat("2026-10-25T02:55:00+02:00"))
    coach = machine.opens()
    into_the_piece(coach)
    coach.wind(60)
    coach.type("n")
    coach.session.close()
    machine.boot("the second start")
    winter_time = timezone(timedelta(hours=1))
    winter = (machine.source.wall() + timedelta(minutes=10)).astimezone(winter_time)
    session = machine.rejoins(coach.session.journal.path, WoundSource(start=MS, wall=winter))
    assert elapsed(session) == 11 * MINUTE
