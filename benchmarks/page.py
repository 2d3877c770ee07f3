"""The page beside a class at speed 1: `python -m benchmarks.page`. It needs Chromium.

How long a tap takes to the page, how far its digits are from the laptop's (by the wall clock of
this machine, which both read), with the server stopped for two seconds now and then and the page
hidden; then how far 64 viewers lag, and what the server takes.
"""

import argparse
import asyncio
import os
import random
import statistics
import time
from collections.abc import AsyncIterator, Awaitable, Callable, Sequence
from contextlib import asynccontextmanager, suppress
from functools import partial
from itertools import cycle
from pathlib import Path
from tempfile import TemporaryDirectory

from msgspec import Struct
from msgspec.json import decode
from playwright.async_api import Page, async_playwright

from classclock.clock.source import MS, MachineSource, raw_now, stamp_now
from classclock.following.page_messages import Serve, Served
from classclock.following.page_process import PageProcess
from classclock.live.session import Session
from classclock.live.session_opening import open_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.serve.viewers import MOST_VIEWERS
from classclock.tally.lane_keys import people_named
from classclock.tally.lanes import Lane
from tests.signals import GO_ON, STOP

NAMES = ("Ilse", "Bram", "Noor", "Piet", "Tuva", "Uri", "Saoirse", "Odell")
PLAN = """
title = "Depot"
[[segment]]
name = "Points"
format = "rounds-in-time"
time = "40:00"
count_in = "0:03"
[[segment.station]]
movement = "box step-over"
reps = 6
"""
HIDING = """() => {
  const frame = window.requestAnimationFrame.bind(window);
  let waiting = [];
  let hidden = false;
  Object.defineProperty(document, "hidden", { get: () => hidden });
  window.requestAnimationFrame = (step) => (hidden ? waiting.push(step) : frame(step));
  window.hide = (now) => {
    hidden = now;
    document.dispatchEvent(new Event("visibilitychange"));
    if (!hidden) waiting.splice(0).forEach((step) => frame(step));
  };
}"""
"""As a browser does with a tab that isn't looked at: no frames until it is shown. A browser that is
steered holds all of its tabs to be seen."""
WATCH = """() => {
  window.seen = [];
  const last = {};
  const note = (kind, words) => {
    if (last[kind] !== words) window.seen.push([kind, words, Date.now()]);
    last[kind] = words;
  };
  const look = (part) => {
    if (part.nodeType !== Node.ELEMENT_NODE) return;
    const face = part.matches(".digits") ? part : part.querySelector(".digits");
    if (face && !document.hidden) note("digits", face.textContent);
    for (const lane of part.matches(".lane") ? [part] : part.querySelectorAll(".lane")) {
      note(lane.querySelector(".key").textContent, lane.querySelector(".tally").textContent);
    }
  };
  const room = document.getElementById("room");
  look(room);
  window.seen = [];
  new MutationObserver((changes) => {
    for (const change of changes) {
      if (change.target.matches(".digits")) look(change.target);
      else change.addedNodes.forEach(look);
    }
  }).observe(room, { childList: true, subtree: true });
}"""
"""Lanes are made anew at a tap, all of the wall when the link is back."""


class Stopped(Struct, frozen=True):
    """From when until when the server stood still, or the page was hidden (ms)."""

    began: float
    went_on: float
    ended: float
    hidden: bool
    key: str
    """Whose round was called meanwhile."""


def say(what: str, found: Sequence[float]) -> None:
    """The middle and the tail, in ms."""
    if not found:
        print(f"{what}: nothing was seen")
        return
    tail = sorted(found)[min(len(found) - 1, int(len(found) * 0.99))]
    middle = statistics.median(found)
    most = max(found)
    print(f"{what}: p50 {middle:.1f}, p99 {tail:.1f}, most {most:.1f} ms ({len(found)})")


@asynccontextmanager
async def served(folder: Path) -> AsyncIterator[tuple[Session, PageProcess, str]]:
    plan, _ = parse_plan(PLAN, "points.toml")
    if plan is None:
        raise RuntimeError("the plan can't be read")
    session = open_session(
        PlanFile("points", PLAN, plan),
        people_named(NAMES),
        folder=folder,
        club=Club(),
        source=MachineSource(),
        sound=False,
    )
    process = PageProcess(Serve(str(folder), "127.0.0.1", 0))
    while not isinstance(process.status, Served):  # noqa: ASYNC110  it is another process
        await asyncio.sleep(0.05)
    try:
        yield session, process, process.status.url
    finally:
        process.close()
        session.close()


async def tap(session: Session, rng: random.Random, lane: Lane) -> tuple[str, float]:
    """A round of this lane, and when it was (ms of the wall clock)."""
    at = time.time() * 1000  # noqa: TID251  a browser knows no other
    session.key(lane.key, stamp_now())
    await asyncio.sleep(rng.uniform(0.2, 0.6))
    return lane.key.upper(), at


async def in_a_browser(session: Session, process: PageProcess, url: str, seconds: int) -> None:
    async with async_playwright() as driver:
        browser = await driver.chromium.launch(
            executable_path="/usr/bin/chromium", args=["--no-sandbox"]
        )
        page = await browser.new_page(viewport={"width": 1920, "height": 1080})
        await page.add_init_script(f"({HIDING})()")
        await page.goto(url)
        await page.wait_for_selector(".lanes .lane", timeout=30_000)
        await page.evaluate(WATCH)
        rng = random.Random(1)  # noqa: S311  taps, no secrets
        end, taps = time.monotonic() + seconds, list[tuple[str, float]]()  # noqa: TID251  as above
        stopped: list[Stopped] = []
        lanes = cycle(session.live.lineup())  # no key again within its guard
        while time.monotonic() < end:  # noqa: TID251  as above
            if rng.random() < 0.03:
                calls = partial(tap, session, rng, next(lanes))
                stopped.append(await _stopped(process, page, calls, hide=rng.random() < 0.5))
            taps.append(await tap(session, rng, next(lanes)))
        seen = await page.evaluate("window.seen")
        await browser.close()
    _report(session, taps, seen, stopped)


