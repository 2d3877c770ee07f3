"""A made class on its screens, in whatever state and size of the window is asked for."""

from collections.abc import AsyncIterator, Collection, Sequence
from datetime import datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory

from msgspec import Struct
from textual.pilot import Pilot

from classclock.clock.source import WoundSource
from classclock.live.session import Session
from classclock.live.session_opening import open_session
from classclock.machine.battery import Battery
from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.cells import Drawing, plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.live.class_screen import ClassScreen
from classclock.tally.lane_keys import people_named
from classclock.units.cell_dots import CellDots
from readable.made_plan import CLUB, made_plan
from readable.marked_look import Ledger, marked
from readable.names import Letters, people
from readable.room_texts import Wanted, wanted
from readable.script import STATES, Script, State

_TODAY = datetime.fromisoformat("2026-03-03T18:30:00+01:00")
_WEEK = timedelta(days=7)
_ENDS = timedelta(hours=2)


class Size(Struct, frozen=True):
    columns: int
    rows: int

    def __str__(self) -> str:
        return f"{self.columns}x{self.rows}"


class Kind(Struct, frozen=True):
    """Who is in the class, and what letters are made of."""

    lanes: int
    letters: Letters
    dots: CellDots = "sextants"


class Seen(Struct, frozen=True):
    """A screen, and what the room has to be able to read there."""

    kind: Kind
    state: State
    size: Size
    pages: tuple[Drawing, ...]
    """One, or where there are several all of them, in turn."""
    wanted: tuple[Wanted, ...]
    ledger: Ledger


async def seen(
    kind: Kind, sizes: Sequence[Size], states: Collection[State] = STATES
) -> AsyncIterator[Seen]:
    """Each of these states, in windows of these sizes."""
    # A thread may still be writing there what a wall elsewhere would show.
    with TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        _held_before(Path(folder), kind)
        session, source = _opened(Path(folder), kind, _TODAY)
        session.remember()
        look = marked(Look().with_dots(kind.dots))
        screen = ClassScreen(session, look, battery=Battery(lambda: ""), keep_awake=False)

        async def flow(app: ClassclockApp) -> str:
            await app.push_screen_wait(screen)
            return ""

        async with ClassclockApp(look, flow).run_test(size=(120, 36)) as pilot:
            await pilot.pause()
            await screen.load()
            left = set(states)
            for state in Script(session, source, screen.press, 0).states():
                if state in left:
                    left.discard(state)
                    for size in sizes:
                        await pilot.resize_terminal(size.columns, size.rows)
                        pages = [page async for page in _pages(pilot, screen, state)]
                        texts = wanted(state, session)
                        yield Seen(kind, state, size, tuple(pages), texts, look.ledger)
                if not left:
                    break
                await pilot.pause()
        session.close()


async def _pages(pilot: Pilot[str], screen: ClassScreen, state: State) -> AsyncIterator[Drawing]:
    """As it stands, and where there are other pages those, until the first comes again."""
    seen_before: set[str] = set()
    while True:
        screen.show()
        await pilot.pause()
        page = tuple(
            tuple(strip)
            for strip in screen._compositor.render_strips()  # noqa: SLF001  cells, not a picture
        )
        if (text := plain_text(page)) in seen_before:
            return
        yield page
        if not state.startswith(_TURNS):
            return
        seen_before.add(text)
        screen.press("<right>")


_TURNS = ("settle", "end", "board")
"""States in which what doesn't stand on one page has several."""


def _opened(folder: Path, kind: Kind, wall: datetime) -> tuple[Session, WoundSource]:
    source = WoundSource(0, wall=wall)
    session = open_session(
        made_plan(),
        people_named(people(kind.lanes, kind.letters)),
        folder=folder,
        club=CLUB,
        source=source,
        ends=(wall + _ENDS).isoformat(),
        sound=False,
    )
    return session, source


def _held_before(folder: Path, kind: Kind) -> None:
    """The same class a week before, so that there are earlier scores."""
    session, source = _opened(folder, kind, _TODAY - _WEEK)

    def press(sign: str) -> None:
        if sign not in _LOOKED_AT:
            session.key(sign, 0.0)

    for _ in Script(session, source, press, 4).states():
        pass
    session.save()
    session.close()


_LOOKED_AT = {"<tab>", "<ctrl+t>", "<ctrl+p>", "!", "<escape>"}
"""Keys that only open something."""
