"""A pipe whose other end may stop reading, under orders that may not wait for it."""

import os
from collections.abc import Callable

from classclock.clock.source import raw_now
from classclock.sound.order_pipe import OrderPipe

SECOND = 1_000_000_000
LINE = b"x" * 999 + b"\n"


def test_lines_arrive_whole_and_in_their_order_and_then_the_end() -> None:
    reading, writing = os.pipe()
    pipe = OrderPipe(os.fdopen(writing, "wb", buffering=0))
    lines = [b"%d\n" % number for number in range(500)]
    assert all(pipe.put(line) for line in lines)
    pipe.close()
    with os.fdopen(reading, "rb") as other:
        assert other.readlines() == lines


def test_nobody_waits_for_an_end_that_doesn_t_read_and_it_is_said_when_it_is_too_much() -> None:
    reading, writing = os.pipe()
    pipe = OrderPipe(os.fdopen(writing, "wb", buffering=0))
    before = raw_now()
    taken = [pipe.put(LINE) for _ in range(2000)]
    assert raw_now() - before < SECOND
    assert taken[:1000] == [True] * 1000, "a class gives far fewer at once"
    assert not taken[-1]
    os.close(reading)


def test_an_end_that_is_gone_raises_nothing(until: Callable[[Callable[[], bool]], None]) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    opened = os.fdopen(writing, "wb", buffering=0)
    pipe = OrderPipe(opened)
    pipe.put(LINE)
    until(lambda: opened.closed)
    assert pipe.put(LINE), "as to one that reads: who keeps the player sees that it has ended"
