import itertools
import timeit
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.strength.bar_loading import BarAnswer, load_any_bar, load_bar
from classclock.strength.plates import PARTS_PER_KG, parts_above, parts_below, plate_sums
from classclock.units.bars_and_plates import Bar, Equipment
from classclock.units.loads import Load, Unit

AsLoad = Callable[[str], Load]
Club = Callable[..., Equipment]

# Discs: IWF Technical and Competition Rules; IPF technical rules (the second from a weak copy).
IWF = ("25", "20", "15", "10", "5", "2.5", "2", "1.5", "1", "0.5")
IPF = ("50", "25", "20", "15", "10", "5", "2.5", "1.25")
# Common practice, no source.
POUNDS = ("45 lb", "35 lb", "25 lb", "10 lb", "5 lb", "2.5 lb")


def first_bar(target: Load, equipment: Equipment) -> BarAnswer:
    return load_bar(target, equipment.bars[0], equipment)


def side(answer: BarAnswer) -> list[str]:
    assert answer.exact is not None
    return [str(plate).removesuffix(" kg") for plate in answer.exact.plates]


def total(loading: object) -> str:
    return str(getattr(loading, "total", None))


def test_one_pair_of_each_disc_makes_every_whole_kilogram(club: Club, kg: AsLoad) -> None:
    # Worked from the discs of the IWF rules: 21 to 185 kg on the 20 kg bar, without collars.
    rack = club(dict.fromkeys(IWF, 1))
    for whole in range(21, 186):
        exact = first_bar(kg(str(whole)), rack).exact
        assert exact is not None, whole
        assert exact.total == kg(str(whole))
    assert first_bar(kg("186"), rack).above is None


def test_bar_and_collars_of_the_power_lifting_rules_weigh_25(club: Club, kg: AsLoad) -> None:
    # IPF technical rules: bar with collars 25 kg.
    rack = club(dict.fromkeys(IPF, 1), collar="2.5")
    answer = first_bar(kg("25"), rack)
    assert answer.exact is not None
    assert answer.exact.total == kg("25")
    assert side(first_bar(kg("75"), rack)) == ["25"]
    assert side(first_bar(kg("127.5"), rack)) == ["50", "1.25"]


def test_an_empty_bar_wears_no_collars(club: Club, kg: AsLoad) -> None:
    rack = club({"10": 1}, collar="2.5")
    empty = first_bar(kg("20"), rack).exact
    assert empty is not None
    assert empty.plates == ()
    assert empty.collar is None


def test_a_25_lb_bar_with_75_lb_of_plates_reads_100_lb(club: Club, kg: AsLoad) -> None:
    rack = club(dict.fromkeys(POUNDS, 2), bars=("25 lb",))
    exact = first_bar(kg("100 lb"), rack).exact
    assert exact is not None
    assert str(exact.total) == "100 lb"
    # Worked: 37.5 a side is 35 + 2.5; 25 + 10 + 2.5 would be a plate more.
    assert [str(plate) for plate in exact.plates] == ["35 lb", "2.5 lb"]


def test_the_largest_plate_first_would_miss_what_two_smaller_ones_make(
    club: Club, kg: AsLoad
) -> None:
    # Worked: with 25 on, no 5 is left to make 80.
    assert side(first_bar(kg("80"), club({"25": 1, "15": 2}))) == ["15", "15"]


def test_among_equally_few_plates_the_larger_come_first(depot: Equipment, kg: AsLoad) -> None:
    # Worked: 20 + 10 + 1.25 or 15 + 15 + 1.25.
    assert side(first_bar(kg("82.5"), depot)) == ["20", "10", "1.25"]


@pytest.mark.parametrize(
    ("target", "below", "above"), [("61", "60", "62.5"), ("136", "135", "137.5")]
)
def test_a_load_that_cant_be_made_has_neighbours(
    depot: Equipment, kg: AsLoad, target: str, below: str, above: str
) -> None:
    answer = first_bar(kg(target), depot)
    assert answer.exact is None
    assert total(answer.below) == f"{below} kg"
    assert total(answer.above) == f"{above} kg"


