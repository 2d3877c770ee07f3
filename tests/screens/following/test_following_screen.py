"""The room's wall in another terminal: the same as on the class's own screen."""

import asyncio
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest

from classclock.clock.source import WoundSource
from classclock.following.following_words import CANNOT, WAITS, alone_words, where_words
from classclock.following.view_file import view_path
from classclock.machine.terminal import Terminal
from classclock.plan.settings.club import Club, Tv
from classclock.screens.canvas.look import Look
from classclock.screens.following.said_view import draw_said
from classclock.screens.live.class_views import ClassViews
from classclock.screens.live.overlays.keys_overlay import KeysOverlay
from tests.screens.following.conftest import above_the_foot

LIFT = """
title = "Bars"

[[segment]]
name = "Squat"
format = "interval"
repeat = 2
steps = [{ work = "1:00", label = "3 reps" }]
lift = "front squat"
sets = [{ reps = 3, percent = 70 }, { reps = 3, percent = 80 }]
score = "load"
"""


async def alike(coach: Any, room: Any) -> str:
    """Both show the same; what that is."""
    await coach.screen.work.saving.finished()
    coach.screen.show()
    await coach.screen.work.telling.finished()
    await room.looks()
    with suppress(TimeoutError):
        async with asyncio.timeout(20):  # until both are painted
            while room.seen() != above_the_foot(coach.screen):
                await room.pilot.pause()
    seen: str = room.seen()
    assert seen == above_the_foot(coach.screen)
    return seen


@pytest.mark.parametrize("size", [(120, 36), (60, 18)])
async def test_a_whole_class_looks_the_same_from_the_board_to_the_end(
    open_class: Any, open_room: Any, size: tuple[int, int]
) -> None:
    async with open_class(size=size) as coach, open_room(coach.source, size=size) as room:
        assert "segment 1 of 2" in await alike(coach, room)
        await coach.press("down")
        await coach.wind(2)
        assert "segment 2 of 2" in await alike(coach, room)
        await coach.press("tab")
        assert "movement 1 of 1" in await alike(coach, room)
        await coach.press("escape", "enter")
        await alike(coach, room)
        await coach.wind(10)
        for key in "ini":
            await coach.wind(30)
            await coach.press(key)
            await alike(coach, room)
        await coach.press("space")
        held = await alike(coach, room)
        if size[1] > 18:  # the least window has the movements there, and the keys in the foot
            assert "space resumes" in held
        assert "space resumes" in coach.seen()
        await coach.wind(2)
        await coach.press("space")
        await coach.wind(16 * 60)
        await alike(coach, room)
        await coach.wind(3)
        assert "provisional" in await alike(coach, room)
        await coach.press("n")
        await alike(coach, room)
        await coach.press("5", "n", "*", "enter")
        await alike(coach, room)
        assert room.screen.query_one(ClassViews).current == "summary"


async def test_what_is_typed_is_seen_once_it_counts(open_class: Any, open_room: Any) -> None:
    async with open_class(segment=1) as coach, open_room(coach.source) as room:
        await coach.start()
        await coach.wind(20)
        before = await alike(coach, room)
        await coach.press("1", "2")
        assert above_the_foot(coach.screen) != before, "the coach sees what is typed"
        assert await room.looks() == before
        await coach.press("n")
        assert await alike(coach, room) != before


async def test_a_page_turned_by_hand_and_the_turns_by_themselves(
    open_class: Any, open_room: Any
) -> None:
    names = tuple(f"{name}{number}" for name in ("Ana", "Bo", "Cy", "Di") for number in range(4))
    async with open_class(LIFT, names=names) as coach, open_room(coach.source) as room:
        await coach.screen.work.read_ahead()
        await room.screen._shown._ahead.finished()
        first = await alike(coach, room)
        await coach.wind(8)
        second = await alike(coach, room)
        assert second != first
        await coach.press("left")
        assert lanes(await alike(coach, room)) == lanes(first)
        await coach.wind(80)
        assert lanes(await alike(coach, room)) == lanes(first)


async def test_who_shares_and_starts_where_stands_there_too(
    open_class: Any, open_room: Any
) -> None:
    club = Club.model_validate({"equipment": {"boxes": 1}})
    async with (
        open_class(club=club, segment=1) as coach,
        open_room(coach.source, club=club) as room,
    ):
        await coach.press("ctrl+t")
        await coach.screen.work.telling.finished()
        await room.looks()
        assert not room.screen._share.display, "what may be chosen is the coach's alone"
        await coach.press("1")
        await alike(coach, room)
        assert room.screen._share.display
        await coach.press("escape")
        await alike(coach, room)
        assert not room.screen._share.display


