"""How far a segment is, from the moments at which it was started, held and resumed.

A moment is whole milliseconds on the class's own clock: zero when the class was opened, counting
suspended time, never following the wall clock's steps.
"""

from msgspec import Struct
from msgspec.structs import replace


class Hold(Struct, frozen=True):
    """The clock stood still from one moment to another; to None means that it still does."""

    since: int
    until: int | None = None


class Shift(Struct, frozen=True):
    """From this moment on the reading is `by` ms further: the clock was set right by hand."""

    at: int
    by: int


class RunningTime(Struct, frozen=True):
    """A segment's elapsed time as a pure function of the moment. Zero is go."""

    go: int
    holds: tuple[Hold, ...] = ()
    shifts: tuple[Shift, ...] = ()

    @property
    def held(self) -> bool:
        return bool(self.holds) and self.holds[-1].until is None

    def elapsed(self, at: int) -> int:
        """Milliseconds of the segment gone at this moment; negative during the count-in.

        A moment within a hold reads as the moment at which the hold began.
        """
        still = sum(
            min(at, hold.until if hold.until is not None else at) - hold.since
            for hold in self.holds
            if hold.since < at
        )
        return at - self.go - still + sum(shift.by for shift in self.shifts if shift.at <= at)

    def moment(self, elapsed: int, now: int) -> int | None:
        """When, from `now` on and if nothing else happens, this elapsed time is reached.

        None while the clock is held.
        """
        return None if self.held else now + elapsed - self.elapsed(now)

    def hold(self, at: int) -> "RunningTime":
        return replace(self, holds=(*self.holds, Hold(at)))

    def resume(self, at: int) -> "RunningTime":
        return replace(self, holds=(*self.holds[:-1], Hold(self.holds[-1].since, at)))

    def never_held(self) -> "RunningTime":
        """As if the latest hold had never been."""
        return replace(self, holds=self.holds[:-1])

    def shift(self, at: int, by: int) -> "RunningTime":
        return replace(self, shifts=(*self.shifts, Shift(at, by)))
