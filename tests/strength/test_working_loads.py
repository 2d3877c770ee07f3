from collections.abc import Callable
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from classclock.plan.settings.club import Club as ClubSettings
from classclock.strength.maxima import percent_of
from classclock.strength.working_loads import bar_for, warm_ups, working_load
from classclock.units.bars_and_plates import Equipment
from classclock.units.loads import Load

AsLoad = Callable[[str], Load]
Club = Callable[..., Equipment]
EQUIPMENT = ClubSettings().equipment


def test_a_target_is_brought_to_the_nearest_load_below_and_the_shortfall_shown(
    depot: Equipment, kg: AsLoad
) -> None:
    working = working_load(percent_of(kg("112.5"), Decimal(75)), depot)
    assert working.load == kg("82.5")
    assert working.shortfall == kg("1.875")


def test_a_target_that_can_be_made_is_short_of_nothing(depot: Equipment, kg: AsLoad) -> None:
    working = working_load(kg("60"), depot)
    assert working.load == kg("60")
    assert working.shortfall == Load(Decimal(0), "kg")


def test_below_the_lightest_bar_no_bar_is_given(depot: Equipment, kg: AsLoad) -> None:
    working = working_load(kg("12.5"), depot)
    assert working.load is None
    assert working.shortfall is None
    assert working.lighter is not None
    assert working.lighter.dumbbell == kg("12")


def test_a_target_in_pounds_is_short_in_pounds(depot: Equipment, kg: AsLoad) -> None:
    working = working_load(kg("135 lb"), depot)
    assert working.load == kg("60")
    assert working.shortfall == kg("2.72 lb")


@given(st.integers(1, 400_000), st.integers(1, 1200))
def test_a_working_load_is_never_above_its_target(grams: int, tenths: int) -> None:
    target = percent_of(Load(Decimal(grams) / 1000, "kg"), Decimal(tenths) / 10)
    working = working_load(target, EQUIPMENT)
    if working.load is None:
        assert target.kg < EQUIPMENT.lightest_bar.weight.kg
    else:
        assert working.load.kg <= target.kg
        # The club's plates step by 2.5 kg until they run out.
        assert target.kg - working.load.kg < Decimal("2.5") or working.load.kg == 510


def test_all_sets_are_done_on_one_bar_that_the_lightest_allows(
    depot: Equipment, kg: AsLoad
) -> None:
    assert bar_for([kg("60"), kg("22.5")], depot).name == "20 kg"
    assert bar_for([kg("60"), kg("20")], depot).name == "20 kg", "empty, it is that set's load"
    assert bar_for([kg("60"), kg("17.5")], depot).name == "15 kg"
    assert bar_for([kg("12")], depot).name == "15 kg"


def test_warm_ups_climb_in_loadable_steps(depot: Equipment, kg: AsLoad) -> None:
    # About 40, 60 and 80 % of the working load: common practice, no source.
    steps = warm_ups(working_load(kg("100"), depot), depot)
    assert [step.load for step in steps] == [kg("40"), kg("60"), kg("80")]


def test_a_warm_up_is_never_as_heavy_as_the_work_nor_done_twice(club: Club, kg: AsLoad) -> None:
    bare = club({"20": 1}, bars=("20 kg",))
    steps = warm_ups(working_load(kg("60"), bare), bare)
    assert [step.load for step in steps] == [kg("20")]


def test_no_two_warm_ups_are_the_same_load(club: Club, kg: AsLoad) -> None:
    # Worked: 20, 30, 60 and 70 can be made; 60 % (42) and 80 % (56) both come to 30.
    few = club({"20": 1, "5": 1}, bars=("20 kg",))
    steps = warm_ups(working_load(kg("70"), few), few)
    assert [step.load for step in steps] == [kg("20"), kg("30")]


def test_warm_ups_stay_on_the_bar_of_the_work_where_it_is_light_enough(
    depot: Equipment, kg: AsLoad
) -> None:
    steps = warm_ups(working_load(kg("60"), depot, depot.bars[1]), depot)
    assert [step.loading.bar.name for step in steps if step.loading is not None] == ["15 kg"] * 3


def test_a_light_warm_up_is_not_the_bar(depot: Equipment, kg: AsLoad) -> None:
    first, *_ = warm_ups(working_load(kg("30"), depot), depot)
    assert first.load is None
    assert first.lighter is not None
    assert first.lighter.kettlebell == kg("12")
    assert warm_ups(working_load(kg("12"), depot), depot) == ()


@given(st.integers(15_000, 500_000))
def test_warm_ups_always_climb_below_the_working_load(grams: int) -> None:
    working = working_load(Load(Decimal(grams) / 1000, "kg"), EQUIPMENT)
    assert working.load is not None
    loads = [step.load.kg for step in warm_ups(working, EQUIPMENT) if step.load is not None]
    assert loads == sorted(set(loads))
    assert all(load < working.load.kg for load in loads)
