"""What opens over a class: it says what it must, and takes no tap."""

from collections.abc import Callable
from string import ascii_lowercase
from typing import Any

import pytest
from textual import events
from textual.app import App, ComposeResult
from textual.message import Message
from textual.widget import Widget

from classclock.plan.settings.club import Emergency
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.card.emergency_card import EmergencyCard
from classclock.screens.controls.line_entry import LineEntry
from classclock.screens.live.overlays.correct_entry import CorrectEntry
from classclock.screens.live.overlays.focus_line import FocusLine
from classclock.screens.live.overlays.keys_layout import key_pages
from classclock.screens.live.overlays.keys_overlay import KeysOverlay
from classclock.screens.live.overlays.leave_question import LeaveQuestion
from classclock.screens.live.overlays.name_entry import NameEntry
from classclock.screens.live.overlays.patient_entry import PATIENCE
from classclock.screens.live.screen_keys import SCREEN_KEYS
from classclock.tally.keys.key_help import KEY_LINES
from classclock.wall.on_disk_words import LeaveWords

SIZES = [(60, 18), (80, 24), (120, 36), (213, 60), (240, 70)]
CARD = Emergency(
    address="Depot 4, 0 Sleeper Lane",
    defibrillator="by the west door",
    first_aid="under the coach's bench",
    call="112",
)


class Desk(App[None], inherit_bindings=False):
    """One widget, what it said, and the keys that went on to the class."""

    CSS = "Screen { overflow: hidden; }"

    def __init__(self, widget: Widget) -> None:
        super().__init__()
        self.widget = widget
        self.heard: list[Message] = []
        self.passed_on: list[str] = []

    def compose(self) -> ComposeResult:
        yield self.widget

    def on_key(self, event: events.Key) -> None:
        self.passed_on.append(event.key)

    def on_name_entry_named(self, event: NameEntry.Named) -> None:
        self.heard.append(event)

    def on_emergency_card_noted(self, event: EmergencyCard.Noted) -> None:
        self.heard.append(event)

    def on_emergency_card_fill_in(self, event: EmergencyCard.FillIn) -> None:
        self.heard.append(event)

    def on_correct_entry_corrected(self, event: CorrectEntry.Corrected) -> None:
        self.heard.append(event)

    def on_leave_question_leave(self, event: LeaveQuestion.Leave) -> None:
        self.heard.append(event)


def picture(widget: Painted, size: tuple[int, int] = (120, 36)) -> str:
    return plain_text(widget.paint(*size))


# -- the keys ----------------------------------------------------------------------


def shown_keys(columns: int, rows: int) -> str:
    pages = key_pages((*KEY_LINES, *SCREEN_KEYS), columns, rows)
    return " ".join(row.text for page in pages.pages for stack in page for row in stack)


@pytest.mark.parametrize(("columns", "rows"), [(56, 10), (76, 14), (116, 23), (209, 40)])
def test_every_key_is_on_some_page_at_every_size(columns: int, rows: int) -> None:
    text = shown_keys(columns, rows)
    assert all(line.meaning in text for line in (*KEY_LINES, *SCREEN_KEYS))


@pytest.mark.parametrize(("columns", "rows"), [(56, 10), (116, 23), (209, 40)])
def test_no_page_of_keys_is_larger_than_its_box(columns: int, rows: int) -> None:
    pages = key_pages((*KEY_LINES, *SCREEN_KEYS), columns, rows)
    for page in pages.pages:
        assert len(page) * pages.column_width + 2 * (len(page) - 1) <= columns
        assert all(len(stack) <= rows for stack in page)


async def test_the_keys_turn_page_by_page_and_then_close() -> None:
    keys = KeysOverlay(Look())
    async with Desk(keys).run_test(size=(60, 18)) as pilot:
        keys.show("rounds", "over")
        await pilot.pause()
        turns = 0
        while keys.display:
            keys.turn()
            turns += 1
            assert turns < 20
    assert turns > 1


async def test_help_takes_escape_alone() -> None:
    keys = KeysOverlay(Look())
    async with Desk(keys).run_test():
        keys.show("rounds", "running")
        assert not any(keys.offer(sign) for sign in (*ascii_lowercase, "-", "<space>", "<enter>"))
        assert keys.display
        assert keys.offer("<escape>")
        assert not keys.display
        assert not keys.offer("<escape>")


# -- the emergency card ----------------------------------------------------------------


