"""What a club has to lift, asked for by name."""

from collections.abc import Callable

import pytest

from classclock.units.bars_and_plates import Bar, Equipment
from classclock.units.loads import Load

AsLoad = Callable[[str], Load]


@pytest.fixture
def equipment(kg: AsLoad) -> Equipment:
    return Equipment((Bar("20 kg bar", kg("20")), Bar("Short bar", kg("25 lb"))), ())


@pytest.mark.parametrize("name", ["Short bar", "short bar", "  SHORT BAR "])
def test_a_bar_is_known_by_its_name_whatever_its_case(equipment: Equipment, name: str) -> None:
    assert equipment.bar_named(name) == equipment.bars[1]


def test_a_bar_that_the_club_lacks_is_answered_with_those_it_has(equipment: Equipment) -> None:
    with pytest.raises(LookupError, match=r'no bar is called "axle".*20 kg bar, Short bar'):
        equipment.bar_named("axle")


def test_the_lightest_bar_is_the_lightest_in_kilograms(equipment: Equipment, kg: AsLoad) -> None:
    # 25 lb are 11.34 kg (NIST SP 811): fewer than 20, though the number is larger.
    assert equipment.lightest_bar.weight == kg("25 lb")
