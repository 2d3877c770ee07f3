import itertools
import random
from collections import Counter
from collections.abc import Callable, Sequence
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from classclock.strength.bar_loading import Loading
from classclock.strength.together import Together, load_together
from classclock.units.bars_and_plates import Bar, Equipment
from classclock.units.loads import Load

AsLoad = Callable[[str], Load]
Club = Callable[..., Equipment]


def lifting(equipment: Equipment, *targets: Load) -> Together:
    return load_together([(equipment.bars[0], target) for target in targets], equipment)


def sides(together: Together) -> list[list[str] | None]:
    return [
        [str(plate.amount) for plate in loading.plates] if loading is not None else None
        for loading in together.loadings
    ]


def test_everybody_loads_as_they_would_alone_where_plates_suffice(club: Club, kg: AsLoad) -> None:
    together = lifting(club({"20": 2, "10": 2}), kg("60"), kg("80"))
    assert together.enough
    assert sides(together) == [["20"], ["20", "10"]]


def test_one_makes_do_with_smaller_plates_so_that_both_can_lift(club: Club, kg: AsLoad) -> None:
    # There is one pair of 20, and alone each would take it.
    together = lifting(club({"20": 1, "10": 2, "5": 1}), kg("60"), kg("70"))
    assert together.enough
    assert sides(together) == [["20"], ["10", "10", "5"]]


def test_sharing_out_still_takes_few_plates(club: Club, kg: AsLoad) -> None:
    rack = club({"25": 1, "20": 1, "15": 2, "10": 2, "2.5": 2})
    together = lifting(rack, kg("80"), kg("60"), kg("60"))
    assert sides(together) == [["15", "15"], ["20"], ["10", "10"]]


def test_what_is_short_is_said_and_the_last_one_waits(club: Club, kg: AsLoad) -> None:
    together = lifting(club({"20": 2}), kg("60"), kg("60"), kg("60"))
    assert not together.enough
    assert sides(together) == [["20"], ["20"], None]
    assert together.short_pairs == ((kg("20"), 1),)
    assert together.short_bars == ()


def test_whoever_still_fits_need_not_wait_for_one_who_does_not(club: Club, kg: AsLoad) -> None:
    together = lifting(club({"20": 1, "10": 1}), kg("60"), kg("60"), kg("40"))
    assert sides(together) == [["20"], None, ["10"]]


def test_bars_can_be_short_too(club: Club, kg: AsLoad) -> None:
    rack = club({"20": 5}, count=1)
    together = lifting(rack, kg("60"), kg("60"))
    assert sides(together) == [["20"], None]
    assert together.short_bars == ((rack.bars[0], 1),)
    assert together.short_pairs == ()


def test_a_load_that_no_plates_make_is_refused(club: Club, kg: AsLoad) -> None:
    with pytest.raises(ValueError, match="61 kg can't be made"):
        lifting(club({"20": 1}), kg("61"))


def test_nobody_needs_nothing(club: Club) -> None:
    assert load_together([], club({"20": 1})).enough


def test_a_full_class_is_answered_though_small_plates_are_scarce(club: Club, kg: AsLoad) -> None:
    rack = club({"25": 3, "20": 5, "15": 5, "10": 5, "5": 5, "2.5": 4, "1.25": 3})
    together = lifting(rack, *(kg(f"{42.5 + 5 * n}") for n in range(12)))
    loaded = [one for one in together.loadings if one is not None]
    assert 0 < len(loaded) < 12
    assert within(loaded, rack)


def within(loadings: Sequence[Loading], equipment: Equipment) -> bool:
    used = Counter(plate for loading in loadings for plate in loading.plates)
    return all(used[plate] <= owned for plate, owned in equipment.pairs)


def possible(targets: Sequence[int], stock: dict[int, int]) -> bool:
    """Whether the stock makes all these sides at once: every way to share it out, tried."""
    if not targets:
        return True
    ways = itertools.product(*(range(count + 1) for count in stock.values()))
    for way in ways:
        if sum(plate * n for plate, n in zip(stock, way, strict=True)) == targets[0]:
            left = {plate: stock[plate] - n for plate, n in zip(stock, way, strict=True)}
            if possible(targets[1:], left):
                return True
    return False


@given(st.data())
def test_all_lift_at_once_exactly_where_any_sharing_out_allows_it(data: st.DataObject) -> None:
    plates = st.sampled_from([1, 2, 3, 5, 10, 15])
    stock = data.draw(st.dictionaries(plates, st.integers(1, 3), min_size=1, max_size=4))
    reachable = sorted(
        {
            sum(plate * n for plate, n in zip(stock, way, strict=True))
            for way in itertools.product(*(range(count + 1) for count in stock.values()))
        }
    )
    targets = data.draw(st.lists(st.sampled_from(reachable), min_size=1, max_size=3))
    bar = Bar("bar", Load(Decimal(20), "kg"), count=3)
    pairs = tuple((Load(Decimal(plate), "kg"), n) for plate, n in stock.items())
    equipment = Equipment((bar,), pairs)
    wanted = [Load(Decimal(20 + 2 * target), "kg") for target in targets]
    together = load_together([(bar, target) for target in wanted], equipment)
    assert together.enough == possible(targets, stock)
    loaded = [one for one in together.loadings if one is not None]
    assert within(loaded, equipment)
    for target, loading in zip(wanted, together.loadings, strict=True):
        assert loading is None or loading.total == target
    # With what is said to be short, all of them can.
    more = Counter(dict(pairs)) + Counter(dict(together.short_pairs))
    assert lifting(Equipment((bar,), tuple(more.items())), *wanted).enough


@given(st.randoms(use_true_random=False))
@settings(max_examples=5, deadline=None)
def test_a_full_class_on_few_plates_is_answered_at_once(
    club: Club, within_reach: random.Random
) -> None:
    # Searched to the end this takes minutes: the board would stand still.
    pairs = {"20": 8, "15": 4, "10": 12, "5": 12, "2.5": 8, "1.25": 8}
    equipment = club(pairs, count=26)
    wanted = [Load(within_reach.randrange(8, 60) * Decimal("2.5"), "kg") for _ in range(26)]
    together = lifting(equipment, *wanted)
    loaded = [one for one in together.loadings if one is not None]
    assert loaded
    assert within(loaded, equipment)
    for target, loading in zip(wanted, together.loadings, strict=True):
        assert loading is None or loading.total == target
