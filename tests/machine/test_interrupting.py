"""Ctrl+c held back where something is half done."""

import signal
import threading
from collections.abc import Callable

import pytest

from classclock.machine.interrupting import uninterrupted

Strike = Callable[[], None]


def test_it_comes_at_the_end_and_not_in_the_middle(ctrl_c: Strike) -> None:
    done = []

    def work() -> None:
        with uninterrupted():
            ctrl_c()
            done.append("whole")

    with pytest.raises(KeyboardInterrupt):
        work()
    assert done == ["whole"]
    with pytest.raises(KeyboardInterrupt):
        ctrl_c()


def test_where_nothing_can_be_undone_it_came_too_late(ctrl_c: Strike) -> None:
    with uninterrupted(for_good=True):
        ctrl_c()
    with pytest.raises(KeyboardInterrupt):
        ctrl_c()


def test_what_goes_wrong_is_said_rather_than_that_it_was_struck(ctrl_c: Strike) -> None:
    def work() -> None:
        with uninterrupted():
            ctrl_c()
            raise OSError("full")

    with pytest.raises(OSError, match="full"):
        work()


def test_a_program_that_ctrl_c_doesnt_end_goes_on(ctrl_c: Strike) -> None:
    """As one that a shell began with `&`."""
    usual = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        with uninterrupted():
            ctrl_c()
    finally:
        signal.signal(signal.SIGINT, usual)


def test_a_thread_of_its_own_leaves_signals_alone() -> None:
    done: list[object] = []

    def work() -> None:
        with uninterrupted():
            done.append(signal.getsignal(signal.SIGINT))

    thread = threading.Thread(target=work)
    thread.start()
    thread.join()
    assert done == [signal.getsignal(signal.SIGINT)]
