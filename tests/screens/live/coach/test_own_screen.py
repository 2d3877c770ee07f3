"""ctrl+w: the room's wall, or the coach's own screen; the class goes on alike under both."""

import json
from typing import Any

import pytest
from textual.pilot import Pilot

from classclock.following.view_file import view_path
from classclock.machine.terminal import Terminal
from classclock.plan.settings.club import Club, Tv
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import SIXTEEN
from classclock.screens.live.class_views import ClassViews
from classclock.screens.live.overlays.note_entry import NoteEntry
from classclock.screens.live.overlays.screen_question import ScreenQuestion
from classclock.tally import events as ev
from classclock.tally.lanes import Person
from tests.screens.conftest import CARD

ASKED = "The coach's own screen shows marks"
ENTRIES = "Last entries"
SIXTEEN_COLOURS = Look(SIXTEEN, Terminal(colours=16))
PEOPLE = (
    Person("i1", "Ilse", "i", marks=("under 18",)),
    Person("b1", "Bram", "b"),
    Person("n1", "Noor", "n"),
)


def up(coach: Any) -> str:
    """Which view is up."""
    current: str = coach.screen.query_one(ClassViews).current
    return current


def asks(coach: Any) -> bool:
    return bool(coach.screen.query_one(ScreenQuestion).display)


async def again(coach: Any) -> None:
    """ctrl+w, once the guard against a key that is held down lets it through."""
    await coach.wind(1.3)
    await coach.press("ctrl+w")


async def test_it_asks_once_whether_the_tv_shows_this_screen(open_class: Any) -> None:
    async with open_class(people=PEOPLE) as coach:
        await coach.press("ctrl+w")
        assert asks(coach)
        assert ASKED in coach.seen()
        assert "under 18" not in coach.seen()
        await coach.press("f7")
        assert not asks(coach)
        assert up(coach) == "coach"
        assert "under 18" in coach.seen()
        for view in ("board", "coach", "board"):
            await again(coach)
            assert not asks(coach), "it has been said"
            assert up(coach) == view


@pytest.mark.parametrize("answer", ["escape", "enter"])
async def test_left_or_answered_with_yes_all_is_as_it_was(open_class: Any, answer: str) -> None:
    async with open_class(people=PEOPLE) as coach:
        before = coach.live.record, coach.seen()
        await coach.press("ctrl+w", answer)
        assert not asks(coach)
        assert (coach.live.record, coach.seen()) == before
        assert up(coach) == "board"
        await again(coach)
        assert asks(coach), "there may be another screen by now"


async def test_the_key_that_raised_it_letters_and_numbers_go_through_the_question(
    open_class: Any,
) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.press("ctrl+w")
        await again(coach)
        assert asks(coach)
        assert up(coach) == "wall"
        await coach.press("n", "1", "2", "i")
        told = [type(one).__name__ for one in coach.session.journal.events[-2:]]
        assert told == ["Tapped", "Numbered"]
        assert asks(coach)
        await coach.press("f7")
        assert up(coach) == "coach"
        assert "Noor, a tap" in coach.seen()


async def test_where_the_club_says_so_it_is_there_from_the_start_and_nothing_is_asked(
    open_class: Any,
) -> None:
    club = Club(tv=Tv(mirrored=False), emergency=CARD)
    async with open_class(club=club, people=PEOPLE) as coach:
        assert up(coach) == "coach"
        assert "under 18" in coach.seen()
        await coach.press("ctrl+w")
        assert up(coach) == "board"
        assert not asks(coach)


