"""What is held, by whom, and until when: with a second process, as coaches have them."""

import errno
import importlib
import os
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from classclock.machine.locking import HeldElsewhereError, held, is_held, lock_of, take

HOLDER = """
import sys
from pathlib import Path
from classclock.machine.locking import take
lock = take(Path(sys.argv[1]))
print("held", flush=True)
sys.stdin.read()
"""


def holder(path: Path) -> subprocess.Popen[bytes]:
    """Another process that holds it until it is killed."""
    process = subprocess.Popen(
        [sys.executable, "-c", HOLDER, str(path)], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    )
    assert process.stdout is not None
    assert process.stdout.readline() == b"held\n"
    return process


def test_what_another_process_holds_is_refused_until_it_ends_however_it_does(
    tmp_path: Path,
) -> None:
    path = tmp_path / "class.lock"
    with holder(path) as other:
        assert is_held(path)
        with pytest.raises(HeldElsewhereError):
            take(path)
        other.kill()
    assert not is_held(path)
    take(path).release()


@pytest.mark.skipif(sys.platform == "win32", reason="it has no lock to be shared")
def test_who_asks_waits_for_nobody_and_is_in_nobodys_way(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "class.lock"
    lock = take(path)

    def waits(_: float) -> None:
        raise AssertionError("it waits")

    monkeypatch.setattr("time.sleep", waits)
    assert is_held(path)
    lock.release()
    path.touch()
    with path.open("rb") as other:
        fcntl = importlib.import_module("fcntl")
        fcntl.flock(other, fcntl.LOCK_SH)  # as one who asks does, for a moment
        assert not is_held(path)


def test_what_this_process_holds_is_held_too(tmp_path: Path) -> None:
    path = tmp_path / "made" / "class.lock"
    lock = take(path)
    assert is_held(path)
    with pytest.raises(HeldElsewhereError):
        take(path)
    lock.release()
    assert not is_held(path)


def test_the_file_that_is_guarded_stays_readable_and_its_own_goes_when_it_is_let_go(
    tmp_path: Path,
) -> None:
    journal = tmp_path / "class.jsonl"
    journal.write_text("a line\n")
    lock = take(lock_of(journal))
    assert journal.read_text() == "a line\n"
    assert lock_of(journal).stat().st_mode & 0o777 == 0o600
    lock.release()
    assert [path.name for path in tmp_path.iterdir()] == ["class.jsonl"]


def test_letting_go_leaves_alone_what_somebody_else_put_there(tmp_path: Path) -> None:
    path = tmp_path / "class.lock"
    lock = take(path)
    path.unlink()
    other = take(path)
    lock.release()
    assert is_held(path)
    other.release()


def test_who_waits_gets_it_as_soon_as_it_is_free(tmp_path: Path) -> None:
    path = tmp_path / "book.lock"
    order: list[str] = []
    with held(path, 5):
        waiting = threading.Thread(target=lambda: _hold(path, order))
        waiting.start()
        waiting.join(0.05)
        order.append("first")
    waiting.join(5)
    assert order == ["first", "second"]
    assert path.exists(), "it stays for the next"
    assert not is_held(path)


def _hold(path: Path, order: list[str]) -> None:
    with held(path, 5):
        order.append("second")


@pytest.mark.parametrize("number", [errno.EAGAIN, errno.EACCES])
def test_who_only_looks_doesn_t_keep_out_who_wants_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: int
) -> None:
    """Two windows may look at one class in the same instant; the two errors are POSIX's for it."""
    tried = iter([False, False, True])

    def looked_at_twice(*_: object) -> None:
        if not next(tried):
            raise OSError(number, os.strerror(number))

    monkeypatch.setattr("fcntl.flock", looked_at_twice)
    take(tmp_path / "class.lock")
    assert not list(tried)


@pytest.mark.parametrize("number", [errno.ENOLCK, errno.ENOSYS, errno.EOPNOTSUPP])
def test_where_the_file_system_knows_no_locks_a_class_runs_all_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: int
) -> None:
    def refused(*_: object) -> None:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr("fcntl.flock", refused)
    take(tmp_path / "class.lock").release()


def test_any_other_error_is_raised_and_nothing_stays_open(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(*_: object) -> None:
        raise OSError(errno.EIO, "the disk is gone")

    monkeypatch.setattr("fcntl.flock", refused)
    before = os.listdir("/dev/fd")  # noqa: PTH208  names are enough
    with pytest.raises(OSError, match="the disk is gone"):
        take(tmp_path / "class.lock")
    assert os.listdir("/dev/fd") == before  # noqa: PTH208  the same
    assert not is_held(tmp_path / "class.lock")
