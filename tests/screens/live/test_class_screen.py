"""A class on its screen: keys, the clock, what is shown, what is saved."""

import asyncio
import json
from pathlib import Path
from typing import Any

import pytest
from textual.events import Paste, Resize
from textual.geometry import Region, Size

from classclock.plan.settings.club import Club, Keyboard
from classclock.screens.canvas.held_resize import HeldResize
from classclock.screens.live.class_views import ClassViews
from classclock.screens.live.foot.time_line import TimeLine
from classclock.screens.live.overlays.name_entry import NameEntry
from classclock.screens.live.wall.big_clock import BigClock
from classclock.screens.live.wall.lane_row import LaneRow
from classclock.screens.live.wall.wall_view import WallView

INTERVALS = """
title = "Sandbox"
[[segment]]
name = "Sandbox"
format = "interval"
repeat = 3
steps = [{ work = "0:20" }, { rest = "0:10", label = "breathe" }]
score = "total"
"""


def view(coach: Any) -> str | None:
    current: str | None = coach.screen.query_one(ClassViews).current
    return current


def content(coach: Any) -> Any:
    return coach.screen.query_one(WallView).content


def tallies(coach: Any) -> dict[str, str]:
    return {lane.name: lane.tally for lane in coach.screen.query_one(WallView).lanes}


def status(coach: Any) -> str:
    """The last line, as it can be read."""
    last: str = coach.seen().split("\n")[-1]
    return last


# -- from the board to the end ---------------------------------------------------------


