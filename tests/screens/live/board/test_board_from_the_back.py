"""What the room needs of a board is large: the numbers, the movements, who is here."""

import pytest
from msgspec.structs import replace

from classclock.clock.class_clock import ClassClock
from classclock.clock.source import WoundSource
from classclock.club.plan_files import read_plan
from classclock.live.live_class import LiveClass
from classclock.live.recorder import EventList
from classclock.machine.bundled import bundled
from classclock.machine.terminal import Terminal
from classclock.plan.care import STOP
from classclock.plan.movements.completing import complete
from classclock.plan.movements.starter_library import starter_library
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.layout.arrange import Arranged
from classclock.screens.canvas.look import Look
from classclock.screens.live.board.board_drawing import body_box, draw_board
from classclock.screens.live.board.board_layout import board_layout
from classclock.tally import events as ev
from classclock.tally.lane_keys import people_named
from classclock.tally.record import ClassRecord
from classclock.units.cell_dots import CellDots
from classclock.wall.board_content import BoardContent, BoardLane, BoardStation, board_content
from classclock.wall.colours.theme import DARK

NAMES = (
    *("Ilse", "Bram", "Noor", "Piet", "Tuva", "Saoirse", "Wilhelmina", "Pavel", "Zoë"),
    *("Łucja", "O\u2019Brien"),
)
LARGE = 3
"""Rows of the smallest drawn letters; 15 to 23 minutes of arc at ten metres in 36 rows."""


def laid(content: BoardContent, columns: int, rows: int, dots: CellDots = "sextants") -> Arranged:
    look = Look().with_dots(dots)
    box = body_box(content, columns, rows, look)
    return board_layout(content, box.width, box.height, CellMeasure(Terminal(dots=dots)))


def board(name: str, segment: int, people: int = 11) -> BoardContent:
    """The board of a sample's segment, completed by the movements as in a class."""
    read, _ = read_plan(bundled("plans") / f"{name}.toml")
    assert read is not None
    plan = complete(read, starter_library())
    source = WoundSource()
    live = LiveClass(ClassClock(source, source.now()), ClassRecord(plan, stop=STOP), EventList())
    here = people_named(NAMES[:people])
    live.record_event(ev.ClassOpened(0, "t", "", "kg", here, None, stop=STOP))
    live.record_event(ev.SegmentChosen(0, segment))
    return board_content(live, source.wall())


def test_the_numbers_of_a_scheme_are_the_largest_letters() -> None:
    content = board("third-rail", 3)
    assert (content.head, content.terms) == ("4-8-12-8-4", "for time, cap 12:00, 72 reps")
    for size in ((120, 35), (160, 44), (213, 59)):
        sizes = laid(content, *size).sizes
        assert sizes["head"] == max(sizes.values()) >= LARGE
        assert sizes["work"] >= LARGE


def test_twenty_people_have_a_few_pages_where_one_would_be_in_terminal_text() -> None:
    lanes = tuple(BoardLane(chr(65 + at), f"Saoirse {at}", "", "") for at in range(20))
    content = replace(board("third-rail", 3), lanes=lanes)
    found = laid(content, 120, 35)
    assert found.sizes["person"] >= LARGE
    assert 1 < len(found.pages) <= 4
    shown = [name for page in found.pages for name in page if name[0] == "person"]
    assert sorted(shown) == [("person", at) for at in range(20)]
    last = draw_board(replace(content, page=len(found.pages) - 1), 120, 35, Look())
    assert f"page {len(found.pages)} of {len(found.pages)}" in plain_text(last)


def test_a_climb_is_written_with_its_first_rungs() -> None:
    content = board("gradient", 3)
    assert content.stations[0].words == "4, 8, 12, … dumbbell snatch, 22.5 kg / 12.5 kg"
    assert laid(content, 120, 35).sizes["work"] >= LARGE
    assert "…" not in plain_text(draw_board(content, 120, 35, Look())), "drawn, not typed"


