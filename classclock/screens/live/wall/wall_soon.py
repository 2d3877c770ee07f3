"""What a wall is about to show, drawn while nobody waits: a key or a tick finds it drawn."""

import re
from collections.abc import Callable, Iterator
from functools import partial

from msgspec.structs import replace

from classclock.screens.canvas.look import Look
from classclock.screens.canvas.stack import stack
from classclock.screens.live.wall.big_clock import ClockFace, draw_clock
from classclock.screens.live.wall.heading import beside_lines
from classclock.screens.live.wall.layout import WallLayout
from classclock.wall.wall_content import WallContent

_DIGIT = re.compile(r"\d")


def soon_shown(
    content: WallContent, wall: WallLayout, look: Look
) -> Iterator[Callable[[], object]]:
    """Drawings of some milliseconds each. What they give is kept where letters and lines are."""
    box, lane = wall.heading, wall.lane
    unshouted = replace(content, emphasis="", hint="")
    yield partial(stack, beside_lines(unshouted, look), box.width, box.height, look)
    for digit in "0123456789":
        face = ClockFace(_DIGIT.sub(digit, content.clock))
        yield partial(draw_clock, face, wall.clock.width, wall.clock.height, look)
        yield partial(look.letters, digit, lane.tally.width, lane.type_rows, air=lane.air)
