"""Who is here, opened over a class: whole use between two pieces, at every size."""

from typing import Any

import pytest

from classclock.clock.source import stamp_now
from tests.screens.live.people.piece_and_lift import LIFT_AND_PIECE, SIZES, asks_who, words


@pytest.mark.parametrize("size", SIZES)
async def test_ctrl_p_is_named_in_the_foot_and_opens_the_list_and_escape_the_board(
    open_class: Any, size: tuple[int, int]
) -> None:
    async with open_class(size=size) as coach:
        await coach.wind(30)  # what had to be read has been
        assert "ctrl+p who" in coach.foot()
        board = coach.seen()
        await coach.press("ctrl+p")
        seen = words(coach.seen())
        assert "3 here" in seen
        assert all(name in seen for name in ("Ilse", "Bram", "Noor"))
        assert "1 lower box" in seen
        assert "2 step-up" in seen
        assert "escape: close" in seen
        await coach.press("escape")
        assert coach.seen().split("\n")[:-1] == board.split("\n")[:-1]


@pytest.mark.parametrize("size", SIZES)
async def test_an_evening_s_changes_between_two_pieces(
    open_class: Any, size: tuple[int, int]
) -> None:
    async with open_class(size=size) as coach:
        await coach.press("enter")
        await coach.wind(10 + 8 * 60 + 4)
        await coach.press("enter")  # the warm-up is over: the board of the piece
        await coach.press("ctrl+p", "b", "space")  # somebody leaves
        assert "2 here, 1 has left" in words(coach.seen())
        await coach.press("n", "2")  # an option
        assert "step-up" in words(coach.seen())
        await asks_who(coach)
        await coach.press(*"Late", "enter")  # a latecomer by name
        assert "3 here, 1 has left" in words(coach.seen())
        await coach.press("ctrl+e", "space", "R", "enter")  # another name
        assert "Late R" in words(coach.seen())
        await coach.press("escape")
        assert {lane.name for lane in coach.live.lineup()} == {"Ilse", "Noor", "Late R"}
        assert "Bram" not in "".join(coach.seen().split("\n")[:-1])
        await coach.wind(2)
        await coach.press("ctrl+p", "b", "space", "escape")  # and back
        assert {lane.name for lane in coach.live.lineup()} == {"Ilse", "Bram", "Noor", "Late R"}
        await coach.press("enter")
        await coach.wind(10)
        assert coach.live.phase == "running"
        (noor,) = (lane for lane in coach.live.record.sheet.lanes if lane.name == "Noor")
        assert noor.options == (2, 0)
        assert {person.name: person.key for person in coach.live.record.people}["Bram"] == "b"


async def test_a_load_is_changed_before_a_lift_and_taken_back(open_class: Any) -> None:
    async with open_class(LIFT_AND_PIECE) as coach:
        await coach.press("ctrl+p", "n", "tab", *"62.5", "enter")
        assert "62.5 kg" in words(coach.seen())
        await coach.press("b", "tab", "2", "colon", *"67.5", "enter")
        loads = {lane.name: [str(one) for one in lane.loads] for lane in coach.live.lineup()}
        assert loads["Noor"] == ["62.5 kg", "62.5 kg"]
        assert loads["Bram"] == ["60 kg", "67.5 kg"]
        await coach.press("n", "tab", "enter")  # nothing typed: as planned
        (noor,) = (lane for lane in coach.live.lineup() if lane.name == "Noor")
        assert "62.5 kg" not in map(str, noor.loads)
        await coach.press("n", "tab", *"heavy", "enter")
        assert '"heavy" is not a load' in coach.foot()


async def test_the_loads_by_name_and_the_options_are_those_of_the_piece_to_come(
    open_class: Any,
) -> None:
    async with open_class(LIFT_AND_PIECE) as coach:
        await coach.press("down", "ctrl+p", "n", "tab", "1")
        assert "lower box, heavier" in words(coach.seen())
        await coach.press("0", "tab", "tab")
        assert "lower box, heavier" not in words(coach.seen())
        assert not any(coach.live.record.choice("Noor", 1).options)
        assert coach.live.record.choice("Noor", 1).load is None


