"""A sample class in which the athletes call their rounds by themselves.

Everyone is invented, and so is every number; the same seed makes the same class again. It is kept
in a folder of its own, so that no club's records are touched.
"""

import asyncio
import random
import tempfile
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

from msgspec import Struct

from classclock.bundled import bundled
from classclock.clock.source import TimeSource
from classclock.plan.club import Club, Emergency
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading import read_plan
from classclock.rehearsal import piece_called
from classclock.session import Session, open_session
from classclock.tally import events as ev
from classclock.tally.lane_keys import people_named
from classclock.tally.lanes import Choice, Lane
from classclock.tally.sheet import Sheet
from classclock.tally.work import Work

PLAN, PIECE = "turntable", "Turntable"
LEFT_OF_THE_HOUR = timedelta(minutes=25)
NAMES = ("Ilse", "Bram", "Noor", "Pavel", "Tuva", "Quim", "Saoirse", "Odell")
MODIFIED = {"Bram": (2,), "Tuva": (1,), "Odell": (2,)}
"""Who uses which option, station by station."""
DEPOT = Club(
    name="The Depot",
    emergency=Emergency(
        address="The Depot, 4 Terminus Road, yard gate",
        defibrillator="in the ticket window, left of the door",
        first_aid="green box under the route map",
        call="the local emergency number",
    ),
)


class Call(Struct, frozen=True):
    """What is shouted at a moment of the piece (ms), as the coach types it."""

    at: int
    signs: str


def demo_class(
    *, seed: int, source: TimeSource, speed: int, sound: bool = True
) -> tuple[Session, "Athletes"]:
    """The class, ready at its hard piece, and the athletes who will call."""
    path = bundled("plans") / f"{PLAN}.toml"
    plan, findings = read_plan(path)
    if plan is None:
        raise ValueError(str(findings[0]))
    ends = source.wall() + LEFT_OF_THE_HOUR
    people = people_named(NAMES)
    session = open_session(
        PlanFile(PLAN, path.read_text("utf-8"), plan),
        people,
        folder=Path(tempfile.mkdtemp(prefix="classclock-demo-")),
        club=DEPOT,
        source=source,
        ends=ends.isoformat(timespec="seconds"),
        speed=speed,
        sound=sound,
    )
    piece = piece_called(plan, PIECE)
    for person in people:
        options = MODIFIED.get(person.name, ())
        fitting = tuple(
            min(option, len(station.options))
            for option, station in zip(options, plan.segment[piece].station, strict=False)
        )
        session.live.choose(person.id, piece, Choice(fitting))
    session.live.record_event(ev.SegmentChosen(session.live.clock.now(), piece))
    return session, Athletes(session, random.Random(seed))  # noqa: S311  a sample, no secret


class Athletes:
    """They call rounds while the piece runs, and their odd reps when it is over."""

    def __init__(self, session: Session, chance: random.Random) -> None:
        self._session = session
        self._chance = chance

    async def run(self, press: Callable[[str], None]) -> None:
        """Type what they call, until the scores are settled or somebody ends the piece."""
        press("<enter>")
        live = self._session.live
        sheet = live.record.sheet
        if sheet is None:
            return
        shouted, odd = calls(sheet, self._chance)
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


def calls(sheet: Sheet, chance: random.Random) -> tuple[tuple[Call, ...], dict[str, int]]:
    """All rounds called in a piece, in order of time, and by key the odd reps at its end."""
    shouted: list[Call] = []
    odd: dict[str, int] = {}
    for lane in sheet.lanes:
        done, odd[lane.key] = _rounds(sheet, lane, chance)
        shouted += done
    return tuple(sorted(shouted, key=lambda call: call.at)), odd


def _rounds(sheet: Sheet, lane: Lane, chance: random.Random) -> tuple[list[Call], int]:
    """One athlete's rounds: a pace of their own that fades, and no two rounds alike."""
    work = Work(sheet.piece, lane)
    pace, fade = chance.uniform(2.3, 3.6), chance.uniform(0.0, 0.03)
    end, at, done = sheet.timeline.total / 1000, 0.0, list[Call]()
    while True:
        size = work.round_reps(len(done))
        split = size * pace * (1 + fade * len(done)) * chance.uniform(0.92, 1.1)
        if at + split >= end:
            return done, min(size - 1, int(size * (end - at) / split))
        at += split
        done.append(Call(int(at * 1000), lane.key))
