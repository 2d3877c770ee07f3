"""A disk that fails: clock and tally run on, it is said once and plainly, nothing is lost."""

import errno
import json
import os
import resource
import shutil
import sys
import threading
from collections.abc import Callable
from itertools import count
from pathlib import Path
from typing import Any

import pytest

from classclock.book.files.journal import read_journal
from classclock.live.replaying import replayed
from classclock.live.session import Session
from classclock.machine.disk_faults import reason
from classclock.wall.notices.troubles import troubles_of
from tests.classes.conftest import Coach
from tests.faults.conftest import Machine, WatchedClub, fill, system
from tests.terminal.conftest import Terminal

NOTICE = "aren't on disk"


def into_the_piece(coach: Coach) -> None:
    coach.type("<down>")
    coach.start()
    coach.wind(60)
    coach.type("n")


def all_is_written(session: Session) -> None:
    """The journal on disk folds to the class as it stands."""
    session.journal.settle(5)
    assert said(session) == []
    assert session.journal.all_on_disk
    assert replayed(read_journal(session.journal.path)) == session.live.record


def said(session: Session) -> list[str]:
    """What the foot says of files."""
    keys = ("files", "room", "slow")
    return [one.text for one in troubles_of(session, battery="") if one.key in keys]


def rounds(session: Session, name: str) -> int:
    sheet = session.live.record.sheet
    assert sheet is not None
    return len(sheet.tallies[name].rounds)


def refusing(call: str, number: int, after: int = 0) -> Callable[..., Any]:
    """This call of the system as it is `after` times, then failing with this error."""
    called, real = count(), getattr(os, call)

    def refuse(*arguments: Any, **named: Any) -> Any:
        if next(called) >= after:
            raise OSError(number, os.strerror(number))
        return real(*arguments, **named)

    return refuse


# -- the installed program, on a disk that fills up -----------------------------------


@pytest.fixture
def small_disk(disk_of: Callable[[str], Path]) -> Path:
    return disk_of("256k")


def runs_on_through(terminal: Terminal, club: WatchedClub, mend: Callable[[], None]) -> None:
    """Taps go on being counted on the screen, one notice stands there, then all is written."""
    names = ["Bram", "Ilse", "Noor", "Piet", "Tuva"]

    def all_written() -> bool:
        (journal,) = (club.home / "journals").glob("[!.]*.jsonl")
        return journal.read_bytes().endswith(b"\n") and sorted(club.names_tapped()) == names

    for key, name in zip("ibnpt", ("Ilse", "Bram", "Noor", "Piet", "Tuva"), strict=True):
        club.calls(key, name, terminal)
    screen = terminal.shows("F8 saves elsewhere: ", NOTICE)
    assert screen.count(NOTICE) == 1
    assert not all_written()
    mend()
    terminal.waits_for(all_written, "everything to be written")
    terminal.drops(NOTICE)


@pytest.mark.real_time
@pytest.mark.usefixtures("in_the_table")
def test_a_full_disk_stops_neither_clock_nor_tally_and_takes_everything_once_it_can(
    club: WatchedClub, small_disk: Path
) -> None:
    club.home = small_disk / "depot"
    terminal = club.piece(speed=1)
    filler = fill(small_disk)
    # Its last page takes a few more lines: they must be there as well.
    terminal.type("".join(f"{reps % 9 + 1}{key}" for reps, key in enumerate("acdeo" * 10)))
    runs_on_through(terminal, club, filler.unlink)


@pytest.mark.real_time
@pytest.mark.usefixtures("in_the_table")
def test_a_file_that_may_grow_no_further_takes_part_of_a_line_and_later_the_rest(
    club: WatchedClub,
) -> None:
    if sys.platform != "linux":
        pytest.skip("no other system tells a process from outside how large its files may grow")
    terminal = club.piece(speed=1)
    (journal,) = (club.home / "journals").glob("[!.]*.jsonl")
    limits = resource.prlimit(terminal._child.pid, resource.RLIMIT_FSIZE)
    tight = (journal.stat().st_size + 20, limits[1])
    resource.prlimit(terminal._child.pid, resource.RLIMIT_FSIZE, tight)

    def mend() -> None:
        assert not journal.read_bytes().endswith(b"\n")
        resource.prlimit(terminal._child.pid, resource.RLIMIT_FSIZE, limits)

    runs_on_through(terminal, club, mend)


