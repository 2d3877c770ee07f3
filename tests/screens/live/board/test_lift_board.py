"""The board of a lift: loads and plates for everybody, in every window."""

import re
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from classclock.machine.terminal import Terminal
from classclock.plan.settings.club import Club
from classclock.screens.canvas.bar_side import draw_side, side_columns
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.cells import Drawing, plain_text, width
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import SIXTEEN
from classclock.screens.live.board.board_drawing import draw_board
from classclock.screens.live.board.lift_layout import lift_layout, load_words
from classclock.screens.live.wall.wall_view import WallView
from classclock.strength.bar_picture import PlateShape
from classclock.units.cell_dots import CellDots
from classclock.wall.board_content import BoardContent
from classclock.wall.colours.theme import DARK
from classclock.wall.lift_content import BarChange, LiftBoard, LiftLane

PLAIN = Look(SIXTEEN, Terminal(16, None))
PLAN = """
title = "Depot strength"
[[segment]]
name   = "Front squat"
format = "interval"
repeat = 3
steps  = [{ work = "1:00", label = "3 reps" }, { rest = "1:00" }]
lift   = "front squat"
sets   = [{ reps = 3, percent = 65 }, { reps = 3, percent = 80 }, { reps = 1, percent = 105 }]
score  = "load"
caution = ["Nobody walks behind a lifter."]
"""
STOP = "Dizzy: stop and call the coach."
PLATES = (PlateShape("20", 1.0, 3), PlateShape("2.5", 0.3, 1))


def lane(key: str = "I", name: str = "Ilse", **fields: Any) -> LiftLane:
    lifts = {
        "amount": "65",
        "unit": "kg",
        "bar": "20",
        "plates": PLATES,
        "side": "20 + 2.5 a side",
        "later": "then 70, 80",
    }
    return LiftLane(key, name, **{**lifts, **fields})


def nobody_knows(key: str = "P", name: str = "Piet") -> LiftLane:
    return LiftLane(key, name, words="no record: choose the load together")


def board(*lanes: LiftLane) -> BoardContent:
    return BoardContent(
        title="Depot strength",
        place="segment 1 of 3",
        name="Front squat",
        words="5 x 2:00 work, heaviest load",
        cautions=("Nobody walks behind a lifter.", "Safety bars are set."),
        stations=(),
        sets=("3 at 65 %",),
        lines=(),
        notes=("racks along the rail",),
        lanes=(),
        next="next: Turntable, 16:00",
        left="40 min of the class left",
        lift=LiftBoard("set 1 of 5", "3 at 65 %", lanes, "not all at once: 1 pair of 20 kg short"),
    )


@given(
    st.integers(60, 240),
    st.integers(14, 70),
    st.integers(1, 26),
    st.sampled_from(["first", "again"]),
    st.sampled_from(["sextants", "quadrants", "halves", None]),
)
@settings(deadline=None, max_examples=40)
def test_no_window_hides_a_caution_or_anybody_s_load(
    columns: int, rows: int, lanes: int, time: str, dots: CellDots | None
) -> None:
    keys = [chr(ord("A") + number) for number in range(lanes)]
    shown = board(*(lane(key, f"Name{key}") for key in keys))
    shown = replace(shown, stop=STOP, stop_stood=time == "again")
    assert shown.lift
    laid = lift_layout(shown, shown.lift, columns, rows, CellMeasure(Terminal(16, dots)))
    assert laid.whole
    assert 1 <= len(laid.pages) <= 4
    for page in laid.pages:
        cautions = " ".join(
            " ".join(spot.lines)
            for name, spot in page.items()
            if name == "stop" or name[0] == "caution"
        )
        for words in (STOP, *shown.cautions):
            assert words in " ".join(cautions.split())
        assert page["set"].lines
    for kind, words in (("key", "{0}"), ("name", "Name{0}"), ("load", "65")):
        said = [
            page[kind, number].lines[0]
            for page in laid.pages
            for number in range(lanes)
            if (kind, number) in page
        ]
        assert said == [words.format(key) for key in keys]


NAMES = (
    *("Noor", "Ilse", "Bram", "Tuva", "Nadia", "Wilhelmina", "Jo", "Pavel", "Roberta", "Casimir"),
    *("Mo", "Zoe", "Anna", "Bea", "Cleo", "Dora", "Elif", "Fay", "Gus", "Hana", "Ivo", "Jan"),
    *("Kai", "Lea", "Max", "Nils"),
)


