"""One class as it always goes: six people of the Depot, the same calls, time wound by hand.

Its five moments are what the pinned pictures show. A week before the same six did the same piece,
so that there is something to beat.
"""

from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime, timedelta
from pathlib import Path

from rich.segment import Segment
from textual.pilot import Pilot

from classclock.clock.source import MS, WoundSource
from classclock.live.session import Session
from classclock.live.session_opening import open_session
from classclock.machine.battery import Battery
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club, Emergency
from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.look import Look
from classclock.screens.live.class_screen import ClassScreen
from classclock.tally.lane_keys import people_named
from classclock.tally.lanes import Choice

Rows = Sequence[Sequence[Segment]]

PLAN = """
title = "Tuesday at the Depot"
notes = ["Boxes along the west rail."]

[[segment]]
name = "Warm-up"
format = "countdown"
time = "8:00"
lines = ["easy row", "arm circles"]

[[segment]]
name = "Points Lever"
benchmark = "points-lever"
format = "rounds-in-time"
time = "10:00"
caution = ["Step down from the box, don't jump."]

  [[segment.station]]
  movement = "box step-over"
  reps = 6
  standard = "both feet on the box"
  options = ["lower box", { name = "step-up", reps = 4 }]

  [[segment.station]]
  movement = "bodyweight squat"
  reps = 12
  standard = "hip crease below the knee, then stand tall"
  options = ["chair stand"]
"""
CLUB = Club(
    name="Line 0 Depot",
    emergency=Emergency(
        address="Line 0 Depot, 0 Points Row, yard gate",
        defibrillator="in the ticket window, left of the door",
        first_aid="green box under the route map",
        call="the local emergency number",
    ),
)
STARTS = datetime.fromisoformat("2026-03-03T18:30:00+01:00")
ENDS = "2026-03-03T19:00:00+01:00"
WEEK = timedelta(days=7)

LAST_WEEK = {"Ilse": (75, 11), "Bram": (92, 9), "Noor": (66, 8), "Piet": (110, 2), "Tuva": (88, 14)}
"""Seconds for each round, and the odd reps. Saoirse is new."""
TODAY = LAST_WEEK | {"Ilse": (71, 7), "Noor": (69, 12), "Piet": (104, 14), "Saoirse": (95, 5)}
TOO_SOON = (330, "p")
"""A call too soon after the one before: counted, and doubted."""
MODIFIED = {"Bram": (1, 0), "Tuva": (0, 1)}
"""The option that each uses, station by station."""
PIECE, LENGTH = 1, 600
COUNT_IN = 10
SHOWN = 402
"""Seconds into the piece at which the wall is shown."""
BOARD = "board"
MOMENTS = (BOARD, "count-in", "wall", "settle", "end")


def calls(pace: dict[str, tuple[int, int]]) -> list[tuple[int, str]]:
    """Who calls a round when, in seconds of the piece."""
    return sorted(
        (at, name[0].lower())
        for name, (each, _) in pace.items()
        for at in range(each, LENGTH + 1, each)
    )


def odd_reps(pace: dict[str, tuple[int, int]], *names: str) -> Iterator[str]:
    """What is typed for these, or for all."""
    for name in names or pace:
        yield f"{pace[name][1]}{name[0].lower()}"


def opened(folder: Path, wall: datetime, names: Iterable[str]) -> tuple[Session, WoundSource]:
    plan, findings = parse_plan(PLAN, "points-lever.toml")
    assert plan is not None, findings
    source = WoundSource(0, wall=wall)
    session = open_session(
        PlanFile("points-lever", PLAN, plan),
        people_named(tuple(names)),
        folder=folder,
        club=CLUB,
        source=source,
        ends=ENDS,
        sound=False,
    )
    for person in session.live.record.people:
        session.live.choose(person.id, PIECE, Choice(MODIFIED.get(person.name, ())))
    return session, source


def held_the_week_before(folder: Path) -> None:
    """The same piece, saved."""
    session, source = opened(folder, STARTS - WEEK, LAST_WEEK)

    def strike(*signs: str) -> None:
        for sign in signs:
            session.key(sign, 0.0)
        source.jump(2_000 * MS)

    def until(seconds: int) -> None:
        sheet = session.live.record.sheet
        assert sheet is not None
        source.jump((sheet.clock.go + seconds * 1000 - session.live.clock.now()) * MS)

    strike("<down>")
    strike("<enter>")
    for at, key in calls(LAST_WEEK):
        until(at)
        session.key(key, 0.0)
    until(LENGTH + 4)
    for signs in odd_reps(LAST_WEEK):
        strike(*signs)
    strike("*", "<enter>")
    session.save()
    session.close()


class PinnedClass:
    """The class on its screen."""

    def __init__(self, folder: Path, look: Look) -> None:
        """`folder` stands on the last screen: a relative path looks the same on every machine."""
        held_the_week_before(folder)
        self._look = look
        self._session, self._source = opened(folder, STARTS, TODAY)
        battery = Battery(lambda: "")
        self._screen = ClassScreen(self._session, look, battery=battery, keep_awake=False)
        self._pilot: Pilot[str]

    async def pictures(self, columns: int, rows: int) -> dict[str, Rows]:
        """The cells of each moment, at this size of the window."""

        async def flow(app: ClassclockApp) -> str:
            await app.push_screen_wait(self._screen)
            return ""

        try:
            async with ClassclockApp(self._look, flow).run_test(size=(columns, rows)) as pilot:
                self._pilot = pilot
                await pilot.pause()
                await self._screen.load()
                return {moment: await self._reached(moment) for moment in MOMENTS}
        finally:
            self._session.close()

    async def _reached(self, moment: str) -> Rows:
        called = sorted([*calls(TODAY), TOO_SOON])
        match moment:
            case "board":
                self._session.remember()
                await self._type("<down>")
            case "count-in":
                await self._type("<enter>")
                await self._wind(4)
            case "wall":
                await self._wind(COUNT_IN - 6)
                await self._call([call for call in called if call[0] <= SHOWN], 0, SHOWN)
            case "settle":
                await self._call([call for call in called if call[0] > SHOWN], SHOWN, LENGTH + 4)
                for signs in odd_reps(TODAY, "Ilse", "Noor", "Piet", "Tuva"):
                    await self._type(*signs)
            case "end":
                for signs in odd_reps(TODAY, "Bram", "Saoirse"):
                    await self._type(*signs)
                await self._type("*", "<enter>")
        await self._at_rest()
        return self._seen()

    async def _call(self, called: list[tuple[int, str]], since: int, until: int) -> None:
        for at, key in called:
            await self._wind(at - since)
            self._screen.press(key)
            since = at
        await self._wind(until - since)

    async def _type(self, *signs: str) -> None:
        for sign in signs:
            self._screen.press(sign)
        await self._wind(2)

    async def _wind(self, seconds: int) -> None:
        self._source.jump(seconds * 1000 * MS)
        await self._pilot.pause()

    async def _at_rest(self) -> None:
        """Until all is painted, and what is written beside the screen is written."""
        seen: Rows | None = None
        while seen != (seen := self._seen()):
            await self._pilot.pause()
            await self._screen.work.saving.finished()
            await self._pilot.pause()

    def _seen(self) -> Rows:
        return [tuple(strip) for strip in self._screen._compositor.render_strips()]
