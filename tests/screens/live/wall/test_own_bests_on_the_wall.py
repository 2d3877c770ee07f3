"""Beside one's own best: on the running wall, at the settle and at the end."""

from collections.abc import AsyncIterator, Callable
from contextlib import AbstractAsyncContextManager, asynccontextmanager
from typing import Any

import pytest
from msgspec.structs import replace

from classclock.book.asking.people_reading import in_files, people_called
from classclock.screens.canvas.cells import plain_text
from classclock.screens.live.end.summary_view import SummaryView
from classclock.screens.live.settle.score_layout import BEST, cheer_of, sign_of
from classclock.screens.live.settle.settle_view import SettleView
from classclock.screens.live.sound_keys import SoundKeys
from classclock.screens.live.wall.wall_view import WallView
from classclock.sound.loudspeaker import SilentLoudspeaker
from classclock.tally import events as ev
from classclock.tally.lanes import Mark
from classclock.wall.lane_content import LaneContent

PLAN = """
title = "Turntable Tuesday"
[[segment]]
name = "Turntable"
benchmark = "turntable"
format = "rounds-in-time"
time = "16:00"
  [[segment.station]]
  movement = "box step-over"
  reps = 15
  options = ["step-up"]
  [[segment.station]]
  movement = "bodyweight squat"
  reps = 12
"""
"""Twenty-seven reps a round, as the Depot's classes have it."""
Opened = Callable[..., AbstractAsyncContextManager[Any]]


@pytest.fixture
def second_time(open_class: Any, depot: Any, monkeypatch: pytest.MonkeyPatch) -> Opened:
    """Ilse did 8+3 a month ago, a round every 2:00, Bram 7+0; Noor has never done it."""
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    lanes = (depot.rounds("Ilse", 8, 0, each=120), depot.rounds("Bram", 7, 0, each=130))
    depot.held("2026-02-03", depot.turntable(*lanes))

    @asynccontextmanager
    async def opened(**more: Any) -> AsyncIterator[Any]:
        private = more.pop("private", ())
        async with open_class(PLAN, folder=depot.folder, **more) as coach:
            live = coach.live
            known = people_called(("Ilse", "Bram", "Noor"), in_files(depot.folder))
            for one in live.record.people:
                live.record_event(ev.PersonLeft(0, one.id))
            for one in known:
                marks: tuple[Mark, ...] = ("off the wall",) if one.name in private else ()
                live.record_event(ev.PersonAdded(0, replace(one, marks=marks)))
            assert coach.session.remember() == ""
            await coach.start()
            yield coach

    return opened


def lanes(coach: Any) -> dict[str, LaneContent]:
    return {lane.name: lane for lane in coach.screen.query_one(WallView).lanes}


def settled(coach: Any) -> dict[str, Any]:
    page = coach.screen.query_one(SettleView).page
    return {row.name: row for row in page.rows}


async def rounds(coach: Any, keys: str, count: int, every: float) -> None:
    for _ in range(count):
        await coach.wind(every)
        await coach.press(*keys)


async def test_a_lane_says_in_reps_how_far_it_is_ahead_of_its_own_best(
    second_time: Opened,
) -> None:
    async with second_time() as coach:
        await rounds(coach, "ib", 2, 110)
        # 54 reps at 3:40; a round every 2:00 is 49.5 by then, so four whole reps ahead. Bram's
        # round took 2:10: 54 - 27 * 220 / 130 is eight.
        ilse, bram, noor = (lanes(coach)[name] for name in ("Ilse", "Bram", "Noor"))
        assert (ilse.against, ilse.standing) == ("+4", "ahead")
        assert (bram.against, bram.standing) == ("+8", "ahead")
        assert (noor.against, noor.standing) == ("", "first")
        assert "+4" in coach.seen()


async def test_behind_and_level_are_said_as_well(second_time: Opened) -> None:
    async with second_time() as coach:
        await rounds(coach, "i", 2, 120)
        assert (lanes(coach)["Ilse"].against, lanes(coach)["Ilse"].standing) == ("level", "level")
        await rounds(coach, "i", 1, 140)
        assert (lanes(coach)["Ilse"].against, lanes(coach)["Ilse"].standing) == ("-5", "behind")


async def test_another_option_is_another_best(second_time: Opened) -> None:
    async with second_time() as coach:
        await coach.press(*":i1")
        await rounds(coach, "i", 2, 120)
        assert lanes(coach)["Ilse"].against == ""


