"""The rule of size, case by case."""

import pytest

from classclock.machine.terminal import Terminal
from classclock.screens.canvas.arranged_drawing import Ink, draw_arranged
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.cells import plain_text, width
from classclock.screens.canvas.layout.arrange import Trials, arrange
from classclock.screens.canvas.layout.breaking import Breaking, unbroken
from classclock.screens.canvas.layout.nodes import Box, Spot
from classclock.screens.canvas.layout.parts import (
    Arrangement,
    Beside,
    Drawn,
    Grid,
    Lead,
    OneOf,
    Role,
    Stack,
    Written,
)
from classclock.screens.canvas.look import Look
from tests.screens.canvas.layout.toy_measure import ToyMeasure

TOY = ToyMeasure()
CELLS = CellMeasure(Terminal())


def words(text: str, *, role: Role = "room", matters: int = 0, breaks: bool = False) -> Written:
    return Written(text, text, text, role, matters, breaks)


def test_a_number_stays_with_its_unit() -> None:
    assert unbroken("12 box step-over 22.5 kg 400 m row 5 min") == [
        *("12", "box", "step-over", "22.5 kg", "400 m", "row", "5 min"),
    ]
    assert Breaking("5 kg a", TOY).lines(4, 1) == ("5 kg", "a")


def test_a_word_that_begins_like_a_unit_is_a_word() -> None:
    assert unbroken("12 kettlebell swings") == ["12", "kettlebell", "swings"]
    assert unbroken("4 minute plank") == ["4", "minute", "plank"]


def test_texts_of_a_group_have_one_size() -> None:
    part = Stack((Written("a", "Jo", "name"), Written("b", "Wilhelmina", "name"), words("12")))
    found = arrange(part, 20, 9, TOY)
    assert found.sizes == {"name": 1, "12": 4}
    assert found.spots["a"].size == found.spots["b"].size == 1


def test_the_smallest_is_as_large_as_it_can_be_before_any_other_grows() -> None:
    assert arrange(Stack((words("12"), words("7"))), 9, 6, TOY).sizes == {"12": 3, "7": 3}
    assert arrange(Stack((words("12"), words("7"))), 9, 7, TOY).sizes in (
        {"12": 4, "7": 3},
        {"12": 3, "7": 4},
    )


def test_of_equals_it_is_the_one_with_the_larger_cautions() -> None:
    part = Stack((words("12"), words("7", role="caution")))
    assert arrange(part, 9, 7, TOY).sizes == {"12": 3, "7": 4}


def test_then_the_one_in_which_what_matters_more_is_larger() -> None:
    part = Stack((words("12", matters=1), words("7")))
    assert arrange(part, 9, 7, TOY).sizes == {"12": 4, "7": 3}


def test_what_leads_is_the_largest_and_so_many_times_as_large() -> None:
    part = Stack((words("12"), words("7"), words("8")))
    lead = Lead("12", 1.5, ("7",))
    assert arrange(part, 9, 9, TOY, lead=lead).sizes == {"12": 4, "7": 2, "8": 3}
    assert arrange(part, 9, 8, TOY, lead=lead).sizes == {"12": 3, "7": 2, "8": 3}
    assert arrange(part, 9, 7, TOY, lead=lead).sizes == {"12": 3, "7": 2, "8": 2}


def test_details_go_before_any_text_of_the_room_gets_smaller_and_come_back_by_weight() -> None:
    part = Stack((words("12"), words("ab", role="detail"), words("c", role="detail", matters=1)))
    assert arrange(part, 9, 4, TOY).sizes == {"12": 4, "ab": 0, "c": 0}
    assert arrange(part, 9, 5, TOY).sizes == {"12": 4, "ab": 0, "c": 1}
    assert arrange(part, 9, 6, TOY).sizes == {"12": 4, "ab": 1, "c": 1}
    assert arrange(part, 9, 8, TOY).sizes == {"12": 4, "ab": 1, "c": 3}


def test_a_group_without_a_word_holds_back_no_detail_and_leads_none() -> None:
    without = Written("none", " ", "none", breaks=True)
    part = Stack((words("12"), without, words("c", role="detail")))
    found = arrange(part, 9, 8, TOY, lead=Lead("none", 2.0, ("12",)))
    assert found.sizes == {"12": 4, "c": 4}
    assert found.whole