async def test_taps_go_through_under_the_card_until_its_line_is_opened() -> None:
    card = EmergencyCard(Look())
    desk = Desk(card)
    async with desk.run_test() as pilot:
        card.show(CARD, before=False)
        assert not any(card.offer(sign) for sign in (*ascii_lowercase, "-", "<space>", "!"))
        await pilot.press("n")
        assert desk.passed_on == ["n"]
        assert card.offer("<enter>")
        await pilot.press(*"Uri 18:42", "enter")
        await pilot.pause()
        assert [message.text for message in desk.heard if isinstance(message, card.Noted)] == [
            "Uri 18:42"
        ]
        assert desk.passed_on == ["n"]
        await pilot.press("n")
        assert desk.passed_on == ["n", "n"]
        assert "1 noted in the journal" in picture(card)
        assert card.offer("<escape>")
        assert not card.display


async def test_what_is_noted_never_shows_where_the_room_sees_it() -> None:
    for mirrored, seen in ((True, "•••"), (False, "Uri")):
        card = EmergencyCard(Look(), mirrored=mirrored)
        async with Desk(card).run_test() as pilot:
            card.show(CARD, before=False)
            card.offer("<enter>")
            await pilot.press(*"Uri")
            assert seen in picture(card)
            assert ("Uri" in picture(card)) is not mirrored


async def test_tab_asks_for_what_the_card_lacks_before_a_class_alone() -> None:
    lacking = Emergency(address="0 Sleeper Lane")
    for card, before, asks in ((lacking, True, 1), (lacking, False, 0), (CARD, True, 0)):
        overlay = EmergencyCard(Look())
        desk = Desk(overlay)
        async with desk.run_test() as pilot:
            overlay.show(card, before=before)
            assert overlay.offer("<tab>") is bool(asks)
            await pilot.pause()
            asked = [one for one in desk.heard if isinstance(one, EmergencyCard.FillIn)]
            assert len(asked) == asks
            assert ("tab: fill in the card" in picture(overlay)) is bool(asks)


# -- somebody who comes late ----------------------------------------------------------


async def test_a_name_is_given_on_enter_and_the_line_closes() -> None:
    entry = NameEntry(Look())
    desk = Desk(entry)
    async with desk.run_test() as pilot:
        entry.ask(running=False)
        await pilot.press(*"Tuva  B", "backspace", "C", "enter")
        await pilot.pause()
        assert desk.heard == [NameEntry.Named("Tuva C")]
        assert not entry.display
        assert desk.passed_on == []


async def test_while_a_piece_runs_it_says_that_taps_are_off_and_waits_ten_seconds() -> None:
    entry = NameEntry(Look())
    desk = Desk(entry)
    async with desk.run_test() as pilot:
        entry.ask(running=True)
        assert "taps are off" in picture(entry, (120, 7))
        first = entry.waiting
        assert first is not None
        assert first._interval == PATIENCE == 10
        await pilot.press("T")
        second = entry.waiting
        assert second is not first  # every key begins the ten seconds anew
        assert second is not None
        assert second._callback is not None
        second._callback()  # the ten seconds have gone
        await pilot.pause()
        assert not entry.display
        assert entry.waiting is None
        assert desk.heard == [], "nobody was named"


async def test_between_segments_nothing_hurries_and_taps_are_not_spoken_of() -> None:
    entry = NameEntry(Look())
    async with Desk(entry).run_test():
        entry.ask(running=False)
        assert entry.waiting is None
        assert "taps" not in picture(entry, (120, 7))


@pytest.mark.parametrize("key", ["ctrl+q", "ctrl+c"])
async def test_the_keys_that_leave_are_not_kept_by_a_line(key: str) -> None:
    entry = NameEntry(Look())
    desk = Desk(entry)
    async with desk.run_test() as pilot:
        entry.ask(running=False)
        await pilot.press(key)
        assert desk.passed_on == [key]


async def test_a_pasted_name_is_one_line_without_controls() -> None:
    entry = NameEntry(Look())
    async with Desk(entry).run_test() as pilot:
        entry.ask(running=False)
        entry.post_message(events.Paste("Zoë\n  de Wit"))
        await pilot.pause()
        assert entry.text == "Zoë de Wit"
        entry.post_message(events.Paste("\x1b[2J"))
        await pilot.pause()
        assert entry.text == "Zoë de Wit"


# -- leaving ------------------------------------------------------------------------------


KEPT = LeaveWords(
    "All is kept: classclock resume rejoins this class.", (), "Leave this class?", "", warns=False
)


async def test_only_enter_leaves_and_only_escape_stays() -> None:
    question = LeaveQuestion(Look())
    desk = Desk(question)
    async with desk.run_test() as pilot:
        question.ask(KEPT)
        passing = (*ascii_lowercase, "<ctrl+q>", "<ctrl+c>", "<space>", "-", "<backspace>")
        assert not any(question.offer(sign) for sign in passing)
        assert question.display
        assert question.offer("<escape>")
        await pilot.pause()
        assert (question.display, desk.heard) == (False, [])
        question.ask(KEPT)
        assert question.offer("<enter>")
        await pilot.pause()
        assert [type(message) for message in desk.heard] == [LeaveQuestion.Leave]


