"""Every screen of a club, walked through by its keys, and all that is drawn meanwhile looked at."""

import importlib
import pkgutil
from collections.abc import AsyncIterator, Callable, Iterator
from contextlib import asynccontextmanager
from typing import Any

import pytest
from textual import events
from textual.geometry import Size
from textual.pilot import Pilot
from textual.screen import Screen
from textual.strip import Strip
from textual.widget import Widget

import classclock.screens
from classclock.clock.source import MS
from classclock.drafts.plan_being_written import open_plan
from classclock.following.follower import Follower
from classclock.following.page_messages import NotServed, Served
from classclock.following.view_file import ToldView, ViewFile
from classclock.machine.battery import Battery
from classclock.machine.terminal_kinds import kind_from
from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.flags.flags_screen import FlagsScreen
from classclock.screens.following.following_screen import FollowingScreen
from classclock.screens.live.class_screen import ClassScreen
from classclock.screens.ways import Ways
from classclock.tally.commands import Next, Start
from classclock.wall.seen.room_values import RoomView
from tests.faults.hostile_club import HostileClub, steers, written

OF_PAGES = (
    "classclock.screens.pages.",
    "classclock.screens.card.emergency_screen",
    "classclock.screens.controls.drawn_view",
    "classclock.screens.controls.reading_screen",
)
"""Where the kinds are that only pages are of."""


class Drawn:
    """What was drawn, by the widget's or the screen's kind."""

    def __init__(self) -> None:
        self.count = 0
        self.kinds: set[type] = set()

    def look_at(self, what: Any, rows: "tuple[Strip, ...] | list[Strip]") -> None:
        self.count += 1
        self.kinds.add(type(what))
        for row in rows:
            text = "".join(segment.text for segment in row)
            assert steers(text.replace("\n", "\x00")) == [], (what, text)

    def lacks(self, *, pages: bool) -> set[str]:
        """The kinds of screens and of drawn widgets that there are, and that were not drawn.

        Of `pages` before and after a class, or of all else.
        """
        for module in pkgutil.walk_packages(classclock.screens.__path__, "classclock.screens."):
            importlib.import_module(module.name)
        ours = {*_kinds_of(Painted), *_kinds_of(Screen)}
        drawn = {base for kind in self.kinds for base in kind.__mro__}
        lacking = {kind for kind in ours - drawn if pages == kind.__module__.startswith(OF_PAGES)}
        return {kind.__name__ for kind in lacking}


def _kinds_of(kind: type[Widget]) -> Iterator[type[Widget]]:
    for each in kind.__subclasses__():
        if each.__module__.startswith("classclock."):
            yield each
        yield from _kinds_of(each)


@pytest.fixture
def drawn(monkeypatch: pytest.MonkeyPatch) -> Drawn:
    """Looks at every drawing, whether or not it comes to the screen."""
    seen = Drawn()
    kept_rows = Painted._kept_rows

    def watched(self: Painted, size: Size) -> tuple[Strip, ...]:
        before = self._painted
        rows = kept_rows(self, size)
        if rows is not before:
            seen.look_at(self, rows)
        return rows

    monkeypatch.setattr(Painted, "_kept_rows", watched)
    return seen


class Walk:
    """One page or class on the screen, and the keys that are struck at it."""

    def __init__(self, pilot: "Pilot[str]", drawn: Drawn, club: HostileClub) -> None:
        self._pilot, self._drawn, self._club = pilot, drawn, club

    async def strikes(self, keys: str) -> None:
        """These keys, with spaces between; `<hostile>` is pasted, `+10` winds the class's time."""
        for key in keys.split():
            if key == "<hostile>":
                self._pilot.app.screen.post_message(events.Paste(self._club.hostile))
            elif key.startswith("+"):
                self._club.source.jump(int(key) * 1000 * MS)
            elif key == "<away>":
                self._pilot.app.post_message(events.AppBlur())
            else:
                await self._pilot.press(key)
            await self.looks()

    async def looks(self) -> None:
        """Wait until all is read and painted, and look at the whole screen."""
        await self._pilot.pause()
        page: Screen[Any] = self._pilot.app.screen
        reading = [worker for worker in page.workers if worker.node is page]
        if reading and not isinstance(page, ClassScreen):
            await page.workers.wait_for_complete(reading)
            await self._pilot.pause()
        self._drawn.look_at(page, page._compositor.render_strips())


@asynccontextmanager
async def walk(
    page: Screen[Any], look: Look, size: tuple[int, int], drawn: Drawn, club: HostileClub
) -> AsyncIterator[Walk]:
    async def flow(app: ClassclockApp) -> str:
        await app.push_screen_wait(page)
        return "done"

    async with ClassclockApp(look, flow).run_test(size=size) as pilot:
        walked = Walk(pilot, drawn, club)
        await walked.looks()
        yield walked


