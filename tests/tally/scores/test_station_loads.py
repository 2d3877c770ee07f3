"""Which load each lane used is kept, since only equal loads can be compared later."""

from pydantic import TypeAdapter

from classclock.plan.formats.rounds_in_time import RoundsInTime
from classclock.plan.model import Segment
from classclock.tally.lanes import Lane
from classclock.tally.piece import Piece

SEGMENT: Segment = TypeAdapter(Segment).validate_python(
    {
        "name": "Third Rail",
        "format": "rounds-in-time",
        "time": "12:00",
        "station": [
            {"movement": "ring row", "reps": 6},
            {
                "movement": "dumbbell squat",
                "reps": 6,
                "load": {"heavier": "20 kg", "lighter": "12.5 kg"},
                "options": ["squat to a box", {"name": "one dumbbell", "load": "30 lb"}],
            },
        ],
    }
)


def lane(load: str | None = None, option: int = 0) -> Lane:
    return Lane("ilse", "Ilse", "i", ("ilse",), options=(0, option), load=load)


def test_a_station_without_a_load_says_nothing() -> None:
    assert Piece.of(SEGMENT, "kg").station_load(lane("heavier"), 0) == ""


def test_the_lanes_own_choice_among_several_loads_is_kept_as_the_plan_writes_it() -> None:
    piece = Piece.of(SEGMENT, "kg")
    assert piece.station_load(lane("heavier"), 1) == "20 kg"
    assert piece.station_load(lane("lighter"), 1) == "12.5 kg"


def test_a_load_that_nobody_chose_is_not_known() -> None:
    assert Piece.of(SEGMENT, "kg").station_load(lane(), 1) == "?"


def test_an_option_uses_its_own_load_where_it_has_one_and_the_stations_elsewhere() -> None:
    piece = Piece.of(SEGMENT, "kg")
    assert piece.station_load(lane("heavier", option=2), 1) == "30 lb"
    assert piece.station_load(lane("heavier", option=1), 1) == "20 kg"


def test_an_option_that_drops_the_stations_load_has_none() -> None:
    station = {"movement": "goblet squat", "reps": 9, "load": "20 kg"}
    option = {"name": "bodyweight squat", "keep_load": False}
    segment = RoundsInTime.model_validate(
        {
            "name": "Turntable",
            "format": "rounds-in-time",
            "time": 60,
            "station": [{**station, "options": [option]}],
        }
    )
    bare = Lane("ilse", "Ilse", "i", ("ilse",), options=(1,))
    assert Piece.of(segment, "kg").station_load(bare, 0) == ""