def test_what_is_the_coachs_is_there_and_grows_last() -> None:
    part = Stack((words("12"), words("ab", role="coach")))
    assert arrange(part, 9, 4, TOY).sizes == {"12": 3, "ab": 1}
    assert arrange(part, 9, 7, TOY).sizes == {"12": 4, "ab": 3}


def test_where_not_all_stands_what_matters_least_goes_and_cautions_never() -> None:
    part = Stack((words("12", matters=1), words("7"), words("do it now", role="caution")))
    assert arrange(part, 9, 2, TOY).left_out == ("7",)
    least = arrange(part, 9, 1, TOY)
    assert least.left_out == ("12", "7")
    assert least.whole
    cut = arrange(part, 4, 1, TOY)
    assert not cut.whole
    assert cut.spots["do it now"].box == Box(0, 0, 4, 1)


def test_a_text_breaks_only_where_it_may() -> None:
    assert arrange(words("do it now", breaks=True), 6, 9, TOY).spots == {
        "do it now": Spot(Box(0, 0, 6, 9), 1, ("do it", "now"))
    }
    assert arrange(words("do it now", breaks=True), 9, 9, TOY).sizes == {"do it now": 3}
    assert arrange(words("do it now"), 9, 9, TOY).sizes == {"do it now": 1}


def test_what_breaks_leaves_its_neighbour_the_columns_that_it_needs() -> None:
    part = Beside((words("do it now", breaks=True), words("12")), gap=1)
    found = arrange(part, 11, 9, TOY)
    assert found.sizes == {"do it now": 1, "12": 3}
    assert found.spots["do it now"].box.width == 4
    assert found.spots["12"].box.x == 5


def rows(count: int) -> tuple[tuple[Arrangement, ...], ...]:
    return tuple(
        (Written(("key", n), "7", "key"), Written(("name", n), name, "name"))
        for n, name in enumerate(("Jo", "Ilse", "Bo", "Al", "Tuva")[:count])
    )


def test_columns_of_a_table_share_a_width_and_rows_go_down_first() -> None:
    found = arrange(Grid(rows(5), across=(1, 2), gap=1, between=2), 22, 4, TOY)
    assert found.sizes == {"key": 1, "name": 1}
    corners = [(found.spots["name", n].box.x, found.spots["name", n].box.y) for n in range(5)]
    assert corners == [(2, 0), (2, 1), (2, 2), (14, 0), (14, 1)]
    assert {found.spots["name", n].box.width for n in range(5)} == {4}


def test_a_table_stands_in_as_many_columns_as_make_it_largest() -> None:
    assert arrange(Grid(rows(4), across=(1, 2), between=1), 40, 6, TOY).sizes["name"] == 3
    assert arrange(Grid(rows(4), across=(1,), between=1), 40, 6, TOY).sizes["name"] == 1


def test_a_drawn_detail_is_shown_in_its_least_size_or_not_and_takes_what_it_wishes() -> None:
    part = Beside((words("12"), Drawn("ribbon", "ribbon", (20, 1), (30, 3))), gap=1)
    assert "ribbon" not in arrange(part, 28, 4, TOY).spots
    assert arrange(part, 29, 4, TOY).spots["ribbon"].box == Box(9, 0, 20, 3)
    assert arrange(part, 60, 4, TOY).spots["ribbon"].box == Box(9, 0, 30, 3)


def test_what_takes_no_room_has_no_gap() -> None:
    nothing = Drawn("sign", "sign", (0, 0), (0, 0), "room")
    assert arrange(Beside((nothing, words("12")), gap=1), 4, 2, TOY).sizes["12"] == 2
    assert arrange(Stack((nothing, words("12")), gap=1), 4, 2, TOY).sizes["12"] == 2


def test_what_may_stand_in_several_ways_stands_in_the_first_of_the_best() -> None:
    wide, high = Beside((words("12"), words("7"))), Stack((words("12"), words("7")))
    assert arrange(OneOf((wide, high)), 20, 4, TOY).spots["7"].box.y == 0
    assert arrange(OneOf((wide, high)), 9, 9, TOY).spots["7"].box.x == 0
    assert arrange(OneOf((high, wide)), 20, 8, TOY).spots["7"].box.x == 0