# -- everything else, by hand ----------------------------------------------------------


def remount(disk: Path, how: str) -> None:
    assert system("mount", "-o", f"remount,{how}", str(disk)) == 0


def test_a_disk_that_may_only_be_read_is_said_and_gets_everything_once_it_may_be_written(
    machine: Machine, small_disk: Path
) -> None:
    machine.folder = small_disk
    remount(small_disk, "ro")
    coach = machine.opens()
    into_the_piece(coach)
    assert not coach.session.save()
    (words,) = said(coach.session)
    assert words.startswith("F8 saves elsewhere: nothing of this class is on disk in")
    assert words.endswith(f"{small_disk} (the disk can only be read); it is tried again")
    assert rounds(coach.session, "Noor") == 1
    remount(small_disk, "rw")
    coach.session.try_again()
    all_is_written(coach.session)
    assert list((small_disk / "results").glob("*.json"))
    coach.session.close()


def test_a_file_where_the_journals_belong_is_left_alone_and_said(machine: Machine) -> None:
    machine.folder.mkdir()
    in_the_way = machine.folder / "journals"
    in_the_way.write_text("the old caretaker's diary")
    coach = machine.opens()
    into_the_piece(coach)
    (words,) = said(coach.session)
    assert "nothing of this class is on disk" in words
    assert "another file is called journals" in words
    assert in_the_way.read_text() == "the old caretaker's diary"
    in_the_way.unlink()
    coach.type("b")
    coach.session.try_again()
    all_is_written(coach.session)
    assert rounds(coach.session, "Bram") == 1


@pytest.mark.parametrize("how", [shutil.rmtree, lambda folder: folder.rename(f"{folder} old")])
def test_a_folder_removed_or_renamed_in_the_middle_is_made_again_with_the_whole_class_in_it(
    machine: Machine, how: Callable[[Path], object]
) -> None:
    coach = machine.opens()
    into_the_piece(coach)
    coach.session.save()
    how(machine.folder)
    coach.wind(5)
    coach.type("b")
    all_is_written(coach.session)
    coach.session.try_again()
    assert list((machine.folder / "results").glob("*.json"))
    how(machine.folder / "journals") if how is shutil.rmtree else None
    coach.session.try_again()  # nobody calls a round for a while
    all_is_written(coach.session)


def test_a_journal_whose_name_was_taken_by_another_file_writes_over_nothing(
    machine: Machine,
) -> None:
    coach = machine.opens()
    into_the_piece(coach)
    path = coach.session.journal.path
    path.unlink()
    path.write_text("somebody's list of parts")
    coach.type("b")
    (words,) = said(coach.session)
    assert f"another file is called {path.name}" in words
    assert path.read_text() == "somebody's list of parts"
    path.unlink()
    coach.session.try_again()
    all_is_written(coach.session)


