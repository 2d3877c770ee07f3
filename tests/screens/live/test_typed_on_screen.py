"""What is typed in a class, and who comes in by it."""

import asyncio
from typing import Any

from textual.events import Paste

from classclock.screens.live.overlays.name_entry import NameEntry
from classclock.screens.live.wall.wall_view import WallView
from tests.screens.live.seen_in_class import tallies


async def test_what_is_pending_stands_large_and_lapses(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.press("1", "2")
        pending = coach.screen.overlays.pending
        assert (pending.text, pending.display) == ("12", True)
        await coach.wind(4.1)
        assert not pending.display
        assert "12 lapsed after 4 s" in coach.foot()


async def test_a_held_key_counts_once_and_the_screen_says_so(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(30)
        await coach.press("n")
        for _ in range(5):
            await coach.wind(0.035)
            await coach.press("n")
        assert tallies(coach)["Noor"] == "1"
        assert "again within 1.2 s: not counted" in coach.foot()


async def test_under_the_keys_and_the_card_taps_still_count(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(30)
        await coach.press("question_mark", "n")
        assert coach.screen.overlays.keys.display
        await coach.press("escape", "exclamation_mark", "i")
        assert coach.screen.overlays.card.display
        assert coach.live.phase == "held"
        assert tallies(coach) == {"Ilse": "1", "Bram": "0", "Noor": "1"}


async def test_enter_on_the_card_never_ends_the_segment(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(30)
        await coach.press("f2", "enter")
        await coach.press(*"Odell", "enter")
        assert coach.live.phase == "held"
        assert "Odell" not in coach.seen()
        journal = coach.session.journal.path.read_text("utf-8")
        assert "Odell" in journal


async def test_someone_late_gets_a_lane_at_once(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(30)
        await coach.press("plus", *"Tuva", "enter")
        assert tallies(coach)["Tuva"] == "0"
        await coach.wind(30)
        await coach.press("t")
        assert tallies(coach)["Tuva"] == "1"


async def test_two_people_of_one_name_are_kept_apart(open_class: Any) -> None:
    async with open_class() as coach:
        await coach.press("plus", *"Noor", "enter")
        assert len(coach.live.record.people) == 3
        assert "with an initial" in coach.foot()


async def test_two_spellings_of_one_name_are_kept_apart(open_class: Any) -> None:
    async with open_class(names=("Ilse", "Zo\u00eb")) as coach:
        coach.screen.post_message(NameEntry.Named("Zoe\u0308"))
        await coach.pilot.pause()
        assert len(coach.live.record.people) == 2
        assert "there is a Zo\u00eb already: + again, with an initial" in coach.foot()


async def test_several_who_come_late_stand_in_one_line(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.press("plus", *"Tuva", "comma", *"Uri", "enter")
        assert set(tallies(coach)) == {"Ilse", "Bram", "Noor", "Tuva", "Uri"}
        assert "Tuva joined late, key t; Uri joined late, key u" in coach.foot()
        await coach.press("plus", *"Vera", "comma", *"tuva", "enter")
        assert len(coach.live.record.people) == 5


async def test_a_pasted_name_that_would_steer_the_terminal_is_refused_in_words(
    open_class: Any,
) -> None:
    async with open_class() as coach:
        await coach.press("plus")
        coach.screen.post_message(Paste("Tuva\x1b]0;OWNED\x07"))
        await coach.pilot.pause()
        assert "what was pasted holds a character that can't be shown" in coach.foot()
        assert coach.screen.overlays.name.text == ""


async def test_text_of_hostile_names_is_plain_text(open_class: Any) -> None:
    names = ("[red]Odell[/red]", "\x1b[31mBram", "\u202eNoor", "🦊 Uri")
    async with open_class(segment=1, names=names) as coach:
        await coach.start()
        lanes = coach.screen.query_one(WallView).lanes
        assert [lane.name for lane in lanes][:2] == ["[red]Odell[/red]", "\\x1b[31mBram"]
        assert "\x1b" not in coach.seen()
        assert "\u202e" not in coach.seen()


async def test_the_autopilot_types_as_a_coach_does(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(60)
        coach.screen.press("n")
        await asyncio.sleep(0)
        await coach.pilot.pause()
        assert tallies(coach)["Noor"] == "1"