SIXTEEN = tuple(f"Saoirse {number} 12+10 (on disk 11+?)" for number in range(16))


@pytest.mark.parametrize("size", [(60, 18), (120, 36)])
async def test_who_would_lose_what_is_named_and_what_has_no_room_is_counted(
    size: tuple[int, int],
) -> None:
    question = LeaveQuestion(Look())
    desk = Desk(question)
    async with desk.run_test(size=size) as pilot:
        question.styles.height = "auto"
        for lost in (SIXTEEN[:2], SIXTEEN):
            question.ask(LeaveWords("Lost if you leave (the disk is full):", lost, "Leave?", "F8"))
            await pilot.pause()
            columns, rows = question.size
            assert rows <= size[1] - 6
            shown = " ".join(picture(question, (columns, rows)).split())
            named = [one for one in lost if one in shown]
            assert named == list(lost[: len(named)])
            assert (len(named) == len(lost)) == (" more" not in shown)
            assert f"and {len(lost) - len(named)} more" in shown or len(named) == len(lost)
            assert "Lost if you leave (the disk is full):" in shown
        assert len(named) >= 5


def test_leaving_says_that_the_class_can_be_rejoined() -> None:
    question = LeaveQuestion(Look())
    question.words = KEPT
    assert "classclock resume rejoins this class" in picture(question, (60, 3))


# -- correcting ----------------------------------------------------------------------------


async def test_a_correction_is_a_score_and_its_reason() -> None:
    entry = CorrectEntry(Look(), mirrored=False)
    desk = Desk(entry)
    async with desk.run_test() as pilot:
        entry.ask("noor", "Noor", "7+?")
        assert "Noor, now 7+?" in picture(entry, (120, 3))
        await pilot.press(*"7+12", "enter", *"miscounted", "enter")
        await pilot.pause()
        assert desk.heard == [CorrectEntry.Corrected("noor", "7+12", "miscounted")]
        assert entry.display  # until the screen says that the score was taken
        entry.close()
        assert not entry.display


async def test_a_correction_without_a_reason_is_asked_for_it() -> None:
    entry = CorrectEntry(Look())
    desk = Desk(entry)
    async with desk.run_test() as pilot:
        entry.ask("noor", "Noor", "7+?")
        await pilot.press(*"7+12", "enter", "enter")
        await pilot.pause()
        assert desk.heard == []
        assert "a correction keeps its reason" in picture(entry, (120, 3))


async def test_a_refused_score_is_asked_for_again_with_the_words() -> None:
    entry = CorrectEntry(Look())
    async with Desk(entry).run_test() as pilot:
        entry.ask("noor", "Noor", "7+?")
        await pilot.press(*"soup", "enter", *"why", "enter")
        entry.refuse('"soup" is no score here: write rounds and odd reps, as in 7+12')
        assert "is no score here" in picture(entry, (120, 3))
        assert entry.text == "soup"


async def test_a_reason_is_not_shown_to_the_room() -> None:
    for mirrored in (True, False):
        entry = CorrectEntry(Look(), mirrored=mirrored)
        async with Desk(entry).run_test() as pilot:
            entry.ask("noor", "Noor", "7+?")
            await pilot.press(*"7+12", "enter", *"knee")
            assert ("knee" in picture(entry, (60, 3))) is not mirrored


# -- all of them ---------------------------------------------------------------------------


@pytest.mark.parametrize("columns", [60, 120, 240])
@pytest.mark.parametrize("rows", [3, 7])
@pytest.mark.parametrize("kind", [NameEntry, LeaveQuestion, CorrectEntry])
def test_a_box_at_the_foot_is_filled_whatever_is_typed(
    kind: type[Any], columns: int, rows: int, check_filled: Callable[..., None]
) -> None:
    widget = kind(Look())
    if isinstance(widget, LineEntry):
        for text in ("", "🦊 Uri", "[red]x[/red]", "y" * 200):
            widget.text = text
            check_filled(widget.paint(columns, rows), columns, rows)
    check_filled(widget.paint(columns, rows), columns, rows)


@pytest.mark.parametrize("columns", [60, 120, 240])
def test_a_full_line_says_that_keys_do_not_reach_the_clock(
    columns: int, check_filled: Callable[..., None]
) -> None:
    line = FocusLine(Look())
    check_filled(line.paint(columns, 1), columns, 1)
    assert "keys don't reach the clock" in picture(line, (columns, 1))


async def test_the_key_that_opened_help_closes_it_however_soon(open_class: Any) -> None:
    async with open_class(size=(213, 60)) as coach:
        keys = coach.screen.overlays.keys
        await coach.press("question_mark")
        assert keys.display
        await coach.wind(0.3)
        await coach.press("question_mark")
        assert not keys.display