def test_intervals_are_written_turn_by_turn() -> None:
    content = board("night-line", 3)
    assert (content.head, content.terms) == ("6 x", "total reps")
    assert [one.words for one in content.stations] == [
        *("0:45 row", "0:15 rest", "0:45 bodyweight squat", "0:15 rest"),
    ]
    assert content.stations[0].standard == "calories on the monitor when time is called"
    held = board("third-rail", 1)
    assert [one.words for one in held.stations] == [
        *("0:30 passive hang", "0:45 thoracic turns", "0:30 rest"),
    ]
    single = board("night-line", 2)
    assert (single.head, [one.words for one in single.stations]) == (
        "5 x 1:30",
        ["3 smooth reps", "3 pull-up"],
    )


@pytest.mark.parametrize("size", [(120, 35), (160, 44), (213, 59)])
def test_the_standards_that_a_plan_wrote_stand(size: tuple[int, int]) -> None:
    content = board("sandbox", 3)
    found = laid(content, *size)
    assert len(content.cautions) > 5, "a page of them"
    for number, station in enumerate(content.stations[:2]):
        assert " ".join(found.spots["standard", number].lines) == station.standard


@pytest.mark.parametrize("dots", ["sextants", "quadrants", "halves"])
@pytest.mark.parametrize(("plan", "segment"), [("third-rail", 3), ("last-tram", 3)])
def test_eleven_people_and_the_movements_are_large_on_a_laptop(
    plan: str, segment: int, dots: CellDots
) -> None:
    content = board(plan, segment)
    found = laid(content, 120, 35, dots)
    assert found.whole
    assert found.sizes["work"] >= LARGE
    assert found.sizes["person"] >= LARGE
    assert max(spot.box.x + spot.box.width for spot in found.spots.values()) > 80


def test_a_tv_is_used_to_its_foot() -> None:
    content = board("third-rail", 3)
    found = laid(content, 213, 59)
    assert found.sizes["person"] >= 5
    lowest = max(spot.box.y + spot.box.height for spot in found.spots.values())
    assert lowest > 50


def crowded(*, lanes: int, start: str = "", does: str = "") -> BoardContent:
    station = BoardStation("9 push press, 22.5 kg", "arms straight", ("(1) seated press",))
    return BoardContent(
        title="Depot",
        place="segment 1 of 1",
        name="Headway",
        words="3 rounds for time",
        cautions=("Mind the rail.",),
        stations=(station,),
        sets=(),
        lines=(),
        notes=(),
        lanes=tuple(
            BoardLane(
                chr(65 + n), f"Name{n}", does if n == 1 else "", "", start if n % 2 else "row"
            )
            for n in range(lanes)
        ),
        next="this is the last segment",
        left="",
        head="3 rounds",
        terms="for time",
    )


@pytest.mark.parametrize("size", [(60, 17), (80, 23), (120, 35), (213, 59)])
def test_cautions_are_never_larger_than_what_is_to_be_done(size: tuple[int, int]) -> None:
    sizes = laid(crowded(lanes=12), *size).sizes
    assert 0 < sizes["caution"] <= sizes["work"]


def test_who_starts_where_is_large_and_stands_over_the_names() -> None:
    found = laid(crowded(lanes=6, start="run"), 120, 35)
    assert found.sizes["start"] >= LARGE
    assert found.spots["start", "row"].lines == ("row:",)
    assert found.spots["start", "run"].box.y > found.spots["start", "row"].box.y


@pytest.mark.parametrize("lanes", [2, 12])
def test_what_somebody_does_otherwise_stands_in_every_arrangement(lanes: int) -> None:
    content = crowded(lanes=lanes, does="seated press")
    found = laid(content, 120, 35)
    said = [line for name, spot in found.spots.items() if name[0] == "does" for line in spot.lines]
    assert any("seated press" in line for line in said)


def test_names_in_lines_have_their_keys_in_the_keys_colour() -> None:
    content = board("third-rail", 3)
    drawn = draw_board(content, 120, 35, Look(DARK))
    spots = laid(content, 120, 35).spots
    (spot,) = (spot for name, spot in spots.items() if name[0] == "people")
    assert spot.size >= LARGE
    body = body_box(content, 120, 35, Look(DARK))
    top = drawn[body.y + spot.box.y]
    inks = {part.style.color.name for part in top if part.style and part.style.color}
    assert {DARK.key, DARK.ink} <= inks