def test_the_worked_set_makes_57_loads_in_all(depot: Equipment, kg: AsLoad) -> None:
    loads, here = [], first_bar(kg("20"), depot).exact
    while here is not None:
        loads.append(here.total)
        here = first_bar(Load(here.total.amount + Decimal("0.001"), "kg"), depot).above
    assert len(loads) == 57
    assert loads[-1] == kg("160")


def test_below_every_bar_there_is_something_lighter_and_never_the_bar(
    depot: Equipment, kg: AsLoad
) -> None:
    answer = load_any_bar(kg("14"), depot)
    assert (answer.exact, answer.below, answer.above) == (None, None, None)
    assert answer.lighter is not None
    assert answer.lighter.bar is None
    assert answer.lighter.kettlebell == kg("12")
    assert answer.lighter.dumbbell == kg("12")
    assert answer.lighter.two_dumbbells == kg("5")


def test_below_the_bar_that_was_named_a_lighter_bar_is_offered(
    depot: Equipment, kg: AsLoad
) -> None:
    answer = first_bar(kg("17.5"), depot)
    assert answer.below is None
    assert answer.lighter is not None
    assert answer.lighter.bar == depot.bars[1]


def test_of_bars_that_both_make_it_the_heavier_is_taken(depot: Equipment, kg: AsLoad) -> None:
    both = load_any_bar(kg("60"), depot).exact
    light = load_any_bar(kg("17.5"), depot).exact
    assert both is not None
    assert light is not None
    assert (both.bar.name, light.bar.name) == ("20 kg", "15 kg")


def test_a_club_without_plates_has_its_bar(club: Club, kg: AsLoad) -> None:
    answer = first_bar(kg("60"), club({}))
    assert total(answer.below) == "20 kg"
    assert answer.above is None


@given(st.integers(1, 9_999_999), st.sampled_from(["kg", "lb"]))
def test_whatever_can_be_written_is_a_whole_number_of_parts(thousandths: int, unit: Unit) -> None:
    load = Load(Decimal(thousandths) / 1000, unit)
    assert Fraction(parts_below(load), PARTS_PER_KG) == Fraction(load.kg)
    assert parts_above(load) == parts_below(load)


@given(st.decimals(0, 500, places=15), st.sampled_from(["kg", "lb"]))
def test_what_no_whole_part_is_lies_between_two(amount: Decimal, unit: Unit) -> None:
    # A percentage of a load in pounds has such decimals; what is made must not be above it.
    load = Load(amount, unit)
    exact = Fraction(load.kg) * PARTS_PER_KG
    assert parts_below(load) <= exact <= parts_above(load)
    assert parts_above(load) - parts_below(load) <= 1


# -- against every subset, in whole grams ------------------------------------------

grams = st.integers(1, 40).map(lambda quarters: quarters * 250) | st.integers(1, 9_999)
plates_owned = st.dictionaries(grams, st.integers(1, 3), max_size=5)
targets = st.integers(0, 120).map(lambda quarters: quarters * 500) | st.integers(0, 60_000)


def every_side(owned: dict[int, int]) -> dict[int, tuple[int, ...]]:
    """For each weight of one side the best plates: fewest, then larger first. Brute force."""
    best: dict[int, tuple[int, ...]] = {}
    ranges = [range(count + 1) for count in owned.values()]
    for counts in itertools.product(*ranges):
        taken = [plate for plate, n in zip(owned, counts, strict=True) for _ in range(n)]
        plates = tuple(sorted(taken, reverse=True))
        weight = sum(plates)
        other = best.get(weight)
        if other is None or (len(plates), [-p for p in plates]) < (len(other), [-p for p in other]):
            best[weight] = plates
    return best


def in_kg(weight: int) -> Load:
    return Load(Decimal(weight) / 1000, "kg")


