"""A note is typed over a class at any time, and the room can't read it."""

from typing import Any

import pytest

from classclock.book.files.journal import read_journal
from classclock.plan.settings.club import Club, Tv
from classclock.screens.canvas.cells import plain_text
from classclock.screens.live.overlays.patient_entry import PATIENCE
from classclock.tally import events as ev

SIZES = [(60, 18), (120, 36), (240, 70)]
NOTED = "noted in the class's journal,"


def box(coach: Any) -> str:
    """The line as it stands, in terminal text."""
    return plain_text(coach.screen.overlays.note.paint(60, 3))


def notes(coach: Any) -> list[tuple[str, str | None]]:
    events = read_journal(coach.session.journal.path).events
    return [(event.text, event.person_id) for event in events if isinstance(event, ev.Noted)]


async def jot(coach: Any, text: str) -> None:
    keys = {" ": "space", ",": "comma", ":": "colon"}
    await coach.press("ctrl+e", *(keys.get(sign, sign) for sign in text), "enter")


@pytest.mark.parametrize("size", SIZES)
async def test_the_room_sees_dots_and_no_name(open_class: Any, size: tuple[int, int]) -> None:
    async with open_class(size=size) as coach:
        await coach.press("ctrl+e")
        assert "a note about the class" in coach.seen()
        await coach.press(*"Noor", "colon", *"knee")
        seen = coach.seen()
        assert "•••••••••_" in seen
        assert "a note about one person" in seen
        assert "knee" not in seen
        assert "Noor:" not in seen
        await coach.press("enter")
        assert notes(coach) == [("knee", "Noor")]
        assert NOTED in coach.foot()
        assert "knee" not in coach.seen()


async def test_the_coachs_own_screen_shows_it(open_class: Any) -> None:
    async with open_class(club=Club(tv=Tv(mirrored=False))) as coach:
        await coach.press("ctrl+e", *"n", "colon", *"knee")
        assert "a note about Noor" in coach.seen()
        assert "n:knee_" in coach.seen()


async def test_at_any_time_of_a_class(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await jot(coach, "on the board")
        await coach.press("enter")
        await coach.wind(5)
        await jot(coach, "count-in")
        await coach.wind(5)
        await jot(coach, "n:running")
        await coach.wind(2)
        await coach.press("space")
        await jot(coach, "i:held")
        await coach.wind(2)
        await coach.press("space")
        await coach.wind(970)
        await jot(coach, "settle")
        await coach.press(*"1n1i1b", "enter")
        assert coach.live.phase == "closed"
        await coach.wind(2)
        await jot(coach, "end")
        assert notes(coach) == [
            ("on the board", None),
            ("count-in", None),
            ("running", "Noor"),
            ("held", "Ilse"),
            ("settle", None),
            ("end", None),
        ]
        assert not read_journal(coach.session.journal.path).unfinished


async def test_while_a_piece_runs_it_says_that_taps_are_off_and_closes_by_itself(
    open_class: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    timers: list[tuple[float, Any]] = []

    def set_timer(after: float, do: Any) -> Stopped:
        timers.append((after, do))
        return Stopped()

    async with open_class(segment=1) as coach:
        entry = coach.screen.overlays.note
        monkeypatch.setattr(entry, "set_timer", set_timer)
        await coach.press("ctrl+e")
        assert timers == []  # on the board it stays
        assert "taps are off" not in box(coach)
        await coach.press("escape")
        await coach.start()
        await coach.press("ctrl+e", "n")
        assert "typing a note: taps are off" in box(coach)
        assert "10 s without a key closes it" in box(coach)
        assert coach.live.record.sheet.tallies["Noor"].rounds == ()
        assert [after for after, _ in timers] == [PATIENCE] * 2
        timers[-1][1]()
        assert not entry.display
        await coach.press("b")
        assert len(coach.live.record.sheet.tallies["Bram"].rounds) == 1
        await coach.wind(2)
        await coach.press("ctrl+e", *"o", "enter")
        assert notes(coach) == [("no", None)]  # what was typed before was kept
        await coach.wind(2)
        await coach.press("ctrl+e", *"gone", "escape")
        await coach.wind(2)
        await coach.press("ctrl+e")
        assert entry.text == ""


class Stopped:
    def stop(self) -> None:
        pass


async def test_an_empty_note_is_none(open_class: Any) -> None:
    async with open_class() as coach:
        await coach.press("ctrl+e", *"n", "colon", "space", "enter")
        assert coach.screen.overlays.note.display
        await coach.press("escape")
        assert notes(coach) == []


async def test_hostile_text_is_text(open_class: Any) -> None:
    async with open_class() as coach:
        hostile = "[red]=cmd()<script>"
        await coach.press("ctrl+e")
        coach.screen.overlays.note._line.paste(f"{hostile}\x1b[2J")
        await coach.press("enter")
        assert notes(coach) == [(f"{hostile}[2J", None)]


@pytest.mark.parametrize("columns", [60, 120])
@pytest.mark.parametrize("running", [False, True])
async def test_its_words_fit(open_class: Any, columns: int, *, running: bool) -> None:
    async with open_class() as coach:
        entry = coach.screen.overlays.note
        entry.ask(coach.live.record.people, running=running)
        entry.text = "Noor: " + "left knee " * 19
        drawn = plain_text(entry.paint(columns, 3))
        assert "…" not in drawn
        assert drawn.count("\n") == 2
        assert drawn.split("\n")[1].rstrip().endswith("•_")
        assert "one person" in drawn
