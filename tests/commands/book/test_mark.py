"""`book mark`, as it is typed."""

from pathlib import Path
from typing import get_args

import pytest

from classclock.commands.book.mark import MARKS
from classclock.tally.lanes import Mark
from tests.commands.typed import CommandSays

pytestmark = pytest.mark.usefixtures("club_with_classes")


def test_marks_are_on_the_athletes_page_for_the_coach_and_in_no_chart(
    command_says: CommandSays, tmp_path: Path
) -> None:
    command_says("book", "mark", "Ilse", "under-18")
    assert "marked: under 18" in command_says("athlete", "Ilse")
    command_says("chart", "--html", str(tmp_path / "c.html"), "--csv", str(tmp_path / "c.csv"))
    for name in ("c.html", "c.csv"):
        assert "under 18" not in (tmp_path / name).read_text("utf-8")
    command_says("book", "mark", "Ilse", "under-18", "--off")
    assert "marked" not in command_says("athlete", "Ilse")


def test_every_mark_can_be_typed() -> None:
    assert set(MARKS.values()) == set(get_args(Mark))
