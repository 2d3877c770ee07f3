"""The page in a real browser, beside a class that runs in real time."""

import asyncio
from typing import Any

import pytest

from classclock.clock.source import MS, MachineSource, WoundSource, stamp_now
from classclock.following.view_file import ToldView, ViewFile
from classclock.live.session import Session
from classclock.tally import events as ev
from classclock.wall.seen.page_turning import PageOn, PageTurns
from classclock.wall.seen.room_values import RoomView
from tests.following.conftest import PLAN
from tests.serve.browser import PHONE, TV, Watched, needs_chromium, opened, said
from tests.serve.conftest import OpenPage, Started
from tests.short_pieces import short_pieces

pytestmark = [needs_chromium, pytest.mark.real_time]
HOSTILE = '<img src=x onerror="document.title=1">'
PIECE = 1
SIZES = TV, PHONE, (1280, 720), (844, 390), (768, 1024)


def at_the_piece(start_class: Started, *names: str) -> Session:
    plan = PLAN.replace('time   = "16:00"', 'time = "16:00"\ncount_in = "0:04"')
    session = start_class(*names, plan=plan, source=MachineSource())
    session.live.record_event(ev.SegmentChosen(session.live.clock.now(), PIECE))
    return session


def type_in(session: Session, sign: str) -> None:
    session.key(sign, stamp_now())


async def begin(session: Session, watched: Watched) -> None:
    """From the board to the running wall."""
    type_in(session, "<enter>")
    await watched.page.wait_for_selector(".lanes .lane", timeout=20_000)


async def until_said(watched: Watched, selector: str, words: str) -> None:
    await said(watched.page.locator(selector).first, lambda shown: words in shown)


async def text_of(watched: Watched, selector: str) -> str:
    return (await watched.page.text_content(selector)) or ""


async def test_a_class_from_its_board_to_a_tap(open_page: OpenPage, start_class: Started) -> None:
    session = at_the_piece(start_class, "Ilse", HOSTILE)
    async with open_page() as page, opened(page.url) as watched:
        await watched.page.wait_for_selector(".board .people")
        assert "Turntable" in await text_of(watched, "h1")
        assert HOSTILE in await text_of(watched, ".people"), "as text"
        await begin(session, watched)
        type_in(session, "i")
        await until_said(watched, ".lane .tally", "1")
        shown, due = await asyncio.gather(
            text_of(watched, ".digits"), asyncio.sleep(0, session.live.view())
        )
        assert due is not None
        reading = due.at(session.live.clock.now())
        minutes, seconds = map(int, shown.split(":"))
        assert abs(minutes * 60 + seconds - reading.shown) <= 1
        assert await watched.page.title() == "The wall", "no name, and nothing has run"
        origin = page.url.partition(page.path)[0]
        assert all(url.startswith(origin) for url in watched.asked), "nothing from elsewhere"
        assert all(HOSTILE[:5] not in url and "Ilse" not in url for url in watched.asked)
        assert watched.wrong == [], "nothing that the policy forbids was tried"
    session.close()


async def test_a_screen_reader_has_lists_names_and_words(
    open_page: OpenPage, start_class: Started
) -> None:
    session = at_the_piece(start_class, "Ilse", "Bram")
    async with open_page() as page, opened(page.url) as watched:
        await watched.page.wait_for_selector(".board .people")
        assert await watched.page.get_by_role("heading", name="Turntable").count() == 1
        await begin(session, watched)
        assert await watched.page.get_by_role("timer").count() == 1
        lanes = watched.page.get_by_role("listitem").filter(has_text="Ilse")
        assert await lanes.count() == 1
        assert "Turntable" in await text_of(watched, "#aloud")
        type_in(session, "<space>")
        await until_said(watched, "#aloud", "HELD")
    session.close()


async def test_the_end_turns_by_the_coachs_keys_and_by_those_here(
    open_page: OpenPage, start_class: Started
) -> None:
    session = start_class("Ilse", plan=short_pieces(("Night line", "Yard lap")))
    source, live = session.source, session.live
    assert isinstance(source, WoundSource)
    for number in range(2):
        live.record_event(ev.SegmentChosen(live.clock.now(), number))
        for sign, seconds in (("<enter>", 60), ("i", 60), ("<enter>", 2)):
            session.key(sign, 0.0)
            source.jump(seconds * 1000 * MS)
    live.record_event(ev.ClassClosed(live.clock.now()))
    view = ViewFile(session.journal.path)

    async def turned(number: int, piece: str) -> None:
        turns = PageTurns(PageOn(number, by_hand=True, among=2), stopped=True)
        view.write(ToldView(str(session.journal.path), RoomView(turns=turns)))
        await until_said(watched, "h1", piece)

    async with open_page(source) as page, opened(page.url) as watched:
        await until_said(watched, "h1", "Night line")
        async with asyncio.timeout(6):  # by itself it turns after eight
            await turned(1, "Yard lap")
            await turned(2, "Night line")
        await watched.page.keyboard.press("ArrowRight")
        await until_said(watched, "h1", "Yard lap")
    session.close()