@pytest.mark.parametrize(
    ("score", "said"),
    [
        ("8+3", "new best: 3 reps more than 8+0 of 3 February 2026"),
        ("8+0", "equals the best, 8+0 of 3 February 2026"),
        ("7+9", ""),
    ],
)
async def test_the_settle_says_by_how_much_and_since_when(
    second_time: Opened, score: str, said: str
) -> None:
    async with second_time() as coach:
        await coach.wind(965)
        await coach.press(*f"{score}i5n")
        rows = settled(coach)
        assert rows["Ilse"].best == said
        assert rows["Noor"].best == "first time"
        assert rows["Bram"].best == ""  # still to be asked: nothing is said yet


async def test_the_end_says_it_again_with_a_sign_beside_the_colour(second_time: Opened) -> None:
    async with second_time() as coach:
        await coach.wind(965)
        await coach.press(*"8+3i5n7+0b")
        await coach.wind(2)
        await coach.press("enter")
        await coach.wind(2)
        assert coach.live.record.closed
        view = coach.screen.query_one(SummaryView)
        assert view.page is not None
        assert [(cheer_of(row), sign_of(row)) for row in view.page.pieces[0].rows] == [
            ("▲ new best", ""),
            ("", "equals the best"),
            ("", "first time"),
        ]
        shown = plain_text(view.paint(120, 35))
        assert BEST in shown
        assert "in brackets the last time" in shown


async def test_who_stays_off_the_wall_has_a_dash_for_a_rank_and_no_best(
    second_time: Opened,
) -> None:
    async with second_time(private=("Ilse",)) as coach:
        await rounds(coach, "ib", 3, 110)
        ilse = lanes(coach)["Ilse"]
        assert (ilse.rank, ilse.against, ilse.standing) == ("-", "", "first")
        assert ilse.tally == "3"
        await coach.wind(640)
        await coach.press(*"8+3i5n7+0b")
        row = settled(coach)["Ilse"]
        assert (row.rank, row.best, row.score) == ("-", "", "8+3")
        assert list(settled(coach))[-1] == "Ilse"  # nor does her place tell it


async def test_a_load_of_who_stays_off_the_wall_is_noted_without_saying_it(
    open_class: Any,
) -> None:
    plan = """
    title = "Heavy"
    [[segment]]
    name = "Front squat"
    format = "countdown"
    time = "10:00"
    score = "load"
    """
    async with open_class(plan) as coach:
        ilse = coach.live.record.people[0]
        changed = replace(ilse, marks=("off the wall",))
        coach.live.record_event(ev.PersonChanged(0, changed))
        await coach.start()
        await coach.press(*"85i60b")
        assert lanes(coach)["Ilse"].tally == "-"
        assert lanes(coach)["Bram"].tally == "60"
        assert "85" not in coach.seen()
        await coach.wind(610)
        assert settled(coach)["Ilse"].score == "-"
        assert "85" not in coach.seen()


async def test_a_book_that_can_t_be_reached_changes_nothing_in_the_class(
    second_time: Opened, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with second_time() as coach:
        monkeypatch.setenv("CLASSCLOCK_BOOK", "postgresql+psycopg://coach@127.0.0.1:1/depot")
        coach.screen.work.reading.ask()
        await coach.screen.work.reading.finished()
        await rounds(coach, "i", 2, 110)
        assert lanes(coach)["Ilse"].against == ""
        assert lanes(coach)["Ilse"].tally == "2"


async def test_who_comes_late_comes_as_themselves(second_time: Opened) -> None:
    async with second_time() as coach:
        coach.live.record_event(ev.PersonLeft(coach.live.clock.now(), "bram"))
        await coach.press("space", "+", *"Bram", "enter")
        assert "bram" in {person.id for person in coach.live.record.here}


def test_a_sound_check_is_shown_as_it_is_heard() -> None:
    shown: list[tuple[float, str]] = []
    speaker = SilentLoudspeaker(lambda: 0)
    keys = SoundKeys(speaker, 80, lambda after, text: shown.append((after, text)), lambda: 0)
    keys.press("<f3>", clock_runs=False)
    heard = [cue.due / 1e9 for cue in speaker.scheduled]
    assert [after for after, _ in shown] == heard
    assert [text.removeprefix("sound check: ") for _, text in shown] == [
        "beep 1",
        "beep 2",
        "beep 3",
        "GO",
    ]
