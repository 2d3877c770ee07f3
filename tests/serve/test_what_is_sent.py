"""What is in a page's data, to the field; and what isn't at all."""

from decimal import Decimal
from typing import Any

import pytest
from msgspec.json import encode

from classclock.clock.source import MS, WoundSource
from classclock.plan.settings.club import Emergency
from classclock.serve.sent_content import sent_card, sent_summary
from classclock.serve.shown_class import _NOTHING
from classclock.tally import events as ev
from classclock.units.loads import Load
from classclock.wall.seen.page_turning import PageOn
from classclock.wall.summary_content import PieceSummary, Summary
from tests.serve.conftest import OpenPage, Page, Started

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
notes = ["Bram's knee: watch him"]
"""
HOSTILE = '<img src=x onerror="alert(1)">\u202e'


async def shown(page: Page, when: Any) -> dict[str, Any]:
    async with page.looks_on() as looking:
        return await looking.until(when)


def is_on(screen: str) -> Any:
    return lambda shown: shown.get("screen") == screen


async def test_where_no_class_runs_it_says_so(open_page: OpenPage) -> None:
    async with open_page() as page:
        told = await shown(page, lambda shown: shown.get("said"))
        assert told["screen"] == "waiting"
        assert set(told) == set(_NOTHING)
        assert str(page.server._folder) not in str(told)


async def test_a_whole_piece_field_by_field(open_page: OpenPage, start_class: Started) -> None:
    session = start_class("Ilse", "Bram")
    source, live = session.source, session.live
    assert isinstance(source, WoundSource)
    async with open_page(source) as page, page.looks_on() as looking:
        told = await looking.until(is_on("board"))
        assert set(told["board"]) == {
            *("place", "name", "head", "terms", "words", "expected", "stations", "sets", "lines"),
            *("cautions", "stop", "stop_stood", "lanes", "lesson", "lift"),
        }
        live.record_event(ev.SegmentChosen(live.clock.now(), 1))
        session.key("<enter>", 0.0)
        told = await looking.until(is_on("wall"))
        assert told["lanes"] == 0, "while it is counted in"
        source.jump(70_000 * MS)
        session.key("i", 0.0)
        told = await looking.until(lambda shown: (shown.get("lane 0") or {}).get("tally") == "1")
        assert told["wall"]["title"] == "Turntable"
        assert "hint" not in told["wall"]
        assert "clock" not in told["wall"], "digits are the page's"
        assert set(told["clock"]) == {"spans", "up", "end", "cues", "zero", "at", "speed"}
        assert set(told["lane 0"]) == {
            *("key", "name", "tally", "rank", "modification", "split", "on_for", "against"),
            *("standing", "sign", "doubtful", "out", "bar", "selected", "turn", "start", "rung"),
            *("load", "unit", "plates", "planned", "room"),
        }
        source.jump(960_000 * MS)
        told = await looking.until(is_on("settle"))
        assert set(told["settle"]) == {"title", "words", "rows", "question", "state"}
        assert ".json" not in str(told["settle"])
        live.record_event(ev.ClassClosed(live.clock.now()))
        told = await looking.until(is_on("summary"))
        assert set(told["summary"]) == {"title", "pieces", "asked", "at"}
    session.close()


@pytest.mark.parametrize(
    ("on", "at"),
    [
        (PageOn(3), None),  # it turns by itself, there and here
        (PageOn(1, by_hand=True, among=3), 1),
        (PageOn(5, by_hand=True, among=6), 2),  # two pages to a piece there
        (PageOn(-1, by_hand=True, among=3), 2),
    ],
)
def test_the_coachs_keys_turn_the_pieces_of_the_end_here_too(on: PageOn, at: int | None) -> None:
    pieces = tuple(PieceSummary(name, "", ()) for name in ("Turntable", "Night line", "Yard lap"))
    sent = sent_summary(Summary("Depot Tuesday", pieces, "", ""), on)
    assert isinstance(sent, dict)
    assert sent["at"] == at


async def test_nothing_of_time_alone_is_sent(open_page: OpenPage, start_class: Started) -> None:
    session = start_class("Ilse")
    source, live = session.source, session.live
    assert isinstance(source, WoundSource)
    live.record_event(ev.SegmentChosen(live.clock.now(), 1))
    session.key("<enter>", 0.0)
    source.jump(60_000 * MS)
    async with open_page(source) as page, page.looks_on() as looking:
        await looking.until(is_on("wall"))
        before = page.server.shown.parts()
        source.jump(20_000 * MS)
        after = page.server.shown.parts()
        changed = {name for name, part in after.items() if before[name] != part}
        assert changed <= {"clock", "time"}, "and the clock only because this source stands still"
    session.close()


async def test_loads_that_somebody_keeps_off_the_wall_arent_in_it(
    open_page: OpenPage, start_class: Started
) -> None:
    session = start_class("Ilse", "Bram", plan=LIFT)
    live = session.live
    ilse, bram = live.record.people
    for person, load in ((ilse, "61.25"), (bram, "83.75")):
        chosen = Load(Decimal(load), "kg")
        live.record_event(ev.LoadChosen(live.clock.now(), person.id, 0, None, chosen))
    live.record_event(ev.PersonChanged(live.clock.now(), _off_the_wall(bram)))
    async with open_page(session.source) as page:
        told = await shown(page, lambda shown: (shown.get("board") or {}).get("lift"))
    text = encode(told).decode()
    assert "61.25" in text
    assert "83.75" not in text
    assert "knee" not in text, "a plan's notes are the coach's"
    session.close()


async def test_what_somebody_wrote_is_sent_as_text_that_steers_nothing(
    open_page: OpenPage, start_class: Started
) -> None:
    session = start_class("Ilse", HOSTILE)
    session.live.record_event(ev.SegmentChosen(session.live.clock.now(), 1))
    async with open_page(session.source) as page, page.looks_on() as looking:
        await looking.until(lambda shown: "onerror" in str(shown.get("board") or shown))
        assert "\u202e" not in str(looking.shown), "shown as an escape"
    session.close()


async def test_where_nothing_can_be_followed_any_more_the_server_ends(
    open_page: OpenPage, monkeypatch: pytest.MonkeyPatch
) -> None:
    async def watched() -> None:
        async with open_page() as page, page.looks_on() as looking:
            monkeypatch.setattr(page.server.shown, "look", lambda: 1 // 0)
            while not looking.over:
                await looking.next()

    with pytest.raises(ZeroDivisionError):  # a fault of the program's own
        await watched()


def test_the_card_says_what_to_do_at_once_whatever_it_lacks() -> None:
    assert sent_card(Emergency()) == {
        "call": "Call your local emergency number now.",
        "door": "Send someone to the door.",
        "places": [],
        "obey": ["Do what the dispatcher says.", "Keep to your local rules and training."],
    }
    assert "We are at the yard" in str(sent_card(Emergency(address="the yard")))


def _off_the_wall(person: Any) -> Any:
    from msgspec.structs import replace  # noqa: PLC0415

    return replace(person, marks=("off the wall",))
