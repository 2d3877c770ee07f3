"""Draw the README's picture of the page anew: `python -m pictures.page`. It needs Chromium."""

import asyncio
import io
from datetime import datetime
from pathlib import Path
from tempfile import TemporaryDirectory

from PIL import Image
from playwright.async_api import Browser, async_playwright

from classclock.clock.class_clock import ClassClock
from classclock.clock.source import MS, WoundSource, stamp_now
from classclock.demo.calls import calls
from classclock.demo.sample_class import demo_class
from classclock.following.follower import Follower
from classclock.following.page_messages import Served
from classclock.following.view_file import ToldView, ViewFile
from classclock.live.session import Session
from classclock.serve.page_server import PageServer, listen
from classclock.wall.colours.theme import DARK
from classclock.wall.seen.room_values import RoomView
from pictures.__main__ import SEED, SHOWN_AT

CHROMIUM = "chromium"
TV, PHONE = (1920, 1080), (390, 844)
HIGH = 620
"""Pixels of the picture."""
GAP = 24
FOLDER = Path(__file__).parent


async def draw(folder: Path) -> None:
    source = WoundSource(wall=datetime.fromisoformat("2026-03-03T18:30:00+01:00"))
    session, _ = demo_class(folder, seed=SEED, source=source, speed=1, sound=False)
    session.remember()  # what each did a week before
    ViewFile(session.journal.path).write(
        ToldView(str(session.journal.path.absolute()), RoomView(readings=1))
    )
    _until_shown(session, source)
    told: list[Served] = []
    follower = Follower(folder, session.club, clock_of=lambda _: ClassClock(source, 0))
    with listen("127.0.0.1", 0) as bound:
        server = PageServer(folder, session.club, bound, told.append, follower=follower)
        serving = asyncio.create_task(server.run())
        async with async_playwright() as driver:
            browser = await driver.chromium.launch(
                executable_path=f"/usr/bin/{CHROMIUM}", args=["--no-sandbox"]
            )
            url = told[-1].url
            parts = [await _shot(browser, url, TV), await _shot(browser, url, PHONE)]
            await browser.close()
        server.leave()
        await serving
    _beside(parts).save(FOLDER / "page.png", optimize=True)
    session.close()


def _until_shown(session: Session, source: WoundSource) -> None:
    """The moment that the picture of the wall has."""
    session.key("<enter>", stamp_now())
    source.jump(10_000 * MS)
    sheet = session.live.record.sheet
    if sheet is None:
        raise RuntimeError("the piece did not start")
    now = 0
    for call in calls(sheet, SEED)[0]:
        if call.at > SHOWN_AT:
            break
        source.jump((call.at - now) * MS)
        now = call.at
        for sign in call.signs:
            session.key(sign, stamp_now())
    source.jump((SHOWN_AT - now) * MS)


async def _shot(browser: Browser, url: str, size: tuple[int, int]) -> Image.Image:
    page = await browser.new_page(
        viewport={"width": size[0], "height": size[1]}, color_scheme="dark"
    )
    await page.goto(url)
    await page.wait_for_selector(".notes .ahead")
    await page.wait_for_timeout(500)
    return Image.open(io.BytesIO(await page.screenshot())).convert("RGB")


def _beside(parts: list[Image.Image]) -> Image.Image:
    scaled = [part.resize((round(part.width * HIGH / part.height), HIGH)) for part in parts]
    wide = sum(part.width for part in scaled) + GAP
    whole = Image.new("RGB", (wide, HIGH), DARK.bar)
    whole.paste(scaled[0], (0, 0))
    whole.paste(scaled[1], (scaled[0].width + GAP, 0))
    return whole.quantize(64)


if __name__ == "__main__":
    with TemporaryDirectory() as temporary:
        asyncio.run(draw(Path(temporary)))
