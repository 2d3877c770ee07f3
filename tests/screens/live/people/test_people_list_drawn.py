"""The list of who is here is drawn whole, whoever came and however many."""

from collections.abc import Callable
from typing import Any

import pytest

from classclock.screens.canvas.look import Look
from classclock.screens.live.people.people_list_drawing import draw_people_list
from classclock.tally.lanes import Person
from tests.screens.live.people.piece_and_lift import SIZES

HOSTILE = ("[red]Odell[/red]", "\x1b[31mBram", "🦊 Uri", "\u202eleon", "טל")


@pytest.mark.parametrize("size", [(60, 18), (80, 24), (120, 36), (213, 60), (240, 70)])
@pytest.mark.parametrize("people", [1, 12, 26, 40])
async def test_every_size_is_filled_to_the_last_cell_whatever_the_names(
    open_class: Any,
    size: tuple[int, int],
    people: int,
    check_filled: Callable[..., None],
) -> None:
    names = [f"{HOSTILE[number % len(HOSTILE)]} {number}" for number in range(people)]
    here = tuple(
        Person(str(number), name, chr(97 + number % 26)) for number, name in enumerate(names)
    )
    async with open_class(people=here) as coach:
        desk = coach.screen.overlays.people.desk
        desk.open()
        for keys in ("", "<end>", "<space>", "<f7>", "<f7>", "+", "x"):
            if keys:
                desk.sign(keys)
            check_filled(draw_people_list(desk, *size, Look()), *size)


@pytest.mark.parametrize("size", SIZES)
async def test_the_last_of_forty_can_be_reached_and_seen(
    open_class: Any, size: tuple[int, int]
) -> None:
    here = tuple(
        Person(str(number), f"Rider {number}", chr(97 + number % 26)) for number in range(40)
    )
    async with open_class(people=here, size=size) as coach:
        await coach.press("ctrl+p", "end")
        assert "Rider 39" in coach.seen()
        await coach.press("space")
        assert coach.live.record.left.keys() == {"39"}