async def test_the_class_runs_alike_under_it_from_the_board_to_the_end(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.press("ctrl+w", "f7")
        assert "Ready: enter starts" in coach.seen()
        await coach.start()
        assert "No entry yet" in coach.seen()
        await coach.wind(60)
        await coach.press("n")
        assert ENTRIES in coach.seen()
        assert "Noor, round 1" in coach.foot()
        await coach.wind(60)
        await coach.press("i")
        assert "-n" in coach.seen(), "what takes Noor's back"
        await coach.press("minus", "n")
        assert "Noor, a tap" not in coach.seen()
        await coach.press("space")
        assert coach.live.phase == "held"
        assert "space resumes" in coach.seen()
        await coach.wind(2)
        await coach.press("space")
        await coach.wind(16 * 60)
        await coach.wind(3)
        assert "Ask next" in coach.seen()
        await coach.press("i")
        await coach.press("5", "n")
        await coach.press("asterisk", "enter")
        assert coach.live.phase == "closed"
        assert "Turntable 1+0" in coach.seen()
        assert up(coach) == "coach"


async def test_the_digits_go_on_under_both(open_class: Any) -> None:
    async with open_class(segment=1, look=SIXTEEN_COLOURS) as coach:
        await coach.press("ctrl+w", "f7")
        await coach.start()
        await coach.wind(5)
        view = coach.screen.query_one("#coach")
        assert view.content.head.clock == "15:55"
        await coach.wind(1)
        assert view.content.head.clock == "15:54"
        await again(coach)
        wall = coach.screen.query_one("#wall")
        assert wall.content.clock == "15:53"


async def test_what_it_uncovers_is_covered_again_with_the_wall(open_class: Any) -> None:
    async with open_class(people=PEOPLE) as coach:
        await coach.press("ctrl+w", "f7", "ctrl+p")
        assert coach.screen.overlays.people.display
        assert not coach.screen.overlays.people.desk.people.mirrored
        await again(coach)
        assert coach.screen.overlays.people.display
        assert coach.screen.overlays.people.desk.people.mirrored
        for one in (coach.screen.overlays.note, coach.screen.overlays.card):
            assert one.mirrored


async def test_in_a_line_that_is_typed_it_takes_out_a_word(open_class: Any) -> None:
    async with open_class() as coach:
        await coach.press("ctrl+e", *"Noor", "colon", *"left", "space", *"knee", "ctrl+w")
        assert coach.screen.query_one(NoteEntry).text == "Noor:left "
        assert not asks(coach)
        await coach.press("ctrl+w")
        assert coach.screen.query_one(NoteEntry).text == ""


async def test_a_note_is_read_there_at_once_and_the_room_is_told_nothing_of_it(
    open_class: Any,
) -> None:
    async with open_class(people=PEOPLE) as coach:
        await coach.screen.work.reading.finished()
        told = coach.screen._room_view()
        await coach.press("ctrl+w", "f7")
        await coach.press("ctrl+e", *"Noor", "colon", *"left", "space", *"knee", "enter")
        assert isinstance(coach.session.journal.events[-1], ev.Noted)
        assert "note: left knee" in coach.seen()
        assert coach.screen._room_view() == told
        await coach.screen.work.telling.finished()
        path = view_path(coach.session.journal.path)
        view = json.dumps(json.loads(path.read_text("utf-8")))
        assert "knee" not in view
        assert "under 18" not in view


async def test_pages_of_scores_turn_for_the_room_behind_it(open_class: Any) -> None:
    names = tuple(f"{letter}{'aeiou'[n % 5]}n" for n, letter in enumerate("BCDFGHJKLMNPQRST"))
    club = Club(tv=Tv(mirrored=False), emergency=CARD)
    async with open_class(segment=1, names=names, club=club, size=(60, 18)) as coach:
        await coach.start()
        await coach.wind(16 * 60 + 5)
        await coach.press("asterisk", "enter")
        pages = coach.screen.shown.views.started.pages
        assert pages > 1
        before = coach.screen.shown.guide.page_keys.turns
        await coach.press("right")
        turns = coach.screen.shown.guide.page_keys.turns
        assert turns != before
        assert turns.page.by_hand
        assert turns.page.among == pages


@pytest.mark.parametrize("size", [(60, 18), (80, 24), (213, 60)])
async def test_everybody_is_there_whatever_the_window(
    open_class: Any, size: tuple[int, int]
) -> None:
    names = tuple(f"{letter}an" for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZ")
    async with open_class(segment=1, names=names, size=size, look=SIXTEEN_COLOURS) as coach:
        await coach.press("ctrl+w", "f7")
        await coach.start()
        pilot: Pilot[str] = coach.pilot
        view = coach.screen.query_one("#coach")
        shown = [row for row in view._rows if row.is_on_screen and row.region.area]
        assert len(shown) == 26
        assert all(row.region.bottom < size[1] for row in shown)
        await pilot.resize_terminal(120, 36)
        await pilot.pause()
        assert len([row for row in view._rows if row.region.area]) == 26
