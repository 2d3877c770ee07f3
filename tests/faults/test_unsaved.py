"""A disk that begins to refuse at a bad moment: only what is on disk is called saved.

Each row is tried with a full disk and with one that fails (EIO), from each moment on: a tap, the
cap, the settle, a correction, the end, and the question whether to leave.
"""

import errno
import json
import os
import signal
import sys
import threading
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import AbstractAsyncContextManager, asynccontextmanager
from functools import partial
from pathlib import Path
from typing import Any

import pytest

from classclock.book.files import held_file, journal_writer
from classclock.book.files.journal import read_journal
from classclock.clock.source import WoundSource
from classclock.commands.command_line import main
from classclock.live.replaying import replayed
from classclock.live.session import Session
from classclock.live.session_opening import open_session
from classclock.machine import whole_file
from classclock.machine.battery import Battery
from classclock.plan.settings.club import Club
from classclock.screens import class_flow
from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.look import Look
from classclock.screens.live import background_work
from classclock.screens.live.class_screen import ClassScreen
from classclock.tally.lane_keys import people_named
from classclock.tally.scores.scores import scores
from tests.faults.conftest import Seen, WatchedClub, fill
from tests.faults.refusing_disk import RefusingDisk
from tests.screens.conftest import CARD, OPENED
from tests.screens.conftest import Coach as OnScreen
from tests.terminal.conftest import Terminal
from tests.yard_night import SANDBOX, WALK_HOME, yard_night

ROOM = 1_048_576
MOMENTS = ("tap", "cap", "settle", "correction", "end", "leave")
ERRORS = {errno.ENOSPC: "the disk is full", errno.EIO: "the disk is failing"}
UNTRUE = ("saved as", "saved: ", "All is kept", "resume rejoins this class", "all is on disk")


class Coach(OnScreen):
    """One class from the first screen to the last words."""

    app: ClassclockApp

    async def rests(self) -> None:
        """Until what is written beside the screen is written, or refused."""
        work = self.screen.work
        for _ in range(2):
            await self.pilot.pause()
            await work.saving.finished()
            self.session.journal.settle(5)
            self.screen.show()
        await self.pilot.pause()

    async def types(self, *keys: str) -> None:
        for key in keys:
            await self.wind(2)
            await self.press(key)
        await self.rests()

    async def until(self, moment: str) -> None:
        """All that comes before this moment of the class."""
        steps: dict[str, Callable[[], Awaitable[None]]] = {
            "tap": self._to_the_piece,
            "cap": partial(self._lets_pass, 80),
            "settle": partial(self._lets_pass, 60),
            "correction": partial(self.types, "4", "i", "5", "b", "enter", "up", "i", "f9"),
            "end": self._corrects_and_goes_on,
        }
        for name, step in steps.items():
            if moment == "leave" and name == "cap":
                return
            await step()
            await self.rests()
            if name == moment:
                return

    async def at(self, moment: str) -> None:
        """What happens at this moment, while the disk refuses."""
        match moment:
            case "tap":
                await self.types("i", "b")
            case "cap":
                await self.wind(60)
            case "settle":
                await self.types("4", "i", "5", "b", "enter")
            case "correction":
                await self.types(*"3+1", "enter", *"miscounted", "enter")
            case "end":
                await self.types("enter")
            case "leave":
                await self.types("ctrl+q", "i")
        await self.rests()

    async def _to_the_piece(self) -> None:
        await self.types("enter")
        await self.wind(10)
        await self.types("i")

    async def _lets_pass(self, seconds: int) -> None:
        await self.wind(seconds)

    async def _corrects_and_goes_on(self) -> None:
        await self.types(*"3+1", "enter", *"miscounted", "enter", "down", "enter")
        await self.wind(75)

    @property
    def said(self) -> str:
        return self.app.return_value or ""


OpenClass = Callable[[], AbstractAsyncContextManager[Coach]]


