"""The list of all notices of a class."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.screens.canvas.cells import Drawing, plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.live.overlays.notices_layout import NoticeRow, notice_rows
from classclock.screens.live.overlays.notices_overlay import draw_notices, page_count
from classclock.wall.notices.notice import Notice
from classclock.wall.notices.notice_log import Logged

SEVEN = datetime(2026, 3, 3, 19, tzinfo=UTC)


def logged(text: str, minute: int = 0, *, until: int | None = None, key: str = "") -> Logged:
    ended = None if until is None else SEVEN + timedelta(minutes=until)
    return Logged(Notice(text, "must", key=key), SEVEN + timedelta(minutes=minute), ended)


def test_a_trouble_that_was_put_right_says_until_when_and_one_that_stands_stands_out() -> None:
    rows = notice_rows(
        (logged("the sound is gone", 3, key="sound"), logged("disk full", until=2, key="disk")), 60
    )
    assert rows == (
        NoticeRow("19:03:00", "the sound is gone", wrong=True, weighty=True),
        NoticeRow("19:00:00", "disk full (until 19:02)", wrong=False, weighty=True),
    )


def test_long_words_go_on_below_without_a_time() -> None:
    first, second = notice_rows((logged("held: space resumes, enter ends the segment here"),), 41)
    assert (first.time, second.time) == ("19:00:00", "")
    assert f"{first.text} {second.text}" == "held: space resumes, enter ends the segment here"


@given(st.integers(1, 120), st.sampled_from([(60, 12), (120, 25), (213, 43)]))
def test_every_notice_stands_on_one_of_the_pages(
    check_filled: Callable[[Drawing, int, int], None], count: int, size: tuple[int, int]
) -> None:
    rows = notice_rows(tuple(logged(f"notice {n};", n) for n in range(count)), size[0] - 4)
    seen = ""
    for page in range(page_count(rows, size[1])):
        drawn = draw_notices(rows, page, *size, Look())
        check_filled(drawn, *size)
        seen += plain_text(drawn)
    assert all(f"notice {number};" in seen for number in range(count))


@pytest.mark.parametrize("page", [0, 7])
def test_a_list_without_a_notice_is_an_empty_page(
    check_filled: Callable[[Drawing, int, int], None], page: int
) -> None:
    check_filled(draw_notices((), page, 60, 4, Look()), 60, 4)