async def test_keys_reach_what_the_page_has(open_page: OpenPage) -> None:
    async with open_page() as page, opened(page.url) as watched:
        await watched.page.wait_for_selector(".said")
        ground = "getComputedStyle(document.body).backgroundColor"
        before = await watched.page.evaluate(ground)
        await watched.page.keyboard.press("Tab")
        await watched.page.keyboard.press("Tab")
        await watched.page.keyboard.press("Enter")
        assert await watched.page.evaluate(ground) != before
        pressed = await watched.page.get_attribute("#look", "aria-pressed")
        assert pressed == "true"


async def test_sounds_are_scheduled_once_somebody_turned_them_on(
    open_page: OpenPage, start_class: Started
) -> None:
    session = at_the_piece(start_class, "Ilse", "Bram")
    async with open_page() as page, opened(page.url) as watched:
        await watched.page.wait_for_selector(".board .people")
        await watched.page.evaluate(
            """() => {
              window.started = [];
              const start = AudioBufferSourceNode.prototype.start;
              AudioBufferSourceNode.prototype.start = function (when) {
                const context = this.context;
                const until = (when + (context.outputLatency || 0) - context.currentTime) * 1000;
                const { clock, state } = window.wallPage;
                const at = (clock.now() - state.clock.zero / 1000) + until;
                window.started.push([at, this.buffer.duration]);
                return start.call(this, when);
              };
            }"""
        )
        await watched.page.click("#sound")
        await begin(session, watched)
        started = await watched.page.evaluate("window.started")
        assert len(started) >= 4, "three, two, one, go"
        for (at, length), due in zip(started, (-3_000, -2_000, -1_000, 0), strict=False):
            assert abs(at - due) < 50, "within 50 ms of the page's digits"
            assert length > 0.05
        assert await watched.page.get_attribute("#sound", "aria-pressed") == "true"
    session.close()


async def test_a_bare_page_shows_digits_and_goes_on_once_it_is_let_in(
    open_page: OpenPage, start_class: Started
) -> None:
    session = at_the_piece(start_class, "Ilse", "Bram")
    async with open_page() as page, opened(f"http://127.0.0.1:{page.port}/") as watched:
        await until_said(watched, "#digits", " ")
        digits = (await text_of(watched, "#digits")).replace(" ", "")
        assert page.told[-1].waiting == (digits,)
        assert "Ilse" not in await watched.page.content()
        assert page.server.let_in(digits)
        await watched.page.wait_for_selector(".board .people")
    session.close()


async def test_a_clock_alone_stands_whole_after_its_count_in(
    open_page: OpenPage, start_class: Started
) -> None:
    plan = PLAN.replace('format = "countdown"', 'format = "countdown"\ncount_in = "0:03"')
    session = start_class("Ilse", plan=plan, source=MachineSource())
    async with open_page() as page, opened(page.url) as watched:
        await watched.page.wait_for_selector(".board")
        type_in(session, "<enter>")
        await until_said(watched, ".digits", ":")
        wide = """() => [".digits", ".clock"].map((one) =>
          document.querySelector(one).getBoundingClientRect().width)"""
        digits, room = await watched.page.evaluate(wide)
        assert digits <= room, "a count-in's digits were fewer"
    session.close()


async def test_nothing_is_cut_or_pushed_out(open_page: OpenPage, start_class: Started) -> None:
    names = [f"{name} {at}" for name in ("Saoirse", "Ilse", "Bartholomea") for at in "ABCDEF"]
    session = at_the_piece(start_class, *names)
    async with open_page() as page, opened(page.url, calm=True) as watched:
        await watched.page.wait_for_selector(".board .people")
        for size in SIZES:
            assert await cut(watched, size) == []
        await begin(session, watched)
        for size in SIZES:
            assert await cut(watched, size) == []
            clock, *others = await watched.page.evaluate(
                """() => [".digits", ".lane .name", ".lane .tally"].map((what) =>
                  parseFloat(getComputedStyle(document.querySelector(what)).fontSize))"""
            )
            assert clock > max(others), "the clock is the largest"
    session.close()


async def cut(watched: Watched, size: tuple[int, int]) -> list[Any]:
    """Texts of the room that reach beyond their box, or the window, at this size."""
    await watched.page.set_viewport_size({"width": size[0], "height": size[1]})
    await watched.page.wait_for_timeout(200)  # until it is drawn at its size
    found: list[Any] = await watched.page.evaluate(
        """() => {
          const wide = document.documentElement.clientWidth;
          const out = [];
          const every = "h1, .name, .tally, .digits, .does, .key, .shout, .cautions li";
          for (const one of document.querySelectorAll(every)) {
            const box = one.getBoundingClientRect();
            const within = one.closest(".fit, .lanes, .clock");
            const room = within ? within.getBoundingClientRect() : box;
            const low = document.body.classList.contains("narrow") ? Infinity : room.bottom + 2;
            const hides = getComputedStyle(one).overflow === "hidden";
            if (box.right > Math.min(wide, room.right) + 2 || box.bottom > low
                || hides && one.scrollWidth > one.clientWidth + 2) {
              out.push([one.className || one.tagName, one.textContent]);
            }
          }
          return out;
        }"""
    )
    return found
