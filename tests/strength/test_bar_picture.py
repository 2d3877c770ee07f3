import itertools
from collections.abc import Callable

import pytest

from classclock.strength.bar_loading import Lighter, Loading
from classclock.strength.bar_picture import lighter_words, side_picture, side_shapes, side_words
from classclock.units.bars_and_plates import Bar
from classclock.units.loads import Load

AsLoad = Callable[[str], Load]
OnBar = Callable[..., Loading]


@pytest.fixture
def on_bar(kg: AsLoad) -> OnBar:
    def make(*plates: str, bar: str = "20 kg", collar: str | None = None) -> Loading:
        worn = kg(collar) if collar else None
        return Loading(Bar(bar, kg(bar)), tuple(kg(plate) for plate in plates), worn)

    return make


def test_one_side_is_said_from_the_middle_outwards(on_bar: OnBar) -> None:
    assert side_words(on_bar("20", "10", "1.25")) == "20 + 10 + 1.25 a side"
    assert side_words(on_bar("20", collar="2.5")) == "20 a side, then the collar"
    assert side_words(on_bar()) == "the empty bar"
    assert side_words(on_bar(collar="2.5")) == "collars, no plates"


def test_a_plate_says_its_unit_where_it_is_not_the_bars(on_bar: OnBar) -> None:
    assert side_words(on_bar("45 lb", "10")) == "45 lb + 10 a side"
    assert side_words(on_bar("45 lb", "10", bar="45 lb")) == "45 + 10 kg a side"


def test_a_heavier_plate_is_drawn_no_smaller(on_bar: OnBar) -> None:
    shapes = side_shapes(on_bar("25", "20", "10", "5", "2.5", "1.25", "0.5"))
    for heavier, lighter in itertools.pairwise(shapes):
        assert heavier.height >= lighter.height
        assert heavier.thickness >= lighter.thickness
    assert shapes[0].height == 1
    assert all(shape.height > 0 for shape in shapes)


def test_the_picture_names_every_plate_on_the_bars_line(on_bar: OnBar) -> None:
    lines = side_picture(on_bar("20", "10", "1.25"))
    assert len(lines) == 7
    middle = next(line for line in lines if "━" in line)
    positions = [middle.index(label) for label in ("20", "10", "1.25")]
    assert positions == sorted(positions)


def test_two_plates_of_a_size_are_seen_as_two(on_bar: OnBar) -> None:
    for line in side_picture(on_bar("20", "20")):
        assert len(line.replace("━", " ").split()) == 2


def test_each_number_stands_within_its_plate(on_bar: OnBar) -> None:
    plates = side_picture(on_bar("25", "10", "1.25"))[3].replace("━", " ").split()
    assert [plate.strip("█") for plate in plates] == ["25", "10", "1.25"]
    assert all(plate.startswith("█") and plate.endswith("█") for plate in plates)
    assert len(plates[0]) > len(plates[1]), "the heavier one is thicker"


def test_an_empty_bar_is_only_a_line(on_bar: OnBar) -> None:
    assert side_picture(on_bar()) == ("━" * 9,)


def test_something_lighter_is_offered_in_words(kg: AsLoad) -> None:
    all_of_it = Lighter(None, kg("12"), kg("10"), kg("5"))
    assert lighter_words(kg("12.5"), all_of_it) == (
        "12.5 kg is below every bar of the club. "
        "Take a kettlebell of 12 kg, or a dumbbell of 10 kg, or two dumbbells of 5 kg."
    )
    bar = Lighter(Bar("15 kg bar", kg("15")), None, None, None)
    assert lighter_words(kg("17"), bar) == "17 kg is below the bar. Take the 15 kg bar."
    nothing = lighter_words(kg("3"), Lighter(None, None, None, None))
    assert "Take something lighter; the club's list has nothing." in nothing
