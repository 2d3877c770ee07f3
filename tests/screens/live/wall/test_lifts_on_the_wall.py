"""A lift as it runs: the set, everybody's load and plates, in letters where that can be."""

import pytest
from msgspec.structs import replace

from classclock.machine.terminal import Terminal
from classclock.screens.canvas.cell_measure import CellMeasure, room_for
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.live.wall.lane_drawing import draw_lane
from classclock.screens.live.wall.lift_grid import MADE
from classclock.screens.live.wall.wall_layout import WallLayout, lay_out_wall
from classclock.tally.signs import SIGNS
from classclock.units.cell_dots import CellDots
from classclock.wall.lane_content import LaneContent, LaneRoom
from classclock.wall.wall_content import WallContent

NAMES = (
    *("Noor", "Ilse", "Bram", "Tuva", "Nadia", "Wilhelmina", "Jo", "Pavel", "Roberta", "Casimir"),
    *("Mo", "Zoe", "Anna", "Bea", "Cleo", "Dora", "Elif", "Fay", "Gus", "Hana", "Ivo", "Jan"),
    *("Kai", "Lea", "Max", "Nils"),
)
WORK = WallContent(
    clock="2:34",
    title="Front squat",
    words="3 x 2:00 work, 1:00 rest, heaviest load",
    emphasis="WORK",
    progress="1 of 3",
    total_left="7:34 left in all",
    stations=("3 at 65 %",),
    standards=("",),
    lift=True,
    longest_stations=("then 3 at 65 %",),
    longest_emphasis="WORK",
)


def lane(number: int, **more: str) -> LaneContent:
    load = f"{42.5 + 2.5 * number:g}"
    plates = ("20", "20+5", "20+5+1.25")[number % 3]
    said = {"load": load, "unit": "kg", "plates": plates, **more}
    key, name = chr(ord("a") + number), NAMES[number]
    room = LaneRoom(tallies=("102.5",), load=load, unit="kg", plates=plates)
    return replace(LaneContent(key, name, "60", "60", room=room), **said)


def wall(size: tuple[int, int], lanes: int, dots: CellDots = "sextants") -> WallLayout:
    people = tuple(map(lane, range(lanes)))
    return lay_out_wall(WORK, people, *size, CellMeasure(Terminal(16, dots)))


@pytest.mark.parametrize(
    ("size", "lanes", "small"),
    [
        ((120, 35), 4, set()),
        ((120, 35), 10, set()),
        ((120, 35), 12, {"plates"}),
        ((120, 35), 26, {"name", "plates"}),
        ((213, 59), 10, set()),
        ((213, 59), 26, set()),
    ],
)
def test_what_everybody_lifts_is_drawn(size: tuple[int, int], lanes: int, small: set[str]) -> None:
    sizes = dict(wall(size, lanes).sizes)
    drawn = {"shout", "move", "key", "name", "load", "plates"} - small
    assert {group for group in drawn if sizes[group] < 3} == set()


@pytest.mark.parametrize("dots", ["quadrants", "halves"])
def test_ten_lanes_are_drawn_in_other_letters_too(dots: CellDots) -> None:
    sizes = dict(wall((120, 35), 10, dots).sizes)
    assert min(sizes[group] for group in ("move", "key", "name", "load", "plates")) >= 3


@pytest.mark.parametrize("size", [(60, 17), (80, 23), (120, 35), (213, 59)])
@pytest.mark.parametrize("lanes", [1, 10, 26])
def test_every_name_and_load_stands_whole(size: tuple[int, int], lanes: int) -> None:
    laid = wall(size, lanes)
    assert laid.lane
    for number in range(lanes):
        shown = lane(number)
        spots = [(laid.lane.name, shown.name), (laid.lane.load, shown.load)]
        spots += [(laid.lane.plates, shown.plates)] if laid.lane.plates else []
        for spot, words in spots:
            assert spot
            assert CellMeasure(Terminal()).columns(words, spot.size) <= spot.box.width
    if dict(laid.sizes)["name"] == 1:
        text = plain_text(draw_lane(lane(lanes - 1), laid.lane, Look()))
        assert NAMES[lanes - 1] in text


def test_room_is_for_the_widest_in_letters_as_in_terminal_text() -> None:
    measure, words = CellMeasure(Terminal()), ("Annelies", "Benjamin", "Illi Lilli")
    for size in (1, 3):
        room = measure.columns(room_for(words), size)
        assert room >= max(measure.columns(one, size) for one in words)


@pytest.mark.parametrize("lanes", [4, 8, 20])
def test_every_name_is_as_large_as_the_others(lanes: int) -> None:
    names = ("Annelies", "Benjamin", "Cornelis", "Mwumwumw")
    people = tuple(replace(lane(at), name=names[at % 4]) for at in range(lanes))
    for size in ((120, 35), (213, 59)):
        measure = CellMeasure(Terminal())
        laid = lay_out_wall(WORK, people, *size, measure)
        assert laid.lane
        wide = laid.lane.name.box.width
        assert all(measure.columns(name, laid.lane.name.size) <= wide for name in names)


def test_nothing_moves_from_set_to_rest_and_from_turn_to_turn() -> None:
    measure = CellMeasure(Terminal())
    people = tuple(map(lane, range(10)))
    rest = replace(WORK, emphasis="REST", stations=("then 3 at 65 %",), clock="0:34")
    waiting = tuple(lane(at, load="40", plates="waits") for at in range(10))
    done = tuple(lane(at, load="", unit="", plates="") for at in range(10))
    laid = lay_out_wall(WORK, people, 120, 35, measure)
    assert lay_out_wall(rest, waiting, 120, 35, measure) == laid
    assert lay_out_wall(rest, done, 120, 35, measure) == laid


@pytest.mark.parametrize("size", [(80, 23), (120, 35), (213, 59)])
def test_a_name_of_as_many_signs_but_wider_letters_stands_whole(size: tuple[int, int]) -> None:
    names = ("Annelies", "Benjamin", "Diederik", "Eberhard", "Fransina", "Gottlieb", "Hendrika")
    people = tuple(replace(lane(number), name=name) for number, name in enumerate(names))
    laid = lay_out_wall(WORK, people, *size, CellMeasure(Terminal()))
    assert laid.lane
    spot = laid.lane.name
    wide = {name: CellMeasure(Terminal()).columns(name, spot.size) for name in names}
    assert {name for name in names if wide[name] > spot.box.width} == set()


@pytest.mark.parametrize("size", [(60, 17), (80, 23), (120, 35), (213, 59)])
@pytest.mark.parametrize("lanes", [1, 4, 10, 12, 26])
def test_what_was_made_may_go_but_never_leaves_its_word_alone(
    size: tuple[int, int], lanes: int
) -> None:
    laid = wall(size, lanes)
    assert laid.lane
    assert laid.lane.tally or not laid.lane.made


def test_the_third_number_has_its_word_once_there_is_one() -> None:
    laid = wall((120, 35), 10)
    assert laid.lane
    lifted, none = lane(0), replace(lane(0), tally="", short_tally="")
    assert MADE in plain_text(draw_lane(lifted, laid.lane, Look()))
    assert MADE not in plain_text(draw_lane(none, laid.lane, Look()))


def test_where_what_was_made_has_no_room_whose_turn_it_is_stands_before_the_load() -> None:
    laid = wall((60, 17), 12)
    assert laid.lane
    assert laid.lane.tally is None
    drawn = plain_text(draw_lane(replace(lane(3), turn="now"), laid.lane, Look()))
    assert SIGNS["turn"].sign in drawn