@given(plates_owned, targets)
def test_no_way_to_load_is_missed_and_none_is_better(owned: dict[int, int], target: int) -> None:
    bar = Bar("bar", in_kg(20_000))
    equipment = Equipment((bar,), tuple((in_kg(plate), n) for plate, n in owned.items()))
    sides = every_side(owned)
    answer = load_bar(in_kg(target), bar, equipment)
    if target < 20_000:
        assert answer.below is None
        return
    assert answer.below is not None
    below = max(weight for weight in sides if 20_000 + 2 * weight <= target)
    assert answer.below.total.kg == in_kg(20_000 + 2 * below).kg
    assert answer.below.plates == tuple(in_kg(plate) for plate in sides[below])
    above = min((weight for weight in sides if 20_000 + 2 * weight >= target), default=None)
    if above is None:
        assert answer.above is None
    else:
        assert answer.above is not None
        assert answer.above.plates == tuple(in_kg(plate) for plate in sides[above])
    assert (answer.exact is not None) == (20_000 + 2 * below == target)


@given(
    st.dictionaries(st.sampled_from([1_250, 2_500, 5_000, 10_000]), st.integers(1, 2)),
    st.dictionaries(st.sampled_from([2_500, 5_000, 10_000, 45_000]), st.integers(1, 2)),
    st.integers(20_000, 120_000),
)
def test_kilogram_and_pound_plates_on_one_bar_are_exact_below_and_above(
    kilograms: dict[int, int], pounds: dict[int, int], target: int
) -> None:
    bar = Bar("bar", in_kg(20_000))
    in_lb = {plate: Load(Decimal(plate) / 1000, "lb") for plate in pounds}
    pairs = [(in_kg(plate), n) for plate, n in kilograms.items()]
    pairs += [(in_lb[plate], n) for plate, n in pounds.items()]
    answer = load_bar(in_kg(target), bar, Equipment((bar,), tuple(pairs)))
    # In millionths of a gram a thousandth of a pound is 453 592.37: with these plates all whole.
    sides = {
        2 * (1_000_000 * kg_side + lb_side * 45_359_237 // 100): (
            *map(in_kg, kg_plates),
            *(in_lb[plate] for plate in lb_plates),
        )
        for kg_side, kg_plates in every_side(kilograms).items()
        for lb_side, lb_plates in every_side(pounds).items()
    }
    room = (target - 20_000) * 1_000_000
    assert answer.below is not None
    best = max(weight for weight in sides if weight <= room)
    assert answer.below.total.kg * 10**9 == 20_000 * 1_000_000 + best
    assert answer.below.plates == tuple(sorted(sides[best], key=lambda plate: -plate.kg))
    next_up = min((weight for weight in sides if weight >= room), default=None)
    if next_up is None:
        assert answer.above is None
    else:
        assert answer.above is not None
        assert answer.above.plates == tuple(sorted(sides[next_up], key=lambda plate: -plate.kg))


# -- how long it takes -----------------------------------------------------------------

SIXTY_PLATES = {"25": 3, "20": 5, "15": 5, "10": 5, "5": 5, "2.5": 4, "1.25": 3}
OF_BOTH_UNITS = {
    **dict.fromkeys(("25", "20", "15", "10", "5", "2.5"), 2),
    **dict.fromkeys(POUNDS, 3),
}


@pytest.mark.parametrize("pairs", [SIXTY_PLATES, OF_BOTH_UNITS], ids=["kilograms", "both units"])
def test_sixty_plates_are_answered_within_one_frame(
    club: Club, kg: AsLoad, pairs: dict[str, int]
) -> None:
    assert 2 * sum(pairs.values()) == 60
    rack, target = club(pairs), kg("181.7")

    def answer_anew() -> None:
        plate_sums.cache_clear()
        first_bar(target, rack)

    # The best of five, so that a busy machine doesn't count: 16 ms is a frame at 60 Hz.
    assert min(timeit.repeat(answer_anew, number=1, repeat=5)) < 0.016
