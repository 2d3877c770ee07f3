"""The wall of the README's class at one moment, in the terminal that runs this.

`python -m pictures.terminals.wall FACTS [sextants|quadrants|halves]`: once all is painted FACTS
says, as JSON, what stands where. It stays until it is ended.
"""

import asyncio
import sys
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import get_args

import msgspec
from msgspec import Struct
from rich.color import Color, ColorSystem
from textual._context import active_app

from classclock.clock.source import MS, WoundSource
from classclock.demo.calls import calls
from classclock.demo.sample_class import demo_class
from classclock.live.session import Session
from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.layout.parts import Across
from classclock.screens.live.wall.big_clock import BigClock
from classclock.screens.live.wall.lane_drawing import tally_shown
from classclock.screens.live.wall.lane_row import LaneRow
from classclock.screens.start import show_class
from classclock.units.cell_dots import CellDots

SEED, SHOWN_AT = 3, 702_000
"""As in the README's picture; the moment in ms."""


class Place(Struct, frozen=True):
    """A text that stands on the screen, and its box in cells."""

    what: str
    text: str
    x: int
    y: int
    width: int
    height: int
    size: int = 0
    """Rows of its letters."""
    across: Across = "left"


class Facts(Struct, frozen=True):
    """What the program took the terminal for, and what it has painted there."""

    kind: str
    dots: str
    colours: int
    columns: int
    rows: int
    ground: str
    """As it is sent to the terminal, `#rrggbb`."""
    places: tuple[Place, ...]


class Seeded:
    """Winds time to the moment, calls as the README's class does, and writes the facts."""

    def __init__(self, session: Session, source: WoundSource, facts: Path) -> None:
        self._session, self._source, self._facts = session, source, facts

    async def run(self, press: Callable[[str], None]) -> None:
        await self._wind(0)
        press("<enter>")
        await self._wind(10_000)
        sheet = self._session.live.record.sheet
        if sheet is None:
            raise RuntimeError("the piece did not start")
        now = 0
        for call in calls(sheet, SEED)[0]:
            if call.at > SHOWN_AT:
                break
            await self._wind(call.at - now)
            now = call.at
            for sign in call.signs:
                press(sign)
        await self._wind(SHOWN_AT - now)
        await asyncio.sleep(1)
        self._facts.write_bytes(msgspec.json.encode(_facts()))

    async def _wind(self, ms: int) -> None:
        self._source.jump(ms * MS)
        await asyncio.sleep(0.03)


def _facts() -> Facts:
    app = active_app.get()
    if not isinstance(app, ClassclockApp) or app.kind is None:
        raise TypeError("no class is on in a terminal here")
    terminal, kind = app.look.terminal, app.kind
    clock = app.screen.query_one(BigClock)
    places = [Place("clock", clock.face.text, *clock.region)]
    for row in app.screen.query(LaneRow):
        if row.content is None or row.plan is None or not row.display:
            continue
        left, top = row.region.offset
        content, plan = row.content, row.plan
        said = [("key", content.key.upper(), plan.key), ("name", content.name, plan.name)]
        if plan.tally is not None:
            said.append(("tally", tally_shown(content, plan.tally, app.look), plan.tally))
        for what, text, spot in said:
            x, y, wide, high = spot.box
            place = left + x, top + y, wide, high
            places.append(Place(what, text, *place, spot.size, spot.across))
    ground = _sent(app.look.theme.ground, terminal.colours)
    return Facts(kind.name, terminal.dots or "", terminal.colours, *app.size, ground, tuple(places))


def _sent(colour: str, colours: int) -> str:
    """Rich sends the nearest that it finds."""
    parsed = Color.parse(colour)
    if colours == 256:
        parsed = parsed.downgrade(ColorSystem.EIGHT_BIT)
    return parsed.get_truecolor().hex


def main(facts: str, letters: str = "") -> int:
    source = WoundSource(wall=datetime.fromisoformat("2026-03-03T18:30:00+01:00"))
    with TemporaryDirectory() as folder:
        session, _ = demo_class(Path(folder), seed=SEED, source=source, speed=1, sound=False)
        session.remember()
        if letters in get_args(CellDots):
            tv = session.club.tv.model_copy(update={"letters": letters})
            session.club = session.club.model_copy(update={"tv": tv})
        return show_class(session, autopilot=Seeded(session, source, Path(facts)))


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
