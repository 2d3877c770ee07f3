"""A sample class in which the athletes call their rounds by themselves.

Everyone is invented, and so is every number; the same seed makes the same class again. It wants a
folder of its own, so that no club's records are touched.
"""

import asyncio
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

from classclock.clock.source import TimeSource, WoundSource
from classclock.club.movements import filled_in
from classclock.club.plan_files import read_plan
from classclock.demo.calls import calls
from classclock.demo.week_before import run_before
from classclock.live.rehearsal import piece_called
from classclock.live.session import Session
from classclock.live.session_opening import open_session
from classclock.machine.bundled import bundled
from classclock.plan.plan_file import PlanFile
from classclock.plan.settings.club import Club, Emergency
from classclock.tally import events as ev
from classclock.tally.lane_keys import people_named
from classclock.tally.lanes import Choice

PLAN, PIECE = "turntable", "Turntable"
LEFT_OF_THE_HOUR = timedelta(minutes=25)
BEFORE = timedelta(days=7)
"""When the same athletes did the same piece before, so that there is something to beat."""
NAMES = ("Ilse", "Bram", "Noor", "Piet", "Tuva", "Uri", "Saoirse", "Odell")
MODIFIED = {"Bram": (2,), "Tuva": (1,), "Odell": (2,)}
"""Who uses which option, station by station."""
DEPOT = Club(
    name="Line 0 Depot",
    emergency=Emergency(
        address="Line 0 Depot, 0 Points Row, yard gate",
        defibrillator="in the ticket window, left of the door",
        first_aid="green box under the route map",
        call="the local emergency number",
    ),
)


def demo_class(
    folder: Path, *, seed: int, source: TimeSource, speed: int, sound: bool = True
) -> tuple[Session, "Athletes"]:
    """The class, ready at its hard piece, and the athletes who will call; kept in this folder."""
    path = bundled("plans") / f"{PLAN}.toml"
    plan, findings = read_plan(path)
    if plan is None:
        raise ValueError(str(findings[0]))
    people = people_named(NAMES)
    plan_file, _ = filled_in(PlanFile(PLAN, path.read_text("utf-8"), plan), folder)

    def at_the_piece(source: TimeSource, *, sound: bool, speed: int = 1) -> Session:
        ends = (source.wall() + LEFT_OF_THE_HOUR).isoformat(timespec="seconds")
        session = open_session(
            plan_file,
            people,
            folder=folder,
            club=DEPOT,
            source=source,
            ends=ends,
            speed=speed,
            sound=sound,
        )
        _choose(session, piece_called(plan, PIECE))
        return session

    before = WoundSource(wall=source.wall() - BEFORE)
    run_before(at_the_piece(before, sound=False), before, seed)
    session = at_the_piece(source, sound=sound, speed=speed)
    session.sample = True
    return session, Athletes(session, seed)


def _choose(session: Session, piece: int) -> None:
    """Everybody's modifications, and the piece on the board."""
    live = session.live
    stations = live.record.plan.segment[piece].station
    for person in live.record.people:
        options = MODIFIED.get(person.name, ())
        fitting = tuple(
            min(option, len(station.options))
            for option, station in zip(options, stations, strict=False)
        )
        live.choose(person.id, piece, Choice(fitting))
    live.record_event(ev.SegmentChosen(live.clock.now(), piece))


class Athletes:
    """They call rounds while the piece runs, and their odd reps when it is over."""

    def __init__(self, session: Session, seed: int) -> None:
        self._session = session
        self._seed = seed

    async def run(self, press: Callable[[str], None]) -> None:
        """Type what they call, until the scores are settled or somebody ends the piece."""
        press("<enter>")
        live = self._session.live
        sheet = live.record.sheet
        if sheet is None:
            return
        shouted, odd = calls(sheet, self._seed)
        for call in shouted:
            if not await self._until(call.at):
                return
            for sign in call.signs:
                press(sign)
        if not await self._until(sheet.timeline.total + 4_000):
            return
        for key, reps in odd.items():
            for sign in f"{reps}{key}":
                press(sign)
            await asyncio.sleep(0.4)

    async def _until(self, elapsed: int) -> bool:
        """Wait for this moment of the piece, through any hold; False when it was left."""
        live = self._session.live
        while (sheet := live.record.sheet) is not None and not sheet.settled:
            now = live.clock.now()
            if sheet.ended_by is not None:
                return False
            left = elapsed - (
                now - sheet.clock.go if sheet.ended(now) else sheet.clock.elapsed(now)
            )
            if left <= 0:
                return True
            await asyncio.sleep(min(0.1, live.clock.real_seconds(now + left)))
        return False
