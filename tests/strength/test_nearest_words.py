"""What is said of a load that no bar makes, from the worked examples' set of plates."""

from collections.abc import Callable

from classclock.strength.nearest_words import nearest_words
from classclock.units.bars_and_plates import Equipment
from classclock.units.loads import Load

AsLoad = Callable[[str], Load]
Club = Callable[..., Equipment]


def test_a_load_that_can_be_made_needs_no_words(depot: Equipment, kg: AsLoad) -> None:
    assert nearest_words(kg("82.5"), depot) == ""
    assert nearest_words(kg("20"), depot) == ""


def test_what_comes_nearest_is_named_with_both_neighbours(depot: Equipment, kg: AsLoad) -> None:
    assert nearest_words(kg("61"), depot) == (
        "61 kg can't be made with the club's plates: 60 kg or 62.5 kg can"
    )


def test_beyond_the_last_plate_there_is_one_neighbour(depot: Equipment, kg: AsLoad) -> None:
    # Worked: with all its plates the 20 kg bar weighs 160 kg.
    assert nearest_words(kg("200"), depot) == (
        "200 kg can't be made with the club's plates: 160 kg can"
    )


def test_below_every_bar_something_lighter_is_named(depot: Equipment, kg: AsLoad) -> None:
    assert nearest_words(kg("12.5"), depot) == (
        "12.5 kg is below every bar of the club. "
        "Take a kettlebell of 12 kg, or a dumbbell of 12 kg, or two dumbbells of 5 kg."
    )


def test_of_a_club_without_bars_nothing_is_said(club: Club, kg: AsLoad) -> None:
    assert nearest_words(kg("60"), club({}, bars=())) == ""