@pytest.fixture(params=ERRORS, ids=os.strerror)
def number(request: pytest.FixtureRequest, *, thorough: bool) -> int:
    """How the disk refuses; the table of faults tries every way."""
    if request.param != errno.ENOSPC and not thorough:
        pytest.skip("it takes long: the table of faults tries it")
    return int(request.param)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "depot"


@pytest.fixture
def disk(folder: Path, monkeypatch: pytest.MonkeyPatch) -> RefusingDisk:
    if sys.platform != "linux":
        pytest.skip("no other system tells which file a number stands for")
    return RefusingDisk(folder, monkeypatch)


@pytest.fixture
def open_class(folder: Path, monkeypatch: pytest.MonkeyPatch) -> OpenClass:
    made: list[ClassScreen] = []

    def screen(session: Session, look: Look, **given: Any) -> ClassScreen:
        battery = Battery(lambda: "")
        made.append(ClassScreen(session, look, **given, battery=battery, keep_awake=False))
        return made[-1]

    monkeypatch.setattr(class_flow, "ClassScreen", screen)

    @asynccontextmanager
    async def opened() -> AsyncIterator[Coach]:
        source = WoundSource(0, wall=OPENED)
        session = open_session(
            yard_night(SANDBOX, WALK_HOME),
            people_named(("Ilse", "Bram")),
            folder=folder,
            club=Club(emergency=CARD),
            source=source,
            sound=False,
        )
        app = ClassclockApp(Look(), lambda app: class_flow.run_class(app, session))
        async with app.run_test(size=(120, 28)) as pilot:
            await pilot.pause()
            coach = Coach(session, source, made[-1])
            coach.pilot, coach.app = pilot, app
            await coach.screen.load()
            await coach.rests()
            yield coach

    return opened


def scores_of(session: Session) -> dict[str, str]:
    """What the coach was last shown."""
    record = session.live.record
    (run,) = record.pieces()
    heats = record.heats(run)
    settled = all(sheet.settled for sheet in heats)
    return {one.athlete: one.score for one in scores(heats, now=None, settled=settled)}


def on_disk(session: Session) -> list[dict[str, str]]:
    """The scores that the journal gives, and those in the results file."""
    record = replayed(read_journal(session.journal.path))
    found = [
        {one.athlete: one.score for one in scores(heats, now=None, settled=heats[0].settled)}
        for heats in map(record.heats, record.pieces())
    ]
    for path in session.results.folder.glob("*.json"):
        (piece,) = json.loads(path.read_text("utf-8"))["pieces"]
        found.append({lane["athlete"]: lane["score"] for lane in piece["lanes"]})
    return found


@pytest.mark.parametrize("moment", MOMENTS)
async def test_left_while_the_disk_refuses_the_words_say_who_loses_what_and_it_answers_1(
    open_class: OpenClass, disk: RefusingDisk, moment: str, number: int, seen: Seen
) -> None:
    async with open_class() as coach:
        await coach.until(moment)
        disk.refuse(number)
        await coach.at(moment)
        assert disk.refused
        if moment != "leave":
            await coach.reads("F8 saves elsewhere", seconds=10)
            await coach.press("ctrl+q")
        await coach.rests()
        asked = coach.seen()
        assert not [words for words in UNTRUE if words in asked]
        assert "Leave" in asked
        assert ERRORS[number] in asked
        await coach.press("enter")
        await coach.rests()
        shown = scores_of(coach.session)
    disk.mend()
    assert coach.app.return_code == 1
    assert ERRORS[number] in coach.said
    there = on_disk(coach.session)
    assert ("saved: " in coach.said) == (moment == "end"), "which was settled and saved before"
    for name, score in shown.items():
        kept = any(source.get(name) == score for source in there)
        assert kept != (f"{name} {score}" in coach.said), (there, coach.said)
    seen(" / ".join(line.strip() for line in coach.said.splitlines() if "/" not in line))


