"""What holds of every screen that is laid out, whatever it shows."""

from collections.abc import Iterator
from itertools import combinations, pairwise

from hypothesis import example, given
from hypothesis import strategies as st

from classclock.screens.canvas.layout.arrange import Arranged, Trials, arrange
from classclock.screens.canvas.layout.compiling import leaves
from classclock.screens.canvas.layout.nodes import Box, Spots
from classclock.screens.canvas.layout.parts import Arrangement, Beside, Grid, Stack, Written
from tests.screens.canvas.layout.random_screens import RandomScreen
from tests.screens.canvas.layout.toy_measure import ToyMeasure

MEASURE = ToyMeasure()
screens = st.integers(0, 1_000_000).map(RandomScreen)


def laid(screen: RandomScreen, wider: int = 0, higher: int = 0) -> Arranged:
    columns, rows = screen.columns + wider, screen.rows + higher
    return arrange(screen.part, columns, rows, MEASURE, lead=screen.lead)


def apart(one: Box, other: Box) -> bool:
    return (
        one.x + one.width <= other.x
        or other.x + other.width <= one.x
        or one.y + one.height <= other.y
        or other.y + other.height <= one.y
    )


@given(screens)
def test_nothing_overlaps_and_all_is_in_the_box(screen: RandomScreen) -> None:
    for spots in laid(screen).pages:
        boxes = [spot.box for name, spot in spots.items() if name[0] != "area"]
        for box in boxes:
            assert box.x >= 0
            assert box.y >= 0
            assert box.x + box.width <= screen.columns
            assert box.y + box.height <= screen.rows
        if laid(screen).whole:
            assert all(apart(one, other) for one, other in combinations(boxes, 2))


@given(screens)
def test_every_text_stands_whole_in_its_size(screen: RandomScreen) -> None:
    found = laid(screen)
    if not found.whole:
        return
    shown: Spots = {}
    for spots in found.pages:
        shown |= spots
    for leaf in leaves(screen.part):
        if isinstance(leaf, Written) and leaf.name in shown:
            spot = shown[leaf.name]
            assert spot.size == found.sizes[leaf.group]
            assert " ".join(spot.lines) == leaf.words
            assert all(MEASURE.columns(line, spot.size) <= spot.box.width for line in spot.lines)
            assert len(spot.lines) * spot.size <= spot.box.height


@given(screens)
def test_cautions_are_never_left_out(screen: RandomScreen) -> None:
    found = laid(screen)
    roles = {leaf.group: leaf.role for leaf in leaves(screen.part)}
    assert all(roles[group] != "caution" for group in found.left_out)


@given(screens)
def test_the_order_is_kept(screen: RandomScreen) -> None:
    for spots in laid(screen).pages:
        if laid(screen).whole:
            assert_in_order(screen.part, spots)


def assert_in_order(part: Arrangement, spots: Spots) -> None:
    match part:
        case Stack(parts=parts):
            boxes = [within for one in parts if (within := list(boxes_of(one, spots)))]
            for over, under in pairwise(boxes):
                assert max(b.y + b.height for b in over) <= min(b.y for b in under)
        case Beside(parts=parts):
            boxes = [within for one in parts if (within := list(boxes_of(one, spots)))]
            for left, right in pairwise(boxes):
                assert max(b.x + b.width for b in left) <= min(b.x for b in right)
        case Grid(rows=rows):
            corners = [(b.x, b.y) for row in rows for b in list(boxes_of(row[0], spots))[:1]]
            assert corners == sorted(corners)
            parts = ()
        case _:
            parts = ()
    for one in parts:
        assert_in_order(one, spots)


def boxes_of(part: Arrangement, spots: Spots) -> Iterator[Box]:
    return (spots[leaf.name].box for leaf in leaves(part) if leaf.name in spots)


@given(screens)
def test_the_same_comes_out_again(screen: RandomScreen) -> None:
    first = laid(screen)
    arrange.cache_clear()
    assert laid(screen) == first


@given(screens, st.integers(0, 8), st.integers(0, 8))
@example(RandomScreen(70), 4, 0)
def test_in_a_larger_box_no_text_is_smaller(screen: RandomScreen, wider: int, higher: int) -> None:
    small, large = laid(screen), laid(screen, wider, higher)
    shown = [leaf for leaf in leaves(screen.part) if leaf.group in small.sizes]
    musts = [leaf for leaf in shown if leaf.role != "detail"]
    if len(small.pages) > 1 or any(not small.sizes[leaf.group] for leaf in musts):
        return  # fewer pages, or more on them
    leads = screen.lead.group if screen.lead else None  # it gives way to details that come back
    texts = [one for one in musts if isinstance(one, Written) and one.role != "coach"]
    room = {one.group for one in texts if one.group != leads}
    before, after = (sorted(found.sizes[group] for group in room) for found in (small, large))
    assert after >= before


@given(screens)
def test_no_group_is_larger_than_it_could_be_alone(screen: RandomScreen) -> None:
    found = laid(screen)
    if len(found.pages) > 1 or not found.whole or found.left_out:
        return
    box = screen.columns, screen.rows
    trials = Trials((screen.part,), *box, MEASURE, lead=screen.lead)
    for leaf in leaves(screen.part):
        if leaf.group in found.sizes and leaf.role in ("room", "caution"):
            assert found.sizes[leaf.group] <= trials.alone(screen.part, leaf.group)
