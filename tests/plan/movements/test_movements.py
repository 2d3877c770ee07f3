"""The movements a club knows: found however they are spelled, proposed while one is typed."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.club.plan_files import read_plan
from classclock.machine.bundled import bundled
from classclock.plan.movements import starter_movements
from classclock.plan.movements.library import Library, Movement
from classclock.plan.movements.proposals import propose
from classclock.plan.movements.starter_library import starter_library
from classclock.units.spelling import fold, plural

STARTER_MOVEMENTS = starter_library().movements
PLANS = sorted(bundled("plans").glob("*.toml"))
LOADED = {"bar", "dumbbell", "dumbbells", "kettlebell", "kettlebells", "sandbag"}
COMMON_PATTERNS = {"squat", "hinge", "push", "pull", "carry", "jump", "row/run", "trunk"}


@pytest.mark.parametrize("movement", STARTER_MOVEMENTS, ids=lambda one: one.name)
def test_a_starter_movement_says_how_it_is_done_what_is_easier_and_what_to_mind(
    movement: Movement,
) -> None:
    assert movement.standard
    assert 2 <= len(movement.points) <= 3
    assert all(len(point.split()) <= 8 for point in movement.points), "a coach's short words"
    assert movement.caution
    assert movement.options or movement.name == "walk", "nothing is easier than to walk"


@pytest.mark.parametrize("movement", STARTER_MOVEMENTS, ids=lambda one: one.name)
def test_a_starter_movement_bears_no_name_of_a_maker_or_a_person(movement: Movement) -> None:
    # A proper noun would have a capital, a mark of trade its sign.
    options = [option.name for option in movement.options]
    for name in (movement.name, *movement.aliases, *options, *movement.equipment):
        assert re.fullmatch(r"[a-z][a-z', -]*", name), name


def test_the_starter_file_says_that_it_is_common_practice_and_defers() -> None:
    head = starter_movements.__doc__ or ""
    assert "Common practice, no source" in head
    assert "The coach in the room\ndecides" in head
    assert "medical advice" in head


def test_the_starter_library_covers_every_pattern_in_some_fifty_movements() -> None:
    assert 45 <= len(STARTER_MOVEMENTS) <= 70
    assert {movement.pattern for movement in STARTER_MOVEMENTS} == COMMON_PATTERNS


def test_no_two_starter_movements_share_a_name() -> None:
    names = [fold(n) for one in STARTER_MOVEMENTS for n in (one.name, *one.aliases)]
    assert len(names) == len(set(names))


def test_what_has_nothing_to_hold_offers_no_option_that_keeps_a_load() -> None:
    # A bare squat shown with the bar's load would be worse than no option.
    bare = {one.name for one in STARTER_MOVEMENTS if not one.equipment}
    for movement in STARTER_MOVEMENTS:
        for option in movement.options if LOADED & set(movement.equipment) else ():
            empty = option.equipment == {} or option.name in bare
            assert not (empty and option.keep_load), (movement.name, option.name)


def test_no_option_keeps_a_load_that_it_says_is_less_or_that_was_a_bars() -> None:
    for movement in STARTER_MOVEMENTS:
        for option in movement.options if LOADED & set(movement.equipment) else ():
            known = starter_library().find(option.name)
            own = known.equipment if known and option.equipment is None else option.equipment
            without_bar = "bar" in movement.equipment and own is not None and "bar" not in own
            less = "lighter" in option.name
            assert not ((less or without_bar) and option.keep_load), (movement.name, option.name)


def test_of_dumbbells_and_kettlebells_two_are_needed_and_of_all_else_one() -> None:
    # Common practice, no source: one for each hand where the movement names them in the plural.
    pairs = {"dumbbells", "kettlebells"}
    counted = [piece for entry in starter_movements.STARTER for piece in _needed(entry)]
    assert pairs <= {name for name, _ in counted}
    for name, count in counted:
        assert count == (2 if name in pairs else 1), name


def _needed(entry: object) -> Iterator[tuple[str, int]]:
    """What a movement and its options need, as it is written: folded, a plural is lost."""
    if isinstance(entry, dict):
        yield from entry.get("equipment", {}).items()
        for option in entry.get("options", ()):
            yield from _needed(option)


@pytest.mark.parametrize("file", PLANS, ids=lambda file: file.stem)
def test_the_sample_plans_name_no_movement_that_the_starter_lacks(file: Path) -> None:
    plan, findings = read_plan(file, "kg", starter_library())
    assert findings == ()
    assert plan is not None
    for segment in plan.segment:
        for station in segment.station:
            assert starter_library().find(station.movement), station.movement


@pytest.mark.parametrize("name", [one.name for one in STARTER_MOVEMENTS])
def test_a_movement_is_found_in_capitals_in_the_plural_and_without_its_hyphens(name: str) -> None:
    for spelled in (name.upper(), plural(name), name.replace("-", " "), f" {name.title()} "):
        found = starter_library().find(spelled)
        assert found is not None, spelled
        assert found.name == name


@pytest.mark.parametrize(
    ("written", "folded"),
    [
        ("Box Step-overs", "box step over"),
        ("Farmer\u2019s Walks", "farmer walk"),
        ("strict presses", "strict press"),
        ("BENCHES", "bench"),
        ("carries", "carry"),
        ("row", "row"),
        ("fentes marchées", "fente marchee"),
        ("bar\u0131", "bari"),
        ("---", ""),
    ],
)
def test_one_name_has_one_spelling(written: str, folded: str) -> None:
    assert fold(written) == folded


@given(st.text())
def test_folding_a_folded_name_again_finds_the_same_movements(written: str) -> None:
    assert fold(fold(written).upper()) == fold(fold(written))


@given(st.text())
def test_capitals_make_no_other_movement(written: str) -> None:
    assert fold(written.casefold()) == fold(written)


def test_an_alias_finds_its_movement_and_an_unknown_name_its_nearest() -> None:
    library = starter_library()
    squat, unknown = library.find("Air Squats"), library.find("tram pull")
    assert squat is not None
    assert squat.name == "bodyweight squat"
    assert unknown is None
    assert library.nearest("goblett sqat") == "goblet squat"
    assert library.nearest("xyzzy") is None


def test_the_clubs_own_movement_stands_before_the_starters_of_that_name() -> None:
    own = Movement(name="Rows", pattern="row/run", standard="to the ticket window")
    library = Library([own]).extended(starter_library())
    found = library.find("row")
    assert found is own
    assert len(library.movements) == len(STARTER_MOVEMENTS)


def test_typed_letters_propose_names_that_begin_so_first_then_later_words_then_aliases() -> None:
    assert propose("dumb", starter_library(), 3) == (
        "dumbbell front squat",
        "dumbbell squat and press",
        "dumbbell snatch",
    )
    assert propose("pu", starter_library(), 9)[:2] == ("push-up", "push press")
    assert propose("swin", starter_library()) == ("kettlebell swing",)
    assert propose("skipping", starter_library()) == ("rope skip",)
    assert propose("Step o", starter_library()) == ("box step-over",)


def test_nothing_typed_or_nothing_known_proposes_nothing() -> None:
    assert propose(" ", starter_library()) == ()
    assert propose("zzz", starter_library()) == ()
    assert propose("squat", starter_library(), 0) == ()


@given(
    st.sampled_from(STARTER_MOVEMENTS),
    st.integers(min_value=1, max_value=30),
    st.integers(min_value=1, max_value=12),
)
def test_whoever_types_on_gets_to_the_movement(movement: Movement, letters: int, most: int) -> None:
    typed = movement.name[:letters]
    proposed = propose(typed, starter_library(), most)
    assert len(proposed) <= most
    assert len(set(proposed)) == len(proposed)
    if letters >= len(movement.name):
        assert movement.name in propose(typed, starter_library(), 100)
