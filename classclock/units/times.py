"""Times as a plan writes them, kept as whole milliseconds."""

import re

_CLOCK = re.compile(r"(?:(\d{1,2}):)?(\d{1,3}):([0-5]\d)(?:\.(\d{1,3}))?", re.ASCII)
_ISO = re.compile(
    r"PT(?=\d)(?:(\d{1,3})H)?(?:(\d{1,4})M)?(?:(\d{1,5})(?:[.,](\d{1,3}))?S)?", re.ASCII
)


class Milliseconds(int):
    """A length of time in whole milliseconds, told apart from a bare number by its type.

    Where a file may give whole seconds, `Milliseconds(60_000)` is a minute and can't be taken for
    a thousand of them. Sums and products of it are bare numbers.
    """

    __slots__ = ()


def parse_time(written: str) -> Milliseconds:
    """Read `"mm:ss"`, `"h:mm:ss"` or an ISO 8601 duration (`"PT16M"`).

    Raises:
        ValueError: it is none of these.
    """
    text = written.strip()
    if match := _CLOCK.fullmatch(text):
        hours, minutes, seconds, fraction = match.groups()
        if hours is None or int(minutes) < 60:
            return _ms(hours, minutes, seconds, fraction)
    elif match := _ISO.fullmatch(text):
        return _ms(*match.groups())
    raise ValueError(f'"{written}" is not a time: write "mm:ss", as in "16:00"')


def _ms(
    hours: str | None, minutes: str | None, seconds: str | None, fraction: str | None
) -> Milliseconds:
    whole = int(hours or 0) * 3600 + int(minutes or 0) * 60 + int(seconds or 0)
    return Milliseconds(whole * 1000 + int((fraction or "0").ljust(3, "0")))


def show_time(ms: int) -> str:
    """Whole seconds as a clock shows them, no roll-over before an hour: 59:59, then 1:00:00.

    `ms` is cut down to the whole second; whoever wants it rounded up does so before.
    """
    seconds = ms // 1000
    if seconds < 3600:
        return f"{seconds // 60}:{seconds % 60:02}"
    return f"{seconds // 3600}:{seconds // 60 % 60:02}:{seconds % 60:02}"