@pytest.mark.parametrize("moment", ["tap", "settle", "leave"])
async def test_another_place_has_all_of_it_at_once_and_is_named_when_the_class_is_left(
    open_class: OpenClass, disk: RefusingDisk, tmp_path: Path, moment: str, number: int
) -> None:
    elsewhere = tmp_path / "stick"
    async with open_class() as coach:
        await coach.until(moment)
        disk.refuse(number)
        await coach.at(moment)
        for place in (tmp_path / "depot" / "a folder on the same disk", elsewhere):
            await coach.press("f8")
            coach.screen.overlays.place.text = str(place)
            await coach.press("enter")
            await coach.rests()
            if place != elsewhere:
                assert f"can't be written to either ({ERRORS[number]})" in coach.seen()
        assert coach.session.on_disk.lacking is None
        await coach.reads("saved in", seconds=10)
        shown = scores_of(coach.session)
        await coach.press("ctrl+q")
        await coach.rests()
        if not coach.session.live.record.closed:
            assert "resume rejoins this class" in coach.seen()
            await coach.press("enter")
        await coach.rests()
    assert coach.app.return_code == 0
    assert str(elsewhere) in coach.said
    assert coach.session.journal.path.is_relative_to(elsewhere)
    assert on_disk(coach.session)[0] == shown


@pytest.mark.parametrize("moment", MOMENTS)
async def test_once_the_disk_takes_it_again_all_is_on_disk_by_itself_and_only_then_called_saved(
    open_class: OpenClass,
    disk: RefusingDisk,
    moment: str,
    number: int,
    capsys: pytest.CaptureFixture[str],
) -> None:
    async with open_class() as coach:
        await coach.until(moment)
        disk.refuse(number)
        await coach.at(moment)
        await coach.wind(6)
        await coach.rests()
        disk.mend()
        await coach.wind(6)
        await coach.rests()
        assert "F8" not in coach.seen()
        shown = scores_of(coach.session)
        if moment != "leave":
            await coach.press("ctrl+q")
            await coach.rests()
        if not coach.session.live.record.closed:
            assert "classclock resume rejoins this class" in coach.seen()
            await coach.press("enter")
        await coach.rests()
    assert coach.app.return_code == 0
    told = "saved: " if coach.session.live.record.closed else "goes on with it"
    assert told in coach.said
    journal, *_ = there = on_disk(coach.session)
    assert journal == shown
    assert coach.session.live.record == replayed(read_journal(coach.session.journal.path))
    if moment in ("tap", "leave"):
        return  # results that are there tell a piece that isn't over as it stood before
    assert all(source == shown for source in there)
    capsys.readouterr()
    assert main(["replay", str(coach.session.journal.path)]) == 0
    assert "The same as saved in" in capsys.readouterr().out


