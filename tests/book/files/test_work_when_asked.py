"""Work in a thread of its own, as often as it is asked for."""

import threading

from classclock.book.files.work_when_asked import WorkWhenAsked


def test_it_is_done_once_more_for_whoever_asks_while_it_is_being_done() -> None:
    begun, goes_on, done = threading.Semaphore(0), threading.Semaphore(0), []

    def work() -> None:
        begun.release()
        assert goes_on.acquire(timeout=5)
        done.append(1)

    work_when_asked = WorkWhenAsked(work)
    assert work_when_asked.wait(0), "nothing was asked for"
    work_when_asked.ask()
    assert begun.acquire(timeout=5)
    assert work_when_asked.takes > 0
    for _ in range(3):
        work_when_asked.ask()
    assert not work_when_asked.wait(0)
    goes_on.release(2)
    assert work_when_asked.wait(5)
    assert len(done) == 2
    assert work_when_asked.takes == 0
    work_when_asked.end()


def test_once_it_is_ended_nobody_waits_for_what_hangs() -> None:
    begun, never = threading.Event(), threading.Event()

    def work() -> None:
        begun.set()
        never.wait(5)

    work_when_asked = WorkWhenAsked(work)
    work_when_asked.ask()
    assert begun.wait(5)
    work_when_asked.end()
    assert not work_when_asked.wait(0)
    never.set()
