"""The last weeks on the screen."""

from pathlib import Path
from typing import Any

import pytest

from classclock.plan.settings.club import Club
from classclock.screens.canvas.look import Look
from classclock.screens.pages.weeks.weeks_screen import WeeksScreen


@pytest.mark.parametrize("key", ["escape", "f7", "ctrl+q"])
async def test_the_key_that_opened_it_and_escape_go_back(
    key: str, open_page: Any, tmp_path: Path
) -> None:
    async with open_page(WeeksScreen(Look(), folder=tmp_path, club=Club())) as coach:
        assert "The last weeks" in coach.seen or "week of" in coach.seen
        await coach.press("down", "up", key)
        assert coach.pilot.app.return_value == "done"


async def test_a_faulty_movements_file_is_said_in_words(open_page: Any, tmp_path: Path) -> None:
    (tmp_path / "movements.toml").write_text("[[movement]]\nnam = 1\n")
    async with open_page(WeeksScreen(Look(), folder=tmp_path, club=Club())) as coach:
        assert "movements.toml" in coach.seen
        await coach.press("down", "escape")
        assert coach.pilot.app.return_value == "done"
