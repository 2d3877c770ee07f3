"""The server's process as a class sees it: begun, heard, begun anew, and never waited for."""

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

import pytest

from classclock.following.page_messages import NotServed, Serve, Served
from classclock.following.page_process import PageProcess
from classclock.following.page_words import GIVEN_UP, HANGS

pytestmark = pytest.mark.real_time
SERVED = '{"type":"served","url":"http://127.0.0.1:1/x/","bare":"http://127.0.0.1:1/"}'
SERVE = Serve("/nowhere", "127.0.0.1", 0)
GOES_ON = f"import sys\nsys.stdin.readline()\nprint('''{SERVED}''', flush=True)\nsys.stdin.read()"
SILENT = f"import sys, time\nprint('''{SERVED}''', flush=True)\ntime.sleep(60)"
ENDS = "pass"
REFUSES = """print('{"type":"not served","why":"no such address"}', flush=True)"""


@contextmanager
def begun(code: str, *, silent_s: float = 60, times: int = 1) -> Iterator[PageProcess]:
    process = PageProcess(
        SERVE, command=(sys.executable, "-c", code), pauses_s=(0.0,) * times, silent_s=silent_s
    )
    yield process
    process.close()


def until(ready: Callable[[], object]) -> None:
    end = time.monotonic() + 20  # noqa: TID251  a process's own time
    while not ready():
        assert time.monotonic() < end  # noqa: TID251  as above
        time.sleep(0.01)


def test_it_is_told_what_to_serve_heard_and_ends_when_nobody_needs_it() -> None:
    with begun(GOES_ON) as process:
        until(lambda: isinstance(process.status, Served))
        process.close()
        until(lambda: process.pid is None)


def test_one_that_keeps_ending_is_given_up_and_says_so() -> None:
    with begun(ENDS, times=2) as process:
        until(lambda: process.status == NotServed(GIVEN_UP))


def test_one_that_is_killed_is_begun_anew() -> None:
    with begun(GOES_ON, times=3) as process:
        until(lambda: isinstance(process.status, Served))
        first = process.pid
        assert process._process is not None
        process._process.kill()
        until(lambda: process.pid not in (first, None) and isinstance(process.status, Served))


def test_one_that_says_why_it_cant_isnt_tried_again() -> None:
    with begun(REFUSES, times=3) as process:
        until(lambda: process.status == NotServed("no such address"))
        until(lambda: process.pid is None)
        assert process.status == NotServed("no such address")


def test_one_that_hangs_is_said_and_ended() -> None:
    with begun(SILENT, silent_s=0.5) as process:
        until(lambda: process.status == NotServed(HANGS))
        until(lambda: process.status == NotServed(GIVEN_UP) or process.status is None)