async def test_enter_counts_in_and_go_shows_the_wall(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        assert view(coach) == "board"
        await coach.press("enter")
        assert (view(coach), content(coach).clock) == ("wall", "10")
        assert content(coach).emphasis == "GET READY"
        await coach.wind(7.5)
        assert content(coach).clock == "3"
        await coach.wind(2.5)
        assert content(coach).clock == "16:00"
        assert tallies(coach) == {"Ilse": "0", "Bram": "0", "Noor": "0"}


async def test_a_letter_is_a_round_on_that_lane(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(60)
        await coach.press("n")
        assert tallies(coach) == {"Ilse": "0", "Bram": "0", "Noor": "1"}
        assert "Noor, round 1, 1:00" in status(coach)


async def test_only_the_lane_that_changed_is_painted_anew(
    open_class: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    painted: list[str] = []
    repaint = LaneRow.repaint

    def watched(row: LaneRow) -> None:
        painted.append(row.content.name if row.content else "")
        repaint(row)

    monkeypatch.setattr(LaneRow, "repaint", watched)
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(60)
        await coach.press("i")
        await coach.wind(60)
        await coach.press("i")
        painted.clear()
        await coach.press("n")
        assert painted == ["Noor"]


async def test_a_tick_repaints_only_the_digits_that_changed(
    open_class: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    refreshed: list[Region] = []

    def watched(_: BigClock, *regions: Region) -> None:
        refreshed.extend(regions)

    async with open_class() as coach:
        await coach.start()
        await coach.wind(3)
        clock = coach.screen.query_one(BigClock)
        assert clock.face.text == "7:57"
        monkeypatch.setattr(BigClock, "refresh", watched)
        await coach.wind(1)
        assert clock.face.text == "7:56"
        (changed,) = refreshed
        assert clock.size.width / 2 < changed.x  # the 6, and neither the 7 nor the 5
        assert 0 < changed.width < clock.size.width / 3


async def test_the_wall_stays_while_a_late_call_still_counts_then_come_the_scores(
    open_class: Any,
) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(16 * 60)
        assert (view(coach), content(coach).clock) == ("wall", "0:00")
        assert (content(coach).emphasis, content(coach).inverted) == ("TIME", True)
        await coach.wind(2)
        await coach.press("n")
        assert tallies(coach)["Noor"] == "1"
        await coach.wind(1.5)
        assert view(coach) == "settle"


async def test_the_end_is_shown_steadily_and_not_for_longer_than_two_seconds(
    open_class: Any,
) -> None:
    async with open_class() as coach:
        await coach.start()
        await coach.wind(8 * 60)
        shown = []
        for _ in range(12):
            shown.append(content(coach).inverted)
            await coach.wind(0.25)
        assert shown == [True] * 8 + [False] * 4  # one change: nothing flashes


async def test_an_unscored_segment_stays_on_the_wall_until_enter(open_class: Any) -> None:
    async with open_class() as coach:
        await coach.start()
        await coach.wind(9 * 60)
        assert view(coach) == "wall"
        assert content(coach).hint == "enter: next, Turntable"
        await coach.press("enter")
        assert view(coach) == "board"
        assert coach.live.record.chosen.segment == 1


async def test_after_the_last_segment_comes_the_end_of_the_class(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(17 * 60)
        for _ in range(2):  # the first names who is unsettled
            await coach.press("enter")
            await coach.wind(2)
        assert view(coach) == "summary"


# -- the clock -------------------------------------------------------------------------


async def test_held_is_unmistakable_and_says_how_to_go_on(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(60)
        await coach.press("space")
        await coach.wind(30)
        assert (content(coach).emphasis, content(coach).clock) == ("HELD", "15:00")
        assert "space resumes" in coach.seen()
        await coach.press("space")
        await coach.wind(2)
        assert (content(coach).emphasis, content(coach).clock) == ("", "14:58")


async def test_an_interval_says_which_it_is_and_what_is_left_in_all(open_class: Any) -> None:
    async with open_class(INTERVALS) as coach:
        await coach.start()
        await coach.wind(5)
        now = content(coach)
        assert (now.clock, now.emphasis, now.progress) == ("0:15", "WORK", "1 of 3")
        assert now.total_left == "1:15 left in all"
        await coach.wind(15)
        await coach.wind(5)
        assert (content(coach).clock, content(coach).emphasis) == ("0:05", "BREATHE")


async def test_a_cue_has_its_word_beside_the_clock_for_two_seconds(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(7 * 60 + 59)
        await coach.wind(1)
        assert content(coach).emphasis == "HALFWAY"
        await coach.wind(2.1)
        assert content(coach).emphasis == ""


async def test_everybody_in_says_that_it_ends_by_itself(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(60)
        for key in "ibn":
            await coach.press("full_stop", key)
            await coach.wind(0.5)
        assert content(coach).emphasis == "ALL IN"
        assert "enter ends it now" in status(coach)
        await coach.wind(2)
        await coach.press("enter")
        assert view(coach) == "settle"


# -- sound -----------------------------------------------------------------------------


async def test_the_count_in_is_handed_to_the_loudspeaker_ahead(open_class: Any) -> None:
    async with open_class() as coach:
        await coach.press("enter")
        await coach.wind(6)
        kinds = [cue.kind for cue in coach.speaker.scheduled]
        assert kinds == ["short", "short"]
        await coach.wind(2.5)
        assert [cue.kind for cue in coach.speaker.scheduled][-2:] == ["short", "go"]


async def test_a_hold_silences_what_was_scheduled(open_class: Any) -> None:
    async with open_class() as coach:
        await coach.start()
        await coach.wind(8 * 60 - 61)
        assert coach.speaker.scheduled
        await coach.press("space")
        assert coach.speaker.scheduled == []


async def test_the_sound_is_checked_muted_and_turned_by_keys(open_class: Any) -> None:
    async with open_class() as coach:
        await coach.press("f4")
        assert coach.speaker.muted
        assert "sound off" in status(coach)
        await coach.press("f4", "f5")
        assert not coach.speaker.muted
        assert coach.speaker.volume == 70
        await coach.press("f6")
        assert coach.speaker.volume == 80
        await coach.press("f3")
        assert [cue.kind for cue in coach.speaker.scheduled] == ["short"] * 3 + ["go"]


async def test_no_sound_check_disturbs_a_running_clock(open_class: Any) -> None:
    async with open_class() as coach:
        await coach.start()
        ahead = list(coach.speaker.scheduled)
        await coach.press("f3")
        assert coach.speaker.scheduled == ahead
        assert "check the sound before the start" in status(coach)


# -- what is typed ---------------------------------------------------------------------


async def test_what_is_pending_stands_large_and_lapses(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.press("1", "2")
        pending = coach.screen.overlays.pending
        assert (pending.text, pending.display) == ("12", True)
        await coach.wind(4.1)
        assert not pending.display
        assert "12 lapsed after 4 s" in status(coach)


async def test_a_held_key_counts_once_and_the_screen_says_so(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(30)
        await coach.press("n")
        for _ in range(5):
            await coach.wind(0.035)
            await coach.press("n")
        assert tallies(coach)["Noor"] == "1"
        assert "again within 1.2 s: not counted" in status(coach)


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
        assert "with an initial" in status(coach)


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


# -- leaving, clicking, the window -----------------------------------------------------


async def test_leaving_asks_first_and_no_letter_answers(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(30)
        await coach.press("ctrl+q", "n")
        assert coach.screen.is_current
        assert tallies(coach)["Noor"] == "1"
        await coach.press("escape")
        await coach.wind(2)
        await coach.press("ctrl+c")
        assert coach.screen.is_current
        await coach.press("enter")
        assert coach.pilot.app.return_value == "left"


async def test_a_click_selects_and_taps_only_where_the_club_wants_it(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(30)
        await coach.pilot.click(LaneRow)
        assert coach.screen.shown.views.selected == "Ilse"
        assert tallies(coach)["Ilse"] == "0"
    async with open_class(segment=1, club=Club(keyboard=Keyboard(click_taps=True))) as coach:
        await coach.start()
        await coach.wind(30)
        await coach.pilot.click(LaneRow)
        assert tallies(coach)["Ilse"] == "1"


async def test_a_click_on_its_sign_opens_the_card(open_class: Any) -> None:
    async with open_class() as coach:
        row, column = 35, status(coach).index("! emergency card")
        await coach.pilot.click(offset=(column + 2, row))
        assert coach.screen.overlays.card.display


async def test_a_terminal_that_lost_the_focus_says_that_keys_go_elsewhere(open_class: Any) -> None:
    async with open_class() as coach:
        coach.pilot.app.app_focus = False
        await coach.pilot.pause()
        assert "keys don't reach the clock" in coach.seen()
        coach.pilot.app.app_focus = True
        await coach.pilot.pause()
        assert "keys don't reach the clock" not in coach.seen()


async def test_a_window_too_small_says_what_it_needs(open_class: Any) -> None:
    async with open_class(size=(50, 12)) as coach:
        seen = " ".join(coach.seen().split())
        assert "needs 60 columns and 18 rows; this window has 50 x 12" in seen


@pytest.mark.parametrize("size", [(60, 18), (80, 24), (120, 36), (213, 60), (240, 70)])
@pytest.mark.parametrize("people", [1, 8, 26])
async def test_every_lane_is_on_the_wall_at_every_size(
    open_class: Any, size: tuple[int, int], people: int
) -> None:
    names = tuple(f"P{number:02}" for number in range(people))
    async with open_class(segment=1, size=size, names=names) as coach:
        await coach.start()
        shown = [row for row in coach.screen.query(LaneRow) if row.size.area]
        assert len(shown) == people
        screen = coach.screen.region
        assert all(row.region in screen and row.region.bottom < size[1] for row in shown)


async def test_a_window_made_larger_in_the_middle_is_filled_anew(open_class: Any) -> None:
    async with open_class(segment=1, size=(80, 24)) as coach:
        await coach.start()
        await coach.pilot.resize_terminal(213, 60)
        await coach.pilot.pause()
        rows = [row for row in coach.screen.query(LaneRow) if row.size.area]
        assert rows[0].size.width > 150


# -- the time of day, and the files ----------------------------------------------------


async def test_the_minutes_over_are_always_in_view(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        assert "18:20  ends 19:00" in status(coach)
        await coach.wind(43 * 60)
        assert coach.screen.query_one(TimeLine).words.over
        assert "19:03  3 min over" in status(coach)


async def test_the_results_are_saved_at_the_cap_without_any_key(
    open_class: Any, tmp_path: Path
) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(60)
        await coach.press("n")
        await coach.wind(15 * 60)
        await coach.screen.work.saving.finished()
        saved = list((tmp_path / "results").glob("*.json"))
        assert len(saved) == 1
        piece = json.loads(saved[0].read_text("utf-8"))["pieces"][0]
        assert piece["status"] == "provisional"


async def test_files_that_cannot_be_saved_stand_as_a_trouble_until_they_are(
    open_class: Any, tmp_path: Path
) -> None:
    async with open_class(segment=1) as coach:
        (tmp_path / "results").write_text("in the way")
        await coach.start()
        await coach.wind(16 * 60)
        await coach.screen.work.saving.finished()
        await coach.wind(1)
        await coach.reads("F8 saves elsewhere: the results aren't on disk")
        (tmp_path / "results").unlink()
        await coach.wind(6)
        await coach.screen.work.saving.finished()
        await coach.wind(1)
        assert "F8 saves elsewhere" not in coach.seen()


async def test_another_place_is_offered_while_there_is_trouble(
    open_class: Any, tmp_path: Path
) -> None:
    async with open_class(segment=1) as coach:
        await coach.press("f8")
        assert "all is on disk" in status(coach)
        (tmp_path / "results").write_text("in the way")
        await coach.start()
        await coach.wind(16 * 60)
        await coach.screen.work.saving.finished()
        await coach.press("f8")
        coach.screen.overlays.place.text = str(tmp_path / "stick")
        await coach.press("enter")
        assert list((tmp_path / "stick" / "results").glob("*.json"))
        assert "saved in" in coach.seen()


async def test_after_a_restart_the_clock_is_checked_and_set_by_keys(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(60)
        coach.session.check_clock = True
        await coach.press("right")
        await coach.wind(0.1)
        assert "the clock was set" in status(coach)
        assert content(coach).clock == "14:59"
        await coach.reads("check the clock: left, right set it by a second")
        await coach.press("enter")
        assert coach.live.phase == "running"
        assert "check the clock" not in coach.seen()


async def test_the_autopilot_types_as_a_coach_does(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(60)
        coach.screen.press("n")
        await asyncio.sleep(0)
        await coach.pilot.pause()
        assert tallies(coach)["Noor"] == "1"


async def test_text_of_hostile_names_is_plain_text(open_class: Any) -> None:
    names = ("[red]Odell[/red]", "\x1b[31mBram", "\u202eNoor", "🦊 Uri")
    async with open_class(segment=1, names=names) as coach:
        await coach.start()
        lanes = coach.screen.query_one(WallView).lanes
        assert [lane.name for lane in lanes][:2] == ["[red]Odell[/red]", "\\x1b[31mBram"]
        assert "\x1b" not in coach.seen()
        assert "\u202e" not in coach.seen()


def test_a_new_size_waits_for_digits_that_are_about_to_change_but_never_twice() -> None:
    until = 0.5
    held = HeldResize(lambda: until)
    first, second = (Resize(Size(120, rows), Size(120, rows)) for rows in (36, 37))
    assert held.wait(first) == 0
    until = 0.08
    assert held.wait(first) == pytest.approx(0.11)
    assert held.wait(first) == 0  # digits that change all the time would hold it up for good
    assert held.wait(second) == pytest.approx(0.11)
