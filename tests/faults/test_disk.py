"""A disk that fails: clock and tally run on, it is said once and plainly, nothing is lost."""

import errno
import json
import os
import resource
import shutil
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from itertools import count
from pathlib import Path
from typing import Any

import pytest

from classclock.book.files.journal import read_journal
from classclock.live.replaying import replayed
from classclock.live.session import Session
from tests.classes.conftest import Coach
from tests.faults.conftest import Machine, WatchedClub
from tests.terminal.conftest import Terminal

NOTICE = "the class isn't being saved"


def into_the_piece(coach: Coach) -> None:
    coach.type("<down>")
    coach.start()
    coach.wind(60)
    coach.type("n")


def all_is_written(session: Session) -> None:
    """The journal on disk folds to the class as it stands."""
    assert session.troubles() == ()
    assert session.journal.saved
    assert replayed(read_journal(session.journal.path)) == session.live.record


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
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of 256 kB."""
    disk = tmp_path / "stick"
    disk.mkdir()
    if _system("mount", "-t", "tmpfs", "-o", "size=256k", "tmpfs", str(disk)):
        pytest.skip("no disk can be mounted here")
    yield disk
    _system("umount", "-l", str(disk))


def runs_on_through(terminal: Terminal, club: WatchedClub, mend: Callable[[], None]) -> None:
    """Taps go on being counted on the screen, one notice stands there, then all is written."""
    for key, name in zip("ibnpt", ("Ilse", "Bram", "Noor", "Piet", "Tuva"), strict=True):
        club.calls(key, name, terminal)
    screen = terminal.shows(f"F8 saves in another place: {NOTICE}")
    assert screen.count(NOTICE) == 1
    mend()
    terminal.drops(NOTICE)
    assert sorted(club.names_tapped()) == ["Bram", "Ilse", "Noor", "Piet", "Tuva"]


@pytest.mark.real_time
def test_a_full_disk_stops_neither_clock_nor_tally_and_takes_everything_once_it_can(
    club: WatchedClub, small_disk: Path
) -> None:
    club.home = small_disk / "depot"
    if sys.platform == "win32":
        pytest.skip("no file system of a size of our own")
    terminal = club.piece(speed=1)
    filler = small_disk / "old photographs"
    with filler.open("wb") as file:
        file.write(bytes(os.statvfs(small_disk).f_bavail * os.statvfs(small_disk).f_bsize))
    # Its last page takes a few more lines: they must be there as well.
    terminal.type("".join(f"{reps % 9 + 1}{key}" for reps, key in enumerate("acdeo" * 10)))
    runs_on_through(terminal, club, filler.unlink)


@pytest.mark.real_time
def test_a_file_that_may_grow_no_further_takes_part_of_a_line_and_later_the_rest(
    club: WatchedClub,
) -> None:
    if sys.platform != "linux":
        pytest.skip("no other system tells a process from outside how large its files may grow")
    terminal = club.piece(speed=1)
    (journal,) = (club.home / "journals").glob("*.jsonl")
    limits = resource.prlimit(terminal._child.pid, resource.RLIMIT_FSIZE)
    tight = (journal.stat().st_size + 20, limits[1])
    resource.prlimit(terminal._child.pid, resource.RLIMIT_FSIZE, tight)

    def mend() -> None:
        assert not journal.read_bytes().endswith(b"\n")
        resource.prlimit(terminal._child.pid, resource.RLIMIT_FSIZE, limits)

    runs_on_through(terminal, club, mend)


# -- everything else, by hand ----------------------------------------------------------


def remount(disk: Path, how: str) -> None:
    assert _system("mount", "-o", f"remount,{how}", str(disk)) == 0


def test_a_disk_that_may_only_be_read_is_said_and_gets_everything_once_it_may_be_written(
    machine: Machine, small_disk: Path
) -> None:
    machine.folder = small_disk
    remount(small_disk, "ro")
    coach = machine.opens()
    into_the_piece(coach)
    assert not coach.session.save()
    said = coach.session.troubles()
    assert [line.split(":")[0] for line in said] == [
        "nothing is being saved",
        f"the results can't be saved in {small_disk / 'results'} (Read-only file system)",
    ]
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
    (said,) = coach.session.troubles()
    assert said.startswith("nothing is being saved")
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
    (said,) = coach.session.troubles()
    assert "another file is called" in said
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
        _until(lambda: writer.trouble is not None)
        assert coach.session.troubles() == (
            f"the disk doesn't confirm what it saves: {os.strerror(number)}",
        )
        _until(lambda: not writer._asked.is_set())
        # What such a sync does to a page on Linux: it keeps its place in the file, not its bytes.
        with writer.path.open("r+b") as file:
            file.seek(-40, os.SEEK_END)
            file.write(bytes(40))
    coach.session.try_again()
    _until(lambda: writer.trouble is None)
    all_is_written(coach.session)


def test_a_sync_that_takes_long_is_said_while_it_does(
    machine: Machine, monkeypatch: pytest.MonkeyPatch
) -> None:
    slow = threading.Event()
    with monkeypatch.context() as patched:
        patched.setattr(os, "fdatasync", lambda _: slow.wait(10))
        coach = machine.opens()
        into_the_piece(coach)
        _until(lambda: coach.session.journal.trouble is not None)
        assert coach.session.troubles() == (
            "the disk is slow: a power cut now could lose the last taps",
        )
        assert rounds(coach.session, "Noor") == 1
        slow.set()
        _until(lambda: coach.session.journal.trouble is None)


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
    _until(lambda: coach.session.journal.trouble is None)
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


def _system(program: str, *arguments: str) -> int:
    found = shutil.which(program)
    if found is None:
        return 127
    return subprocess.run([found, *arguments], check=False, capture_output=True).returncode
