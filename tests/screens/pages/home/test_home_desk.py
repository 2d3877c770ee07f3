"""Home without a screen: what there is to open, found by typing, and how it is drawn."""

from collections.abc import Callable
from pathlib import Path

import pytest

from classclock.plan.settings.club import Emergency
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.pages.home.home_desk import HomeDesk
from classclock.screens.pages.home.home_drawing import draw_home
from classclock.screens.pages.home.home_list import HomeEntry, plan_entry
from classclock.units.printable import printable
from classclock.wall.emergency_words import lacks


def test_each_plan_says_how_long_it_lasts_and_what_is_scored(plans: Path) -> None:
    entry = plan_entry(plans / "a-sandbox.toml", "kg")
    assert (entry.title, entry.words, entry.length) == ("Sandbox for all", "Sandbox", "8:10")


def test_escape_drops_what_is_typed_and_then_leaves() -> None:
    desk = HomeDesk([HomeEntry("Headway", ""), HomeEntry("Sandbox", "")])
    for sign in ("<down>", "s", "<space>"):
        assert not desk.sign(sign)
    assert desk.highlighted == HomeEntry("Sandbox", "")
    assert not desk.sign("<escape>")
    assert desk.highlighted == HomeEntry("Headway", "")
    assert desk.sign("<escape>")


@pytest.mark.parametrize("size", [(60, 18), (120, 36), (240, 70)])
@pytest.mark.parametrize("count", [0, 1, 200])
def test_home_fills_every_size_and_keeps_what_is_highlighted_in_view(
    size: tuple[int, int], count: int, check_filled: Callable[..., None]
) -> None:
    plans = [
        HomeEntry(printable(f"[b]Line {n} 🚋\u202e"), "x" * 300, "1:00:00") for n in range(count)
    ]
    lacking = lacks(Emergency(call="112"))
    desk = HomeDesk(plans, club="\x1b[31mLine 0 Depot", no_card=lacking)
    for _ in range(count * 2 // 3):
        desk.sign("<down>")
    drawn = draw_home(desk, *size, Look())
    check_filled(drawn, *size)
    assert count == 0 or f"Line {count * 2 // 3} " in plain_text(drawn)


def test_a_wide_name_that_is_typed_stands_there_whole() -> None:
    desk = HomeDesk([])
    for sign in "電車庫":
        desk.sign(sign)
    assert "find: 電車庫" in plain_text(draw_home(desk, 60, 18, Look()))
