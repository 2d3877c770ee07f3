"""A ground in one piece looks as it does when Textual renders it row by row."""

from typing import Any

import pytest
from textual.geometry import Region
from textual.widget import Widget

from classclock.screens.canvas.ground import Ground
from classclock.screens.live.class_views import ClassViews
from classclock.screens.live.wall.wall_view import WallView


def cells(rows: list[Any]) -> list[list[tuple[str, object]]]:
    """The sign and the colour behind it, cell by cell."""
    return [
        [(sign, part.style.bgcolor.triplet) for part in row for sign in part.text] for row in rows
    ]


@pytest.mark.parametrize("which", [ClassViews, WallView, None])
async def test_it_looks_as_textual_renders_it(open_class: Any, which: type[Ground] | None) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        ground = coach.screen if which is None else coach.screen.query_one(which)
        assert isinstance(ground, Ground)
        crop = Region(3, 2, 20, 4)
        ours, theirs = ground.render_lines(crop), Widget.render_lines(ground, crop)
        assert cells(ours) == cells(theirs)
        assert [row.cell_length for row in ours] == [20] * 4