@pytest.mark.parametrize("number", [errno.EIO, errno.ENOSPC, errno.EDQUOT])
def test_a_sync_that_fails_is_said_and_what_it_may_have_lost_is_written_once_more(
    machine: Machine, number: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    coach = machine.opens()
    writer = coach.session.journal
    with monkeypatch.context() as patched:
        patched.setattr(os, "fdatasync", refusing("fdatasync", number))
        into_the_piece(coach)
        writer.settle(5)
        assert writer.fault == reason(OSError(number, os.strerror(number)))
        assert writer.on_disk < writer.number
        # What such a sync does to a page on Linux: it keeps its place in the file, not its bytes.
        with writer.path.open("r+b") as file:
            file.seek(-40, os.SEEK_END)
            file.write(bytes(40))
    coach.session.try_again()
    all_is_written(coach.session)


def test_a_sync_that_takes_long_is_said_while_it_does(
    machine: Machine, monkeypatch: pytest.MonkeyPatch
) -> None:
    slow = threading.Event()
    with monkeypatch.context() as patched:
        patched.setattr(os, "fdatasync", lambda _: slow.wait(10))
        coach = machine.opens()
        into_the_piece(coach)
        _until(lambda: coach.session.on_disk.slow)
        assert said(coach.session) == ["the disk is slow: a power cut now could lose the last taps"]
        assert rounds(coach.session, "Noor") == 1
        slow.set()
        coach.session.journal.settle(5)
        assert said(coach.session) == []


def test_a_journal_taken_away_while_it_is_being_synced_is_no_failed_sync(
    machine: Machine, monkeypatch: pytest.MonkeyPatch
) -> None:
    if sys.platform != "linux":
        pytest.skip("another call syncs there")
    real, begun, goes_on = os.fdatasync, threading.Event(), threading.Event()
    synced: list[int] = []

    def slow(file: int) -> None:
        begun.set()
        assert goes_on.wait(10)
        real(file)
        synced.append(os.fstat(file).st_ino)

    monkeypatch.setattr(os, "fdatasync", slow)
    coach = machine.opens()
    path = coach.session.journal.path
    into_the_piece(coach)
    assert begun.wait(10)
    path.unlink()
    path.write_text("somebody's list of parts")
    coach.type("b")
    goes_on.set()
    _until(lambda: len(synced) == 1)
    path.unlink()
    coach.session.try_again()
    _until(lambda: path.stat().st_ino in synced)
    all_is_written(coach.session)


NAMES_THERE = ("{stem}.json", "{stem}-turntable.csv", "{stem}.json/a folder/of/somebody.txt")


@pytest.mark.parametrize("there", NAMES_THERE)
def test_a_results_name_that_somebody_has_is_left_as_it_is(machine: Machine, there: str) -> None:
    stem = "2026-11-24-1830-turntable"
    theirs = machine.folder / "results" / there.format(stem=stem)
    theirs.parent.mkdir(parents=True)
    theirs.write_text("not a class of ours")
    coach = machine.opens()
    into_the_piece(coach)
    coach.wind(1_000)
    assert coach.session.save()
    assert coach.session.save()
    assert theirs.read_text() == "not a class of ours"
    assert [path.name for path in coach.session.results.saved] == [
        f"{stem}-2.json",
        f"{stem}-2-turntable.csv",
    ]


def test_a_save_cut_off_at_any_step_leaves_whole_files_and_is_made_good(
    machine: Machine, monkeypatch: pytest.MonkeyPatch
) -> None:
    coach = machine.opens()
    into_the_piece(coach)
    coach.session.save()
    before = {path: path.read_bytes() for path in coach.session.results.saved}
    coach.wind(5)
    coach.type("b")
    for call in ("fdatasync", "fsync", "open", "rename", "replace"):
        for after in range(4):
            with monkeypatch.context() as patched:
                patched.setattr(os, call, refusing(call, errno.ENOSPC, after))
                coach.session.save()
            for path, content in before.items():
                assert path.read_bytes() == content or b"Bram" in path.read_bytes()
            assert not list(path.parent.glob(".writing*"))
    coach.session.try_again()
    all_is_written(coach.session)
    document = json.loads(coach.session.results.saved[0].read_bytes())
    scores = {lane["athlete"]: lane["rounds"] for lane in document["pieces"][0]["lanes"]}
    assert scores == {"Noor": 1, "Bram": 1, "Ilse": 0}


def _until(true: Callable[[], bool]) -> None:
    pause = threading.Event()
    for _ in range(500):
        if true():
            return
        pause.wait(0.01)
    pytest.fail("it hasn't come true within five seconds")
