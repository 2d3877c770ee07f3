"""The chart on the screen."""

from pathlib import Path
from typing import Any

import pytest

from classclock.plan.settings.club import Club
from classclock.screens.canvas.look import Look
from classclock.screens.ways import Ways


async def test_a_book_that_can_t_be_reached_is_said_in_words(
    open_page: Any, two_classes: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("CLASSCLOCK_BOOK", "postgresql+psycopg://coach@127.0.0.1:1/depot")
    async with open_page(Ways(Look(), two_classes).chart(Club())) as coach:
        assert "can't be reached" in coach.page.desk.notice  # which may stand in large letters


async def test_until_the_book_is_read_the_chart_says_so(two_classes: Path) -> None:
    chart = Ways(Look(), two_classes).chart(Club())
    assert chart.desk.notice == "the book is being read"
    chart.know(chart.ask())
    assert chart.desk.notice == ""
    assert [row.name for row in chart.desk.rows] == ["Bram", "Ilse"]


async def test_enter_opens_nobody_s_page_where_nobody_is_shown(
    open_page: Any, tmp_path: Path
) -> None:
    async with open_page(Ways(Look(), tmp_path).chart(Club())) as coach:
        await coach.press("enter", "tab", "f6")
        assert coach.top is coach.page
