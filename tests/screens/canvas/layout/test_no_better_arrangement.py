"""No arrangement of 2,000 random screens is better than the one that is found."""

import pytest

from classclock.screens.canvas.layout.arrange import arrange
from tests.screens.canvas.layout.brute_force import Tried
from tests.screens.canvas.layout.random_screens import RandomScreen
from tests.screens.canvas.layout.toy_measure import ToyMeasure

EACH = 100


@pytest.mark.parametrize("first", range(0, 2000, EACH))
def test_nothing_better_is_found_by_trying_everything(first: int) -> None:
    for seed in range(first, first + EACH):
        screen = RandomScreen(seed)
        found = arrange(screen.part, screen.columns, screen.rows, ToyMeasure(), lead=screen.lead)
        best = Tried(screen.part, screen.columns, screen.rows, screen.lead).best()
        if best is None:
            assert not found.whole, seed
        else:
            assert (found.sizes, len(found.pages), found.whole) == (*best, True), seed