async def test_while_a_piece_runs_ctrl_p_says_what_to_do_instead(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.press("enter", "ctrl+p")
        await coach.reads("the count-in runs: space calls it off")
        await coach.wind(10)
        await coach.wind(30)
        await coach.press("ctrl+p")
        await coach.reads("the clock runs: + adds somebody")
        assert not coach.screen.overlays.people.display
        await coach.press("space")
        await coach.wind(2)
        await coach.press("ctrl+p")
        assert coach.screen.overlays.people.display
        assert "held at" in words(coach.seen())
        await coach.press("escape")
        assert not coach.screen.overlays.people.display


async def test_on_the_last_screen_it_opens_too(open_class: Any) -> None:
    async with open_class() as coach:
        await coach.press("enter")
        await coach.wind(10 + 8 * 60 + 4)
        await coach.press("enter")
        await coach.wind(2)
        await coach.press("enter")
        await coach.wind(10 + 16 * 60 + 4)
        await coach.press("ctrl+p")
        assert "3 here" in words(coach.seen())
        await coach.press("escape")
        for _ in range(5):  # each of three is asked for their odd reps
            await coach.press("enter")
            await coach.wind(2)
        assert coach.live.phase == "closed"
        await coach.press("ctrl+p")
        assert "3 here" in words(coach.seen())
        await coach.press("b", "space", "escape")
        assert "Bram" in coach.live.record.left


async def test_a_key_held_down_opens_the_list_once(open_class: Any) -> None:
    async with open_class() as coach:
        for _ in range(8):
            await coach.press("ctrl+p")
            await coach.wind(0.04)
        assert coach.screen.overlays.people.display


async def test_textual_s_own_palette_does_not_answer(open_class: Any) -> None:
    async with open_class() as coach:
        await coach.press("ctrl+p")
        assert coach.pilot.app.screen is coach.screen
        await coach.wind(2)
        await coach.press("ctrl+p")
        assert coach.pilot.app.screen is coach.screen
        assert not coach.screen.overlays.people.display, "ctrl+p closes it too"


async def test_a_name_that_another_has_is_refused_and_a_comma_makes_two(open_class: Any) -> None:
    async with open_class() as coach:
        await coach.press("ctrl+p")
        await asks_who(coach)
        coach.screen.overlays.people.paste("Bea, Pavel")
        await coach.press("enter")
        names = [person.name for person in coach.live.record.people]
        assert names == ["Ilse", "Bram", "Noor", "Bea", "Pavel"]
        await coach.press("ctrl+e", "ctrl+u", *"Ilse", "enter")
        await coach.reads("there is a Ilse already")
        assert [person.name for person in coach.live.record.people] == names


async def test_a_visitor_comes_and_is_named_later(open_class: Any) -> None:
    async with open_class() as coach:
        await coach.press("ctrl+p")
        await asks_who(coach)
        await coach.press("question_mark", "enter")
        assert "visitor 1" in words(coach.seen())
        visitor = coach.live.record.people[-1]
        await coach.press("ctrl+e", *"Tuva", "enter")
        tuva = coach.live.record.people[-1]
        assert (tuva.id, tuva.name) == (visitor.id, "Tuva")
        assert visitor.visitor
        assert not tuva.visitor


async def test_keys_typed_at_once_are_all_taken(open_class: Any) -> None:
    async with open_class() as coach:
        now = stamp_now()
        for sign in ("<ctrl+p>", "b", "<space>", "<escape>"):
            coach.screen.control.stroke(sign, now)
        await coach.pilot.pause()
        assert coach.live.record.left.keys() == {"Bram"}
        assert not coach.screen.overlays.people.display