def test_pages_are_the_fewest_on_which_no_text_is_in_its_least_size() -> None:
    table = Grid(rows(5), gap=1, paged=True)
    assert len(arrange(table, 40, 15, TOY).pages) == 1
    found = arrange(table, 40, 9, TOY)
    assert [len(spots) for spots in found.pages] == [6, 4]
    assert found.sizes == {"key": 3, "name": 3}
    assert len(arrange(table, 8, 9, TOY).pages) == 1, "no number of pages makes it wider"
    assert len(arrange(table, 8, 3, TOY).pages) == 2, "not all stands on fewer"
    assert len(arrange(Grid(rows(5), gap=1), 40, 9, TOY).pages) == 1
    assert len(arrange(table, 40, 9, TOY, most_pages=1).pages) == 1


def test_what_is_left_goes_between() -> None:
    found = arrange(Stack((words("a~"), words("b~")), gap=1, air=2), 9, 9, TOY)
    assert found.spots["b~"].box.y == 1 + 1 + 2
    middle = arrange(Stack((words("a~"), words("b~")), down="middle"), 9, 6, TOY)
    assert [spot.box.y for spot in middle.spots.values()] == [2, 3]


def test_one_name_that_no_letters_have_holds_back_nobody_else() -> None:
    part = Stack((Written("a", "Jo", "name"), Written("b", "a~b", "name")))
    assert arrange(part, 20, 6, TOY).sizes == {"name": 3}


def test_a_group_has_one_role_and_a_cell_one_way() -> None:
    with pytest.raises(ValueError, match="one role"):
        arrange(Stack((Written("a", "a", "g"), Written("b", "b", "g", "detail"))), 9, 9, TOY)
    with pytest.raises(ValueError, match="one way only"):
        arrange(Grid(((OneOf((words("a"), words("b"))),),)), 9, 9, TOY)


def test_how_large_one_could_be_alone() -> None:
    part = Stack((words("12"), words("7")))
    assert Trials((part,), 9, 5, TOY).alone(part, "7") == 4


def test_what_was_laid_out_is_looked_up() -> None:
    arrange.cache_clear()
    for _ in range(3):
        arrange(Stack((words("12"), words("7"))), 9, 5, TOY)
    assert arrange.cache_info().misses == 1


def test_the_letters_of_a_terminal_come_in_these_sizes() -> None:
    assert CELLS.sizes("12:34", 6) == (1, 3, 4, 5, 6)
    assert CELLS.sizes("Ilse", 6) == (1, 3, 5, 6)
    assert CELLS.sizes("\u4e2d", 6) == ()
    assert CELLS.sizes("\u4e2d Ilse 12", 6) == (1, 3, 5, 6), "word by word"
    assert CELLS.sizes("O\u2019Brien", 6) == (1, 3, 5, 6)
    assert CellMeasure(Terminal(dots=None)).sizes("12:34", 6) == (1, 5, 6)
    assert CellMeasure(Terminal(dots=None)).sizes("Ilse", 6) == ()


@pytest.mark.parametrize("dots", ["sextants", "quadrants", "halves", None])
def test_larger_letters_are_never_narrower_and_are_as_wide_as_they_are_measured(
    dots: str | None,
) -> None:
    look = Look(terminal=Terminal(dots=dots))  # type: ignore[arg-type]
    measure = CellMeasure(look.terminal)
    for text in ("Illi", "Wilhelmina", "12+12", "12 box step-over", "O'Brien", "\u4e2d Jo 12"):
        wide = [measure.columns(text, size) for size in measure.sizes(text, 12)]
        assert wide == sorted(wide)
        for size, columns in zip(measure.sizes(text, 12), wide, strict=True):
            assert width(look.letters(text, columns, size)) <= columns
            assert len(look.letters(text, columns, size)) == size


def test_what_is_laid_out_is_drawn() -> None:
    part = Stack((words("ab c", breaks=True), Drawn("bar", "bar", (3, 1), (4, 1))))
    spots = arrange(part, 4, 3, TOY).spots
    drawn = draw_arranged(
        spots,
        4,
        3,
        Look(),
        inks={"ab c": Ink(words="xy", down="top")},
        drawers={"bar": lambda columns, _: Look().text("#", columns)},
    )
    assert plain_text(drawn) == "xy  \n#   \n    "
