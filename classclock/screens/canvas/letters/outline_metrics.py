"""What ASCII measures in outline type: the font's own numbers, so that a layout loads no font.

`python -m tests.screens.canvas.measure_font` takes them from the font, and a test holds them to it.
"""

from collections.abc import Mapping
from functools import cache
from itertools import pairwise
from pathlib import Path

from msgspec import Struct
from msgspec.json import decode

SIZE = 400
"""The font's em in pixels, before scaling down; large enough for any wall."""
FILE = Path(__file__).with_suffix(".json")


class OutlineMetrics(Struct, frozen=True):
    """In pixels, where the font's em has `SIZE`."""

    advances: Mapping[str, float]
    """How far on from each character the next one stands."""
    kerning: Mapping[str, float]
    """How much further, of two that stand closer or wider than others; mostly negative."""
    tops: Mapping[str, int]
    """Where each one's ink begins, from the baseline down: negative."""
    bottoms: Mapping[str, int]

    def length(self, word: str) -> float:
        kerned = self.kerning.get
        between = sum(kerned(one + other, 0.0) for one, other in pairwise(word))
        return sum(map(self.advances.__getitem__, word)) + between


@cache
def outline_metrics() -> OutlineMetrics:
    return decode(FILE.read_bytes(), type=OutlineMetrics)