@pytest.mark.parametrize(
    ("size", "lanes", "pages", "small"),
    [
        ((116, 31), 4, 1, ""),
        ((116, 31), 10, 2, ""),
        ((116, 31), 26, 4, "plates"),
        ((209, 55), 10, 1, ""),
        ((209, 55), 26, 2, ""),
        ((78, 21), 10, 4, "plates"),
    ],
)
@pytest.mark.parametrize("dots", ["sextants", "quadrants", "halves"])
def test_names_loads_and_the_set_are_drawn_from_120_columns_on(
    size: tuple[int, int], lanes: int, pages: int, small: str, dots: CellDots
) -> None:
    people = [
        lane(chr(65 + at), name, amount=f"{42.5 + 2.5 * at:g}", plates=(*PLATES, PLATES[1]))
        for at, name in enumerate(NAMES[:lanes])
    ]
    shown = board(*people)
    assert shown.lift
    laid = lift_layout(shown, shown.lift, *size, CellMeasure(Terminal(16, dots)))
    for group in {"set", "title", "key", "name", "load", "plates"} - {small}:
        assert laid.sizes[group] >= 3
    assert len(laid.pages) <= pages


def test_who_is_on_the_page_is_said_and_pages_are_counted_on_beyond_the_last() -> None:
    shown = board(*(lane(chr(65 + at), name) for at, name in enumerate(NAMES[:20])))
    lift = shown.lift
    assert lift
    pages = []
    for page in range(5):
        drawn = draw_board(replace(shown, page=page), 120, 35, Look())
        found = re.search(r"people (\d+) to (\d+) of 20", plain_text(drawn))
        assert found
        pages.append((int(found[1]), int(found[2])))
    count = len(set(pages))
    assert 1 < count <= 4
    assert pages[count] == pages[0]
    assert (pages[0][0], pages[count - 1][1]) == (1, 20)


@pytest.mark.parametrize("size", [(60, 17), (120, 35), (213, 59)])
@pytest.mark.parametrize("count", [1, 4, 8, 26])
def test_the_board_of_a_lift_fills_every_size_in_drawn_letters(
    check_filled: Callable[[Drawing, int, int], None], size: tuple[int, int], count: int
) -> None:
    lanes = [lane(), nobody_knows()] * count
    check_filled(draw_board(board(*lanes[:count]), *size, Look()), *size)


def test_a_side_is_drawn_with_what_the_bar_weighs_and_its_plates_by_size() -> None:
    text = Terminal(16, None)
    drawn = draw_side("20", PLATES, 60, 5, theme=DARK, terminal=text)
    assert drawn is not None
    assert len(drawn) == 5
    middle = plain_text(drawn).splitlines()[2]
    assert middle.split("\N{BOX DRAWINGS LIGHT HORIZONTAL}")[0].strip() == "20"
    assert "2.5" in middle
    highs = {
        label: sum(
            any(one.style and one.style.bgcolor == ground for one in row_at(drawn, row, label))
            for row in range(5)
        )
        for label in ("20", "2.5")
        for ground in [plate_ground(drawn, label)]
    }
    assert highs == {"20": 5, "2.5": 1}


def plate_ground(drawn: Drawing, label: str) -> Any:
    plate = [one for one in drawn[2] if label in one.text][-1]
    assert plate.style is not None
    return plate.style.bgcolor


def row_at(drawn: Drawing, row: int, label: str) -> list[Any]:
    """The segments of a row that stand where the plate's label stands in the middle."""
    at = plain_text(drawn).splitlines()[2].rindex(label)
    found, column = [], 0
    for segment in drawn[row]:
        if column <= at < column + segment.cell_length:
            found.append(segment)
        column += segment.cell_length
    return found


def test_a_side_too_long_for_its_box_is_not_drawn() -> None:
    assert draw_side("20", PLATES * 9, 40, 3, theme=DARK, terminal=Terminal()) is None


def test_whoever_waits_for_plates_or_shares_a_bar_is_told_so() -> None:
    change = BarChange("Ian", "on 10, off 1.25", "first")
    told = plain_text(
        draw_board(board(lane(waits=True, change=change), lane("B")), 120, 35, Look())
    )
    assert "waits for plates, then Ian: on 10, off 1.25" in told
    assert "┌" in told


def test_a_load_that_nobody_knows_is_a_question_and_words() -> None:
    shown = board(lane(), nobody_knows())
    assert shown.lift
    laid = lift_layout(shown, shown.lift, 116, 31, CellMeasure(Terminal()))
    assert load_words(shown.lift.lanes[1]) == "?"
    assert " ".join(laid.spots["instead", 1].lines) == "no record: choose the load together"


def test_a_picture_of_plates_is_as_wide_as_it_was_said_to_be() -> None:
    measure = CellMeasure(Terminal())
    for plates in (PLATES, PLATES[:1], ()):
        drawn = draw_side("20", plates, 99, 3, theme=DARK, terminal=Terminal())
        assert drawn
        labels = ("20", *(plate.label for plate in plates))
        assert width(drawn) <= side_columns([measure.columns(label, 3) for label in labels])


# -- in a class -------------------------------------------------------------------------