async def test_a_disk_that_never_answers_keeps_nobody_and_is_not_taken_for_one_that_did(
    open_class: OpenClass, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(background_work, "PATIENCE", 0.05)
    monkeypatch.setattr(journal_writer, "_LAST_WAIT", 0.05)
    answers = threading.Event()
    async with open_class() as coach:
        await coach.until("settle")
        for module in (held_file, whole_file):
            monkeypatch.setattr(module, "sync", lambda _: answers.wait(20))
        for key in ("4", "i", "5", "b", "enter"):
            await coach.wind(2)
            await coach.press(key)
        await coach.press("ctrl+q")
        asked = coach.seen()
        assert "Not yet on disk, one moment:" in asked
        assert "Ilse 1+4 (on disk 1+?), Bram 0+5 (on disk 0+?)" in asked
        await coach.wind(2)
        await coach.press("enter")
        await coach.pilot.pause(0.5)
        assert coach.app.return_code == 1
    answers.set()
    assert "the disk hasn't confirmed it" in coach.said
    assert "Ilse 1+4 (on disk 1+?)" in coach.said
    assert "saved: " not in coach.said


# -- the installed program, on a disk that is really full -----------------------------------

NAMES = "Ilse, Bram, Noor"


def on_a_disk_of_6_mb(club: WatchedClub, disk_of: Callable[[str], Path]) -> tuple[Path, Terminal]:
    """A class of three whose spare room is kept, and whose piece runs."""
    disk = disk_of("6m")
    club.home = disk / "depot"
    terminal = club.piece(NAMES, speed=1)
    terminal.waits_for((club.home / "spare-room").exists, "the spare room")
    terminal.waits_for(lambda: (club.home / "spare-room").stat().st_size >= ROOM, "all of it")
    return disk, terminal


def taps_until(terminal: Terminal, there: Callable[[], bool]) -> None:
    """Numbers are typed until this is so: a last page on the disk takes a few dozen."""
    for reps in range(400):
        terminal.type(f"{reps % 6 + 1}b")
        terminal.passes(0.02)
        if there():
            return
    pytest.fail(f"the disk took four hundred; the screen:\n{terminal.text}")


@pytest.mark.real_time
@pytest.mark.usefixtures("in_the_table")
def test_a_full_disk_is_given_the_spare_room_and_the_class_goes_on_in_it(
    club: WatchedClub, disk_of: Callable[[str], Path], seen: Seen
) -> None:
    disk, terminal = on_a_disk_of_6_mb(club, disk_of)
    filler = fill(disk)
    spare = club.home / "spare-room"
    taps_until(terminal, lambda: spare.stat().st_size < ROOM)
    terminal.shows("free some space: the disk is full")
    club.calls("n", "Noor", terminal)
    assert club.taps() == ["Noor"]
    terminal.type("\x11")
    terminal.shows("classclock resume rejoins this class")
    terminal.type("\x1b")
    filler.unlink()
    terminal.drops("free some space", within=30)
    terminal.waits_for(lambda: spare.stat().st_size >= ROOM, "the spare room to be made anew")
    seen(f"{len(club.events())} events, all in the journal")


@pytest.mark.real_time
@pytest.mark.usefixtures("in_the_table")
@pytest.mark.parametrize("how", ["left", "ended from outside"])
def test_what_even_the_spare_room_cant_take_is_listed_at_the_end_and_said_by_resume_and_replay(
    club: WatchedClub, disk_of: Callable[[str], Path], how: str, seen: Seen
) -> None:
    disk, terminal = on_a_disk_of_6_mb(club, disk_of)
    fill(disk)
    taps_until(terminal, lambda: (club.home / "spare-room").stat().st_size < ROOM)
    filler = fill(disk)
    # A file that is put in the place of another leaves its room to the next lines: again and again.
    taps_until(terminal, lambda: fill(disk).exists() and "F8 saves elsewhere" in terminal.text)
    terminal.strikes("n")
    terminal.says("Noor, round 1")
    if how == "left":
        terminal.type("\x11")
        terminal.shows("Lost if you leave (the disk is full)", "Noor 1+? (on disk 0+?)")
        terminal.passes(1.3)
        terminal.type("\r")
        assert terminal.status() == 1
    else:
        terminal.signal(signal.SIGTERM)
        assert terminal.status() == 128 + signal.SIGTERM
    terminal.is_clean()
    assert b"lost, it was never on disk" in terminal.painted
    assert b"Noor 1+? (on disk 0+?)" in terminal.painted
    assert b"resume goes on with a class" not in terminal.painted
    (journal,) = (club.home / "journals").glob("[!.]*.jsonl")
    (lost,) = read_journal(journal).lost
    filler.unlink()
    replay = club.start("replay", str(journal))
    assert replay.status() == 1
    assert f"{lost.events} entries were lost from".encode() in replay.painted
    again = club.start("resume")
    again.says("the disk had refused them: ask Bram, Noor")
    seen(f"{lost.events} entries were lost, and said to be")