TYPED = "N o <hostile>"
PAGES = {
    "letters": "x a",
    "first_run": f"enter enter 6 full_stop minus {TYPED} enter enter enter enter",
    "card": f"{TYPED} tab {TYPED} enter enter",
    "home": f"down enter up f8 escape escape f2 escape f6 escape f7 escape f9 escape {TYPED}",
    "clock": f"{TYPED} enter tab",
    "who": f"down enter down enter ctrl+k escape ctrl+e {TYPED} enter ctrl+n 1 ctrl+o ctrl+t f7 "
    f"{TYPED} enter f6 f6 escape ctrl+s enter",
    "chart": f"down right tab {TYPED} escape enter f7",
    "athlete": "down right f7",
    "weeks": "down right",
    "new_plan": f"down down {TYPED} enter",
    "editor": f"down down enter {TYPED} enter escape down down down enter {TYPED} enter ctrl+s "
    "escape",
}
"""The keys that are struck at each page."""
BOTH = "+2 ctrl+w +2 ctrl+w "
"""The room's wall, and the coach's own screen again."""
CLASS = (
    f"ctrl+w f7 {BOTH}question_mark question_mark escape "
    f"tab tab shift+tab escape ctrl+t ctrl+t 1 ctrl+t escape "
    "ctrl+f escape "
    f"ctrl+p plus {TYPED} escape ctrl+e {TYPED} escape tab {TYPED} escape f7 1 f7 escape "
    f"ctrl+g {TYPED} enter escape "
    f"plus {TYPED} enter exclamation_mark tab escape {TYPED} enter escape f7 escape ctrl+n escape "
    f"ctrl+e {TYPED} enter "
    "ctrl+q escape 6 0 i colon i 1 greater_than i b enter +10 +30 <away> +100 enter +2 "
    # by load
    f"f7 +2 enter escape +2 enter {BOTH}+10 i 6 0 b minus b {BOTH}+100 +200 i {BOTH}"
    "f9 6 0 enter N enter escape "
    # what is short is shared
    "+2 enter +2 ctrl+t +2 ctrl+t 1 +2 ctrl+t escape +2 enter "
    # by rounds
    f"+10 i 2 n +30 i b {BOTH}space exclamation_mark escape equals_sign +2 space +2 full_stop n "
    "greater_than i b +300 +10 2 i 3 b i f9 3 plus 4 enter N enter escape +2 enter +2 enter +2 "
    f"{BOTH}"
    # over
    "5 i ctrl+n escape question_mark escape"
)
"""The keys that are struck at a class, from its board to its end."""


async def draws_every_page(
    club: HostileClub, look: Look, size: tuple[int, int], drawn: Drawn
) -> None:
    settings, plan_file, ways = club.settings(), club.plan_file(), Ways(look, club.folder)
    athlete, benchmark = club.names[0].lower(), f"<turntable{club.hostile}>"
    kind = kind_from({"TERM": f"term{club.hostile}"}).name
    pages: dict[str, Callable[[], Screen[Any]]] = {
        "letters": lambda: ways.letters(kind),
        "card": lambda: ways.card(settings),
        "home": lambda: ways.home(settings),
        "clock": lambda: ways.clock(club.hostile),
        "who": lambda: ways.who(plan_file.plan, settings, club.source.wall()),
        "chart": lambda: ways.chart(settings),
        "athlete": lambda: ways.athlete(settings, athlete, benchmark),
        "weeks": lambda: ways.weeks(settings),
        "new_plan": ways.new_plan,
        "editor": lambda: ways.editor(open_plan(club.plan), settings),
        "first_run": ways.first_run,
    }
    for name, make in pages.items():
        if name == "first_run":
            (club.folder / "club.toml").unlink()
        async with walk(make(), look, size, drawn, club) as walked:
            await walked.strikes(PAGES[name])


async def draws_a_class(club: HostileClub, look: Look, size: tuple[int, int], drawn: Drawn) -> None:
    session = club.opens()
    live = session.live
    live.plan_loads()
    flags = FlagsScreen(look, live, mirrored=False)
    async with walk(flags, look, size, drawn, club) as walked:
        await walked.strikes("escape")
    battery = Battery(lambda: club.hostile)
    screen = ClassScreen(
        session, look, notice=club.of("noticed"), battery=battery, keep_awake=False
    )
    async with walk(screen, look, size, drawn, club) as walked:
        await screen.load()
        await walked.strikes(CLASS)
        screen.overlays.place.ask()
        await walked.strikes(f"{TYPED} escape")
        link = screen.overlays.link
        link.show(Served(club.hostile, club.hostile, 1, (club.hostile,)))
        link.turn()
        await walked.looks()
        link.show(NotServed(club.hostile))
        await walked.looks()
        await walked._pilot.resize_terminal(40, 10)
        await walked.looks()
    session.close()
    await _draws_it_followed(club, look, size, drawn)


async def _draws_it_followed(
    club: HostileClub, look: Look, size: tuple[int, int], drawn: Drawn
) -> None:
    """Another class as whoever follows it sees it, with the card up and a class that is refused."""
    session = club.opens()
    clock = session.live.clock
    told = ToldView(str(session.journal.path), RoomView(card=True, saved=(club.hostile,)))
    ViewFile(session.journal.path).write(told)
    (club.folder / "club.toml").write_text(
        written('[emergency]\naddress = "<yard>"\n', club.hostile)
    )
    follower = Follower(club.folder, club.settings(), clock_of=lambda _: clock)
    screen = FollowingScreen(look, follower, club.folder)
    async with walk(screen, look, size, drawn, club) as walked:
        for _ in range(3):
            session.live.do(Start())
            club.source.jump(3_600_000 * MS)
            await screen.look_at_class()
            await walked.strikes("question_mark escape i")
            session.live.do(Next())
        follower.trouble, follower.followed = f"refused {club.hostile}", None
        await screen._turn_to(None)
        screen.show()
        await walked.looks()
    session.close()
