"""The notices of a class as rows: pure."""

from collections.abc import Iterator

from msgspec import Struct

from classclock.screens.live.foot.wordings import row_parts
from classclock.wall.notices.notice_log import Logged

TIME = len("18:42:07") + 2
"""Columns for the time of day before the words."""


class NoticeRow(Struct, frozen=True):
    """One row; words that are longer go on below, without a time."""

    time: str
    text: str
    wrong: bool
    """It is still so."""
    weighty: bool
    """It had to be read, or refused something."""


def notice_rows(logged: tuple[Logged, ...], columns: int) -> tuple[NoticeRow, ...]:
    """All of them, in the order in which they are given."""
    return tuple(row for one in logged for row in _rows(one, columns))


def _rows(one: Logged, columns: int) -> Iterator[NoticeRow]:
    notice, time = one.notice, f"{one.at:%H:%M:%S}"
    words = notice.text if one.until is None else f"{notice.text} (until {one.until:%H:%M})"
    for part in row_parts((words,), max(10, columns - TIME)):
        yield NoticeRow(time, part, one.wrong, notice.weight in ("must", "refusal"))
        time = ""
