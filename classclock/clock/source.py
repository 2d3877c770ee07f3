"""The one door through which time comes in.

Readings are whole nanoseconds of a clock that counts suspended time and never follows the wall
clock's steps; where a reading starts from has no meaning. Nothing else in the package asks the
machine what time it is.
"""

import datetime as dt
import math
from fractions import Fraction
from typing import TYPE_CHECKING, Protocol

from classclock.machine.clocks import key_clock, raw_clock

if TYPE_CHECKING:
    from collections.abc import Callable

MS = 1_000_000
"""Nanoseconds in a millisecond."""
NEVER = 2**63 - 1
"""A raw reading that never comes; it still fits a signed 64-bit number."""


class TimeSource(Protocol):
    """What time it is, and how long until another time."""

    def now(self) -> int:
        """This source's reading, in nanoseconds."""
        ...

    def real_seconds(self, until: int) -> float:
        """The real seconds that a wait for this reading takes.

        Zero if it has been reached, infinite if it never comes by itself.
        """
        ...

    def age(self, stamp: float) -> int:
        """How long ago, in nanoseconds of this source, something stamped so arrived.

        `stamp` is as `stamp_now` gives it, which the terminal's input thread puts on a key. A
        source that only hands wind has no past to speak of: 0.
        """
        ...

    def raw(self, at: int) -> int:
        """What the machine's raw clock reads when this source reads `at`, in nanoseconds.

        `NEVER` if that doesn't come by itself.
        """
        ...

    def stroke_ms(self, stamp: float) -> int:
        """The moment of a keystroke for the guard against keys that repeat by themselves.

        Milliseconds of real time at any speed, since a keyboard repeats in real time; under a
        source that only hands wind, its own milliseconds.
        """
        ...

    def wall(self) -> dt.datetime:
        """The time of day, with the local offset."""
        ...


def raw_now() -> int:
    """The machine's raw clock, in nanoseconds, the same in every process; it counts sleep."""
    return raw_clock()


def stamp_now() -> float:
    """The stamp that a key struck now bears, in seconds."""
    return key_clock()


def local_now() -> dt.datetime:
    """The wall clock, with the local offset."""
    return dt.datetime.now().astimezone()


def _real_age(stamp: float) -> int:
    return max(0, round((key_clock() - stamp) * 1e9))


class MachineSource:
    """The machine's own time."""

    def now(self) -> int:
        return raw_now()

    def real_seconds(self, until: int) -> float:
        return max(0, until - raw_now()) / 1e9

    def age(self, stamp: float) -> int:
        return _real_age(stamp)

    def raw(self, at: int) -> int:
        return at

    def stroke_ms(self, stamp: float) -> int:
        return (raw_now() - _real_age(stamp)) // MS

    def wall(self) -> dt.datetime:
        return local_now()


class WoundSource:
    """Time that runs `rate` times as fast as the machine's, and can be wound on by hand.

    At rate 0 it stands still unless wound. The same class serves tests, rehearsals, the demo and
    `--speed`.
    """

    def __init__(
        self,
        rate: float = 0,
        *,
        start: int = 0,
        wall: dt.datetime | None = None,
        since: int | None = None,
    ) -> None:
        """Start at this reading; `wall` is the time of day then, the machine's if not given.

        `since` is the raw clock's reading then; now, if not given.

        Raises:
            ValueError: the rate is negative: time doesn't run backwards.
        """
        if rate < 0:
            raise ValueError(f"time can't run at {rate}: give a speed of 0 or more")
        self.rate = Fraction(rate)
        self.on_jump: Callable[[], None] = lambda: None
        """Called after each jump; whoever waits for this source puts its alarm here."""
        self._real_base = raw_now() if since is None else since
        self._base = start
        self._wall, self._wall_set_at = wall if wall is not None else local_now(), start

    def now(self) -> int:
        return self._base + math.floor((raw_now() - self._real_base) * self.rate)

    def jump(self, ns: int) -> None:
        """Wind time on by so many nanoseconds.

        Raises:
            ValueError: it would go backwards.
        """
        if ns < 0:
            raise ValueError("time can't be wound back")
        self._base += ns
        self.on_jump()

    def set_wall(self, wall: dt.datetime) -> None:
        """Set the time of day, as somebody sets the machine's clock; no reading changes."""
        self._wall, self._wall_set_at = wall, self.now()

    def real_seconds(self, until: int) -> float:
        left = until - self.now()
        if left <= 0:
            return 0.0
        return float(left / self.rate) / 1e9 if self.rate else math.inf

    def age(self, stamp: float) -> int:
        return math.floor(_real_age(stamp) * self.rate)

    def raw(self, at: int) -> int:
        if self.rate:
            return self._real_base + math.ceil((at - self._base) / self.rate)
        return raw_now() if at <= self._base else NEVER

    def stroke_ms(self, stamp: float) -> int:
        return (raw_now() - _real_age(stamp)) // MS if self.rate else self._base // MS

    def wall(self) -> dt.datetime:
        passed = dt.timedelta(microseconds=(self.now() - self._wall_set_at) // 1000)
        return self._wall + passed


def time_source(speed: int) -> TimeSource:
    """The machine's time, or time that runs `speed` times as fast, to try things out."""
    return MachineSource() if speed == 1 else WoundSource(speed)
