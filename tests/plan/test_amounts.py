"""What a station is worth. The rules are this project's own; the sums are done by hand."""

import pytest

from classclock.plan.amounts import worth
from classclock.plan.station import Climb, Option, Station

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