async def test_a_key_that_counts_tells_nothing_beside_its_event(open_class: Any) -> None:
    """What the room sees and no event says is written when it changes: never for a tap."""
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.screen.work.reading.finished()  # the book: that it is read is told
        await coach.pilot.pause()
        await coach.screen.work.telling.finished()
        view = view_path(coach.session.journal.path)
        before = view.stat()
        for number in range(30):
            await coach.wind(5)
            await coach.press("ibn"[number % 3])
        await coach.press("5", "n", "minus", "n", "space")
        await coach.wind(2)
        await coach.press("space")
        await coach.screen.work.telling.finished()
        assert view.stat().st_ino == before.st_ino
        assert view.stat().st_mtime_ns == before.st_mtime_ns


@pytest.mark.parametrize("size", [(240, 70), (120, 36), (60, 18), (30, 5)])
@pytest.mark.parametrize("terminal", [Terminal(), Terminal(16, None)])
def test_what_is_said_fills_its_box_at_every_size(
    check_filled: Any, size: tuple[int, int], terminal: Terminal
) -> None:
    look = Look(terminal=terminal)
    said = (alone_words("running"), alone_words("board"), WAITS, CANNOT)
    for words in said:
        check_filled(draw_said(words, where_words(Path("/depot")), *size, look), *size)


def lanes(seen: str) -> list[str]:
    """All but the row that says how much of the class is left."""
    return seen.split("\n")[:-1]


async def test_the_emergency_card_is_up_as_long_as_the_coach_has_it(
    open_class: Any, open_room: Any, tmp_path: Path
) -> None:
    (tmp_path / "club.toml").write_text('[emergency]\naddress = "0 Points Row"\n', "utf-8")
    async with open_class(segment=1) as coach, open_room(coach.source) as room:
        await coach.press("!")
        shown = await seen_after_telling(coach, room)
        assert room.screen._card.display
        assert room.screen._card.card.address == "0 Points Row"
        await coach.press("escape")
        assert await seen_after_telling(coach, room) != shown
        assert not room.screen._card.display


async def seen_after_telling(coach: Any, room: Any) -> str:
    await coach.screen.work.telling.finished()
    seen: str = await room.looks()
    return seen


async def test_what_the_room_may_not_read_stays_on_the_coach_s_screen(
    open_class: Any, open_room: Any
) -> None:
    """A TV that is no mirror shows the coach why a score was corrected; this one never does."""
    club = Club(tv=Tv(mirrored=False))
    async with (
        open_class(club=club, segment=1) as coach,
        open_room(coach.source, club=club) as room,
    ):
        await coach.start()
        await coach.wind(30)
        await coach.press("i")
        await coach.wind(16 * 60 + 4)
        await coach.press("i", "f9", *"3+0", "tab", *"miscounted", "enter")
        await coach.screen.work.telling.finished()
        await room.looks()
        assert "miscounted" in coach.seen()
        assert "miscounted" not in room.seen()


async def test_it_takes_no_keys_but_those_that_leave_and_its_help(
    open_class: Any, open_room: Any
) -> None:
    async with open_class(segment=1) as coach, open_room(coach.source) as room:
        events = coach.session.journal.number
        for key in ("enter", "space", "i", "down", "+", "!", "f8", "escape", "tab", "="):
            await room.pilot.press(key)
        assert coach.session.journal.number == events
        help_ = room.screen.query_one(KeysOverlay)
        await room.pilot.press("?")
        assert help_.display
        await room.pilot.press("escape")
        assert not help_.display
        await room.pilot.press("ctrl+c")
        await room.pilot.pause()
        assert room.pilot.app.return_value == "left"


async def test_it_waits_goes_on_to_the_next_class_and_waits_again(
    open_class: Any, open_room: Any, tmp_path: Path
) -> None:
    source = WoundSource()
    async with open_room(source) as room:
        waiting = await room.looks()
        assert "classclock run starts one" in waiting
        for _ in range(2):
            async with open_class(source=source) as coach:
                assert "segment 1 of 2" in await alike(coach, room)
                coach.screen.leave()
                await coach.pilot.pause()
            assert await room.looks() == waiting


async def test_a_class_that_nobody_runs_any_more_is_said_to_be(
    open_class: Any, open_room: Any
) -> None:
    async with open_class(segment=1) as coach, open_room(coach.source) as room:
        await coach.start()
        await alike(coach, room)
        coach.session.close()  # its process is gone, and told nobody
        await room.looks(1)
        assert not room.screen._alone.display
        await room.looks(2)
        assert room.screen._alone.display
        assert "the clock goes on" in room.screen._alone.words
        before = room.screen.query_one(ClassViews).started._wall.content.clock
        await coach.wind(5)
        await room.looks()
        assert room.screen.query_one(ClassViews).started._wall.content.clock != before
