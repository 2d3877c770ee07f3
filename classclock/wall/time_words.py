"""The time of day against the class's end, in words: an hour has an end."""

from datetime import datetime, timedelta

from msgspec import Struct

_MINUTE = timedelta(minutes=1)
_MINUTE_MS = 60_000
_SOON = timedelta(minutes=5)


class TimeWords(Struct, frozen=True):
    now: str
    """The time of day."""
    end: str
    """When the class ends, or by how much it is over; empty where nobody said."""
    over: bool = False
    soon: bool = False

    def __str__(self) -> str:
        return f"{self.now}  {self.end}" if self.end else self.now


def time_words(now: datetime, ends: str | None) -> TimeWords:
    """`ends` is RFC 3339 with its offset."""
    clock = f"{now:%H:%M}"
    if ends is None:
        return TimeWords(clock, "")
    end = datetime.fromisoformat(ends)
    over = (now - end) // _MINUTE
    if over >= 1:
        return TimeWords(clock, f"{over} min over", over=True)
    return TimeWords(clock, f"ends {end.astimezone(now.tzinfo):%H:%M}", soon=end - now <= _SOON)


def time_left(now: datetime, ends: str | None) -> int | None:
    """Whole minutes until the class's end, in milliseconds; negative once it is over."""
    if ends is None:
        return None
    return (datetime.fromisoformat(ends) - now) // _MINUTE * _MINUTE_MS


def minutes(ms: int) -> int:
    """Rounded up: what is planned takes no less."""
    return -(-ms // _MINUTE_MS)


def left_words(now: datetime, ends: str | None, needs: int) -> str:
    """How much of the class is left, and what the plan still `needs` of it (milliseconds)."""
    plan = f"the plan needs {minutes(needs)} min more"
    left = time_left(now, ends)
    if left is None or left < 0:
        return plan
    return f"{minutes(left)} min of the class left, {plan}"
