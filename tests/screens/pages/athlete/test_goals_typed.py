"""Goals on an athlete's page: shown to the room and to the coach, typed, asked about, ended."""

import json
from pathlib import Path
from typing import Any

import pytest

from classclock.book.changing import write_down
from classclock.book.files.changes import MarkSet
from classclock.clock.source import local_now
from classclock.commands.command_line import main
from classclock.screens.canvas.look import Look
from classclock.screens.pages.athlete.athlete_screen import AthleteScreen
from classclock.screens.pages.athlete.athlete_wall_drawing import laid_out


@pytest.fixture
def page(open_page: Any, two_classes: Path) -> Any:
    def opened(who: str = "ilse", *, mirrored: bool = False) -> Any:
        screen = AthleteScreen(
            Look(), who, folder=two_classes, mirrored=mirrored, benchmark="turntable"
        )
        return open_page(screen)

    return opened


def goals(folder: Path, capsys: Any, who: str = "Ilse") -> list[dict[str, Any]]:
    assert main(["goal", who, "--json", "--club", str(folder)]) == 0
    found: list[dict[str, Any]] = json.loads(capsys.readouterr().out)
    return found


async def typed(coach: Any, text: str) -> None:
    named = {" ": "space", "+": "plus_sign", "-": "minus"}
    await coach.press("g", *(named.get(sign, sign) for sign in text), "enter")
    await coach.read()


async def test_a_goal_is_typed_shown_and_kept(page: Any, two_classes: Path, capsys: Any) -> None:
    async with page() as coach:
        await typed(coach, "8+2 by 2099-03-01")
        assert "kept: classclock book undo takes it back" in coach.seen
        assert "turntable 8+2 by 1 March 2099 (as written; 16:00)" in coach.seen
        assert "25 reps to go, best 7+4 of 17 November 2026" in coach.seen
    (goal,) = goals(two_classes, capsys)
    assert (goal["goal"], goal["by"]) == ("8+2", "2099-03-01")


async def test_it_is_typed_with_an_option(page: Any, two_classes: Path, capsys: Any) -> None:
    async with page("bram") as coach:
        await typed(coach, "9 with step-up")
        assert "turntable 9+0 (step-up; 16:00)" in coach.seen
    assert goals(two_classes, capsys, "Bram")[0]["modification"] == "step-up"


async def test_what_cant_be_meant_is_said_and_stays_to_be_put_right(
    page: Any, two_classes: Path, capsys: Any
) -> None:
    async with page() as coach:
        await typed(coach, "soon")
        assert "write rounds and odd reps, as in 7+12" in coach.seen
        assert "soon_" in coach.seen
        await coach.press("escape")
        assert "soon_" not in coach.seen
    assert goals(two_classes, capsys) == []


async def test_one_no_better_than_the_best_is_asked_about(
    page: Any, two_classes: Path, capsys: Any
) -> None:
    async with page() as coach:
        await typed(coach, "6")
        assert "Ilse's best so is 7+4 of 17 November 2026, and 6+0 is no better" in coach.seen
        await coach.press("enter")  # the key that raised it answers nothing
        assert "All the same?" in coach.seen
        await coach.press("escape")
    assert goals(two_classes, capsys) == []
    async with page() as coach:
        await typed(coach, "6")
        await coach.press("y")
        await coach.read()
        assert "kept" in coach.seen
    assert goals(two_classes, capsys)[0]["goal"] == "6+0"


async def test_emptied_it_ends(page: Any, two_classes: Path, capsys: Any) -> None:
    async with page() as coach:
        await typed(coach, "9")
        await coach.press("g")
        assert "9+0_" in coach.seen
        await coach.press("enter")  # as it was: nothing is changed
        await coach.press("g", "ctrl+u", "enter")
        await coach.read()
        assert "Works towards" not in coach.seen
    assert goals(two_classes, capsys) == []


async def test_the_room_reads_a_goal_but_of_who_keeps_bests_off_the_wall(
    page: Any, two_classes: Path
) -> None:
    assert main(["goal", "Ilse", "turntable", "9", "--club", str(two_classes)]) == 0
    async with page(mirrored=True) as coach:
        desk = coach.page.desk
        laid = laid_out(desk, desk.book.page, 118, 36, Look())
        spot = laid.spots["goal"]
        assert "".join(spot.lines).startswith("goal 9+0: 1 round and 23 reps")
        assert spot.size >= 3
    write_down(two_classes, [MarkSet(athlete="ilse", mark="off the wall", on=True)], local_now())
    async with page(mirrored=True) as coach:
        await coach.press("g")
        assert "F7 first: they keep what they work towards off the wall" in coach.seen