@pytest.fixture
def lifting(open_class: Any, depot: Any) -> Any:
    """A class in which Ilse has a single of 100 kg, and Piet is new."""
    depot.held("2026-02-10", depot.squats(depot.lifted("Ilse", "80 kg", "90 kg", "100 kg")))

    @asynccontextmanager
    async def opened(plan: str = PLAN, **more: Any) -> AsyncIterator[Any]:
        asked = {"names": ("Ilse", "Piet"), "look": PLAIN, "folder": depot.folder, **more}
        async with open_class(plan, **asked) as coach:
            reading = [one for one in coach.screen.workers if one.node is coach.screen]
            if reading:
                await coach.screen.workers.wait_for_complete(reading)
            await coach.pilot.pause()
            yield coach

    return opened


async def test_the_board_has_loads_and_plates_once_the_records_are_read(lifting: Any) -> None:
    async with lifting() as coach:
        seen = coach.seen()
        assert "3 at 65 %" in seen
        assert "set 1 of 3" in seen
        assert re.search(r"I +Ilse +\^65 kg +20\+2.5 ", seen)
        assert "20 kg bar" in seen
        assert "no record: choose the load together" in seen


async def test_the_wall_shows_the_load_of_the_set_that_is_on_and_then_of_the_next(
    lifting: Any,
) -> None:
    async with lifting() as coach:
        await coach.start()
        wall = coach.screen.query_one(WallView)
        assert (wall.lanes[0].load, wall.lanes[0].plates) == ("65", "20+2.5")
        assert wall.lanes[1].load == "", "nobody knows what Piet can lift"
        assert "3 at 65 %" in coach.seen()
        await coach.wind(70)  # in the rest the next load is put on
        assert (wall.lanes[0].load, wall.lanes[0].plates) == ("80", "20+10")
        assert "then 3 at 80 %" in coach.seen()


async def test_a_digit_and_a_key_record_the_load_that_was_lifted(lifting: Any) -> None:
    async with lifting() as coach:
        await coach.start()
        await coach.wind(20)
        await coach.press("i", "4", "0", "p")
        tallies = coach.live.record.sheet.tallies.values()
        assert [str(tally.heaviest) for tally in tallies] == ["65 kg", "40 kg"]


async def test_a_mirrored_screen_shows_only_that_there_is_a_load_to_look_at(lifting: Any) -> None:
    async with lifting() as coach:
        await coach.press("f7")
        seen = coach.seen()
        assert "F7: 1 load to look at before the start" not in seen, "F7 was answered just now"
        assert "^65" in seen
        assert "maximum" not in seen
        assert "the room sees this screen" in seen
        await coach.reads("F7: 1 load to look at before the start")
        await coach.start()
        await coach.reads("watch closely: 1 load not looked at before the start")


async def test_the_flags_are_read_on_the_board_where_the_room_does_not_see_it(
    lifting: Any,
) -> None:
    async with lifting(club=Club.model_validate({"tv": {"mirrored": False}})) as coach:
        await coach.press("f7")
        assert "105 kg is above the recorded maximum, 100 kg" in coach.seen()
        await coach.press("enter")
        assert coach.live.record.acknowledged == {
            ("Ilse", 0, "105 kg is above the recorded maximum, 100 kg")
        }
        assert "to look at" not in coach.seen()
        assert coach.live.phase == "board", "enter was the answer, not the start"
        await coach.press("f7")
        assert "no load has to be looked at" in coach.seen()


PLANNED = PLAN.replace("percent = 65", 'load = "60 kg"').replace("percent = 80", 'load = "70 kg"')


async def test_a_planned_load_is_to_be_looked_at_for_whoever_has_no_record(lifting: Any) -> None:
    no_text = "no record: choose the load together"
    planned = PLANNED.replace("percent = 105", 'load = "75 kg"')
    async with lifting(planned) as coach:
        await coach.reads("F7: 1 load to look at before the start")
        assert no_text not in coach.seen(), "the room reads this screen"
    async with lifting(planned, club=Club.model_validate({"tv": {"mirrored": False}})) as coach:
        await coach.press("f7")
        assert no_text in coach.seen()
        await coach.press("enter")
        assert coach.live.record.acknowledged == {("Piet", 0, no_text)}


MANY = {"names": NAMES[:20], "look": Look()}


def page_on(coach: Any) -> int:
    found = re.search(r"people (\d+) to \d+ of 20", coach.seen())
    assert found
    return int(found[1])


async def test_pages_of_a_board_turn_by_themselves_until_a_key_has_turned_them(
    lifting: Any,
) -> None:
    async with lifting(**MANY) as coach:
        assert page_on(coach) == 1
        await coach.wind(8)
        second = page_on(coach)
        assert second > 1
        await coach.press("left")
        assert page_on(coach) == 1
        await coach.wind(60)
        assert page_on(coach) == 1
        await coach.press("right")
        assert page_on(coach) == second
