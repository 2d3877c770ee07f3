"""How a segment is made shorter than planned, so that the class ends in time."""

from msgspec import Struct

from classclock.units.times import show_time

_MINUTE = 60_000
_LEAST = 2
"""Half of what was planned is the least that is offered: less would be another piece. Our own."""


class Fit(Struct, frozen=True, omit_defaults=True, forbid_unknown_fields=True):
    """One of these. Journals hold it."""

    length: int | None = None
    """Its time or cap from now on, in milliseconds."""
    repeat: int | None = None
    """How often its steps are gone through from now on."""
    left_out: bool = False
    """It is passed by; going back still reaches it."""


def shorter_lengths(planned: int) -> tuple[Fit, ...]:
    """Whole minutes under this length (ms), the longest first."""
    longest = (planned - 1) // _MINUTE
    least = max(1, -(-planned // (_LEAST * _MINUTE)))
    return tuple(Fit(length=n * _MINUTE) for n in range(longest, least - 1, -1))


def fewer_repeats(planned: int) -> tuple[Fit, ...]:
    """The most first."""
    return tuple(Fit(repeat=n) for n in range(planned - 1, -(-planned // _LEAST) - 1, -1))


def length_of_planned(length: int, planned: int) -> str:
    """`12:00 of 16:00 planned`; both in milliseconds."""
    return f"{show_time(length)} of {show_time(planned)} planned"
