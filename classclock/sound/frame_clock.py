"""When the next block will be heard, told from the moments at which blocks were asked for.

A device asks for a block when it has room for one. It may ask late, when the machine is busy, but
never before there is room: so the earliest requests tell how the device's own clock runs, and the
mean of all would not. The first requests tell nothing (a sound server fills its buffer at once and
may then stand still for a second or two), so the anchor is found anew all the time.
"""

from collections import deque

from classclock.sound.waves import RATE

_NS = 1_000_000_000
_WINDOW = 2 * RATE
"""Frames. Shorter, and a busy machine had no request come on time in it: beeps came 11 ms late.
Longer, and a device that stood still for a moment would be believed again too late."""


class FrameClock:
    def __init__(self, buffered: int, capacity: int) -> None:
        """Frames: `buffered` of `capacity` are queued before the ones asked for, when all is well.

        A request later than `capacity` means that the device ran dry and stood still.
        """
        self._buffered = buffered
        self._capacity = capacity
        self._frames = 0
        self._requests: deque[tuple[int, int]] = deque()

    @property
    def frames(self) -> int:
        """How many were asked for so far."""
        return self._frames

    def next_block(self, now: int, frames: int) -> int:
        """Give the raw ns at which the first of `frames` frames, asked for at `now`, is heard."""
        zero = now - self._frames * _NS // RATE
        if self._requests and zero - min(self._requests)[0] > self._capacity * _NS // RATE:
            self._requests.clear()
        while self._requests and self._requests[0][1] < self._frames - _WINDOW:
            self._requests.popleft()
        self._requests.append((zero, self._frames))
        start = min(self._requests)[0] + (self._frames + self._buffered) * _NS // RATE
        self._frames += frames
        return start
