"""Letters that are held back for one trial stand as if each text had been written so."""

from random import Random

from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from classclock.screens.canvas.layout.arrange import Trials, arrange
from classclock.screens.canvas.layout.parts import Area, Arrangement, Drawn, Grid, Written
from tests.screens.canvas.layout.random_screens import RandomScreen
from tests.screens.canvas.layout.toy_measure import ToyMeasure

MEASURE = ToyMeasure()


def held_back(part: Arrangement, most: dict[str, int]) -> Arrangement:
    match part:
        case Written():
            return replace(part, most=min(part.most, most.get(part.group, part.most)))
        case Drawn():
            return part
        case Area():
            return replace(part, part=held_back(part.part, most))
        case Grid():
            rows = tuple(tuple(held_back(cell, most) for cell in row) for row in part.rows)
            return replace(part, rows=rows, under=tuple(held_back(one, most) for one in part.under))
        case _:
            return replace(part, parts=tuple(held_back(one, most) for one in part.parts))


@given(st.integers(0, 1_000_000))
def test_a_limit_is_as_if_it_stood_in_the_texts_themselves(seed: int) -> None:
    screen, chance = RandomScreen(seed), Random(seed)  # noqa: S311  no secret
    columns, rows, lead = screen.columns, screen.rows, screen.lead
    trials = Trials((screen.part,), columns, rows, MEASURE, lead=lead)
    groups = [one for one in trials.groups if lead is None or one != lead.group]
    limits = tuple((one, chance.randint(1, 3)) for one in groups if chance.random() < 0.7)
    wanted = arrange(held_back(screen.part, dict(limits)), columns, rows, MEASURE, lead=lead)
    free = trials.arranged(screen.part).sizes
    found = trials.arranged(screen.part, limits)  # after what was tried without them
    assert (found.sizes, found.whole) == (wanted.sizes, wanted.whole)
    assert [dict(page) for page in found.pages] == [dict(page) for page in wanted.pages]
    assert trials.arranged(screen.part).sizes == free
