"""Draw the README's pictures anew: `python -m pictures`. A seeded class, time wound by hand."""

import asyncio
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path
from tempfile import TemporaryDirectory

from rich.segment import Segment
from textual.pilot import Pilot

from classclock.clock.source import MS, WoundSource
from classclock.demo.calls import calls
from classclock.demo.sample_class import demo_class
from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.look import Look
from classclock.screens.live.class_screen import ClassScreen
from pictures.svg import picture

COLUMNS, ROWS = 120, 36
SHOWN_AT = 702_000
"""The moment of the piece in the picture of the wall, in ms."""
SEED = 3
FOLDER = Path(__file__).parent


async def draw(folder: Path) -> None:
    source = WoundSource(wall=datetime.fromisoformat("2026-03-03T18:30:00+01:00"))
    session, _ = demo_class(folder, seed=SEED, source=source, speed=1, sound=False)
    session.remember()  # what each did a week before
    look = Look()

    async def flow(app: ClassclockApp) -> str:
        await app.push_screen_wait(ClassScreen(session, look, keep_awake=False))
        return ""

    async with ClassclockApp(look, flow).run_test(size=(COLUMNS, ROWS)) as pilot:
        await _wind(pilot, source, 0)
        _save(pilot, "board", "The board: what the piece is, who does it, what to look out for")
        await pilot.press("enter")
        await _wind(pilot, source, 10_000)
        sheet = session.live.record.sheet
        if sheet is None:
            raise RuntimeError("the piece did not start")
        shouted, odd = calls(sheet, SEED)
        now = 0
        for call in shouted:
            if now < SHOWN_AT <= call.at:
                await _wind(pilot, source, SHOWN_AT - now)
                now = SHOWN_AT
                _save(pilot, "wall", "The wall: the clock, and a ribbon of rounds for each athlete")
            await _wind(pilot, source, call.at - now)
            now = call.at
            await pilot.press(call.signs)
        await _wind(pilot, source, sheet.timeline.total + 4_000 - now)
        for key, reps in list(odd.items())[:5]:
            await pilot.press(*str(reps), key)
        await _wind(pilot, source, 2_000)
        _save(pilot, "settle", "The settle: scores so far, and who is still to be asked")
    session.close()


async def _wind(pilot: Pilot[str], source: WoundSource, ms: int) -> None:
    source.jump(ms * MS)
    await pilot.pause()
    await pilot.pause()


def _save(pilot: Pilot[str], name: str, title: str) -> None:
    screen = pilot.app.screen
    rows: Sequence[Sequence[Segment]] = [
        tuple(strip)
        for strip in screen._compositor.render_strips()  # noqa: SLF001  cells, not Rich's picture
    ]
    (FOLDER / f"{name}.svg").write_text(picture(rows, COLUMNS, title), "utf-8")


if __name__ == "__main__":
    with TemporaryDirectory() as folder:
        asyncio.run(draw(Path(folder)))