async def _stopped(
    process: PageProcess,
    page: Page,
    calls: Callable[[], Awaitable[tuple[str, float]]],
    *,
    hide: bool,
) -> Stopped:
    """Two seconds of nothing, with half a second on each side in which no tap is fair."""
    began = time.time() * 1000  # noqa: TID251  as above
    if hide:
        await page.evaluate("window.hide(true)")
    elif process.pid is not None:
        os.kill(process.pid, STOP)
    await asyncio.sleep(1)
    key, _ = await calls()
    await asyncio.sleep(1)
    went_on = time.time() * 1000  # noqa: TID251  as above
    if hide:
        await page.evaluate("window.hide(false)")
    elif process.pid is not None:
        os.kill(process.pid, GO_ON)
    await asyncio.sleep(1)
    ended = time.time() * 1000  # noqa: TID251  as above
    return Stopped(began, went_on, ended, hide, key)


def _report(
    session: Session,
    taps: Sequence[tuple[str, float]],
    seen: Sequence[tuple[str, str, float]],
    stopped: Sequence[Stopped],
) -> None:
    view = session.live.view()
    if view is None:
        raise RuntimeError("no clock runs")
    now, raw, wall = session.live.clock.now(), raw_now(), time.time() * 1000  # noqa: TID251  as above
    go = wall - view.running.elapsed(now) - (raw / MS - raw // MS)
    total = view.timeline.total
    off = []
    for kind, words, at in seen:
        if kind == "digits":
            minutes, seconds = map(int, words.split(":"))
            due = go + total - (minutes * 60 + seconds) * 1000
            if not any(one.hidden and one.began <= at <= one.ended for one in stopped):
                off.append(abs(at - due))
    say("digits from the laptop's, stopped and hidden now and then", off)
    free = list(seen)
    lags = []
    for key, at in taps:
        found = next((one for one in free if one[0] == key and one[2] >= at - 1), None)
        if found is not None:
            free.remove(found)
            if not any(one.began <= at <= one.ended for one in stopped):
                lags.append(found[2] - at)
    say("a tap to the page", lags)
    _report_return(seen, stopped)


def _report_return(seen: Sequence[tuple[str, str, float]], stopped: Sequence[Stopped]) -> None:
    """How long after a stop the page has what was called meanwhile."""
    for hidden, what in ((False, "the server went on"), (True, "the page was shown again")):
        late = []
        for one in stopped:
            after = (at for key, _, at in seen if key == one.key and at >= one.began)
            if one.hidden == hidden and (found_at := next(after, None)) is not None:
                late.append(max(0, found_at - one.went_on))
        say(f"what was called meanwhile, once {what}", late)


async def with_viewers(session: Session, process: PageProcess, url: str, seconds: int) -> None:
    host, _, path = url.removeprefix("http://").partition("/")
    address, port = host.split(":")
    at: dict[str, float] = {}
    lags: list[float] = []

    async def look_on() -> None:
        reader, writer = await asyncio.open_connection(address, int(port), limit=2**20)
        writer.write(f"GET /{path}events HTTP/1.1\r\nHost: {host}\r\n\r\n".encode())
        try:
            async for line in reader:
                now = time.monotonic() * 1000  # noqa: TID251  as above
                if line.startswith(b'data: {"'):
                    parts = decode(line.removeprefix(b"data: "))
                    tapped = (part["key"].upper() for part in parts.values() if _is_lane(part))
                    lags.extend(now - at[key] for key in tapped if key in at)
        finally:
            writer.close()

    looking = [asyncio.create_task(look_on()) for _ in range(MOST_VIEWERS)]
    await asyncio.sleep(2)
    rng = random.Random(2)  # noqa: S311  as above
    end = time.monotonic() + seconds  # noqa: TID251  as above
    keys, lanes = [], cycle(session.live.lineup())
    while time.monotonic() < end:  # noqa: TID251  as above
        lane = next(lanes)
        at.clear()
        at[lane.key.upper()] = before = time.monotonic() * 1000  # noqa: TID251  as above
        session.key(lane.key, stamp_now())
        keys.append(time.monotonic() * 1000 - before)  # noqa: TID251  as above
        await asyncio.sleep(rng.uniform(0.3, 0.9))
    for one in looking:
        one.cancel()
    for one in looking:
        with suppress(asyncio.CancelledError):
            await one
    say(f"a tap to each of {MOST_VIEWERS} viewers", lags)
    say("a key's own work meanwhile", keys)
    print(f"the server's memory: {_resident(process.pid)} MB")


def _is_lane(part: object) -> bool:
    return isinstance(part, dict) and "tally" in part


def _resident(pid: int | None) -> int:
    status = Path(f"/proc/{pid}/status").read_text()
    return int(status.partition("VmRSS:")[2].split()[0]) // 1024


async def main(seconds: int, viewers_for: int) -> None:
    with TemporaryDirectory() as folder:
        async with served(Path(folder)) as (session, process, url):
            session.key("<enter>", stamp_now())
            await asyncio.sleep(4)
            await in_a_browser(session, process, url, seconds)
            await with_viewers(session, process, url, viewers_for)


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seconds", type=int, default=120, help="in the browser (%(default)s)")
    parser.add_argument("--viewers-for", type=int, default=120, help="seconds (%(default)s)")
    asked = parser.parse_args()
    asyncio.run(main(asked.seconds, asked.viewers_for))
