"""While it counts in, a scheme's numbers stand large beside the clock."""

from typing import Any

import pytest

from classclock.machine.bundled import bundled
from classclock.machine.terminal import Terminal
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.layout.arrange import arrange
from classclock.screens.live.wall.heading import heading
from classclock.screens.live.wall.wall_view import WallView

PLAN = (bundled("plans") / "third-rail.toml").read_text("utf-8")


@pytest.mark.parametrize("size", [(120, 36), (213, 60)])
async def test_the_numbers_are_large_until_the_work_begins(
    open_class: Any, size: tuple[int, int]
) -> None:
    async with open_class(PLAN, segment=3, size=size) as coach:
        await coach.press("enter")
        content = coach.screen.query_one(WallView).content
        assert content.clock.isdigit()
        assert content.head == "4-8-12-8-4"
        columns, rows = size[0] * 2 // 3, size[1] - 2
        part = heading(content, alone=True)
        sizes = arrange(part, columns, rows, CellMeasure(Terminal())).sizes
        assert min(sizes["head"], sizes["move"]) >= 3
        await coach.wind(11)
        assert coach.live.phase == "running"
        assert coach.screen.query_one(WallView).content.head == ""


async def test_what_has_no_scheme_has_no_numbers_there(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.press("enter")
        assert coach.screen.query_one(WallView).content.head == ""
