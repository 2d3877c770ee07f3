"""What a station is worth. The rules are this project's own; the sums are done by hand."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.plan.amounts import chosen_load, load_of, rep_words, worth
from classclock.plan.station import Climb, Option, Station
from classclock.units.loads import Load, parse_load

RUN = Station(movement="run", metres=400)
COUNTED_RUN = Station(movement="run", metres=400, counts=10)
STEP_OVER = Station(movement="box step-over", reps=6)
BARE = Station(movement="ring row")
CLIMB = Station(movement="box jump", climb=Climb(first=4, step=4))


@pytest.mark.parametrize(
    ("station", "reps"),
    [
        (STEP_OVER, 6),
        (Station(movement="row", calories=15), 15),
        (RUN, 0),
        (COUNTED_RUN, 10),
        (Station(movement="plank hold", seconds=30), 0),
        (Station(movement="rope skip", reps=40, counts=4), 4),
        (Station(movement="stretch", reps=5, counts=0), 0),
        (BARE, 0),
    ],
)
def test_reps_and_calories_count_as_they_stand_metres_and_seconds_dont(
    station: Station, reps: int
) -> None:
    assert worth(station, None, 0, None) == reps


def test_a_climb_grows_from_round_to_round() -> None:
    assert [worth(CLIMB, None, index, None) for index in range(4)] == [4, 8, 12, 16]


def test_a_scheme_is_for_the_stations_that_name_no_amount_and_has_an_end() -> None:
    scheme = (18, 12, 6)
    assert [worth(BARE, None, index, scheme) for index in range(4)] == [18, 12, 6, 0]
    assert [worth(STEP_OVER, None, index, scheme) for index in range(3)] == [6, 6, 6]
    assert worth(RUN, None, 0, scheme) == 0


def test_what_an_option_leaves_out_stays_as_the_station_has_it() -> None:
    assert worth(STEP_OVER, Option(name="lower box"), 0, None) == 6
    assert worth(STEP_OVER, Option(name="step-up", reps=4), 0, None) == 4
    assert worth(STEP_OVER, Option(name="walk", metres=100), 0, None) == 0
    assert worth(COUNTED_RUN, Option(name="run", metres=200), 0, None) == 10
    assert worth(COUNTED_RUN, Option(name="run", metres=200, counts=5), 0, None) == 5
    assert worth(BARE, Option(name="band row", reps=9), 1, (18, 12, 6)) == 9
    assert worth(CLIMB, Option(name="step-up", climb=Climb(first=2, step=2)), 2, None) == 6


def test_an_options_own_amount_counts_as_it_stands_whatever_the_station_says() -> None:
    run = Station(movement="run", metres=200, counts=11)
    assert worth(run, Option(name="bike", calories=9), 0, None) == 9
    assert worth(run, Option(name="shuttle", reps=6), 0, None) == 6
    assert worth(run, Option(name="bike", calories=9, counts=11), 0, None) == 11
    assert worth(run, Option(name="shorter run", metres=100), 0, None) == 11, "metres say nothing"


def kg(written: str) -> Load:
    return parse_load(written, "kg")


def test_one_load_is_for_all_and_of_several_ones_own_by_its_name() -> None:
    several = {"heavier": kg("22.5"), "lighter": kg("15")}
    assert chosen_load(kg("20"), None) == chosen_load(kg("20"), "lighter") == kg("20")
    assert chosen_load(several, "lighter") == kg("15")
    assert chosen_load(several, "heavier") == kg("22.5")
    assert chosen_load(several, None) is None
    assert chosen_load(several, "heaviest") is None
    assert chosen_load(None, "lighter") is None


def test_an_option_has_its_own_load_or_the_stations_where_it_keeps_it() -> None:
    squat = Station(movement="goblet squat", reps=9, load=kg("16"))
    assert load_of(squat, None) == kg("16")
    assert load_of(squat, Option(name="half as deep")) == kg("16")
    assert load_of(squat, Option(name="lighter bell", keep_load=False)) is None
    assert load_of(squat, Option(name="lighter bell", load=kg("12"))) == kg("12")
    assert load_of(squat, Option(name="other bell", load=kg("12"), keep_load=False)) == kg("12")


def test_one_rep_is_no_reps() -> None:
    assert [rep_words(reps) for reps in (0, 1, 2)] == ["0 reps", "1 rep", "2 reps"]


numbers = st.integers(1, 50)
amounts = st.one_of(
    st.just({}),
    *(
        st.builds(lambda key, n: {key: n}, st.just(key), numbers)
        for key in ("reps", "metres", "calories", "seconds")
    ),
    st.builds(lambda first, step: {"climb": Climb(first=first, step=step)}, numbers, numbers),
)
written = st.builds(
    lambda amount, counts: {**amount, **({} if counts is None else {"counts": counts})},
    amounts,
    st.none() | st.integers(0, 50),
)


@given(
    station=written,
    option=st.none() | written,
    index=st.integers(0, 4),
    scheme=st.none() | st.lists(numbers, min_size=1, max_size=4).map(tuple),
)
def test_whatever_is_written_the_first_that_says_a_number_is_what_counts(
    station: dict[str, Any], option: dict[str, Any] | None, index: int, scheme: Any
) -> None:
    """Said another way: a ladder of all that may say it, from the top down."""

    def stands(keys: dict[str, Any]) -> Any:
        climb = keys.get("climb")
        climbed = None if climb is None else range(climb.first, 10_000, climb.step)[index]
        return next((n for n in (keys.get("reps"), keys.get("calories"), climbed) if n), None)

    own = option or {}
    silent = {"metres", "seconds"}
    ladder = (
        own.get("counts"),
        stands(own),
        station.get("counts"),
        0 if silent & own.keys() else None,
        stands(station),
        0 if silent & station.keys() else None,
        dict(enumerate(scheme or ())).get(index, 0),
    )
    expected = next(rung for rung in ladder if rung is not None)
    asked = None if option is None else Option(name="other", **option)
    assert worth(Station(movement="one", **station), asked, index, scheme) == expected
