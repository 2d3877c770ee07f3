"""A class on the screen: keys to the class, what came of them to the views.

One screen for the whole class. What opens over it is part of it, so that every key still goes
where it always goes.
"""

import asyncio
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from textual import events, on, work
from textual._styles_cache import StylesCache
from textual.app import ComposeResult

from classclock.clock.source import stamp_now
from classclock.live.session import Session
from classclock.machine.awake import Awake
from classclock.machine.battery import Battery
from classclock.screens.canvas.look import Look
from classclock.screens.controls.focus_moved import FocusMoved
from classclock.screens.controls.key_sign import signs_of
from classclock.screens.controls.meant import Meant
from classclock.screens.live.background_work import Autopilot, BackgroundWork
from classclock.screens.live.class_display import ClassDisplay
from classclock.screens.live.overlays.focus_line import FocusLine
from classclock.screens.live.room_screen import RoomScreen
from classclock.screens.live.upkeep import EVERY
from classclock.wall.notices.class_notices import ClassNotices
from classclock.wall.on_disk_words import leave_words
from classclock.wall.seen.room_values import RoomView

if TYPE_CHECKING:
    # Named only, and not loaded before they are wanted.
    from classclock.screens.card.emergency_card import EmergencyCard
    from classclock.screens.live.class_control import ClassControl
    from classclock.screens.live.class_overlays import ClassOverlays
    from classclock.screens.live.overlays.leave_question import LeaveQuestion
    from classclock.screens.live.people.session_people import SessionPeople
    from classclock.wall.on_disk_words import LeaveWords


class ClassScreen(RoomScreen):
    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text("utf-8")

    overlays: "ClassOverlays"
    control: "ClassControl"
    """These two are there once `load` is through."""

    def __init__(
        self,
        session: Session,
        look: Look,
        *,
        notice: str = "",
        autopilot: Autopilot | None = None,
        battery: Battery | None = None,
        keep_awake: bool = True,
        serves: tuple[str, int | None] | None = None,
    ) -> None:
        """`serves` is where the page of the class is from the start; None: on asking."""
        super().__init__(look)
        self.session = session
        self._autopilot, self._serves = autopilot, serves
        self._loading, self._loaded, self._changed = asyncio.Lock(), False, False
        self.notices = notices = ClassNotices(session.source, lambda: session.live.phase)
        notices.must(notice)
        battery = battery or Battery()
        self.shown = ClassDisplay(session, notices, battery, look)
        self.work = BackgroundWork(
            *(session, notices, self.shown, battery),
            show=self.show,
            show_later=partial(self.call_after_refresh, self.show),
            awake=Awake() if keep_awake else None,
        )
        self._focus_line = FocusLine(look)

    # -- coming and going --------------------------------------------------------------

    def compose(self) -> ComposeResult:
        yield self.shown.views
        yield self.shown.foot
        yield self._focus_line
        yield self.too_small

    async def on_mount(self) -> None:
        if self.shown.own.on or not self.shown.views.on_the_board:
            await self.load()  # its first paint is another one: the coach's, or of a class rejoined
        self.shown.show()
        self.call_after_refresh(self._begin)

    async def load(self) -> None:
        """Wait for all that the first board doesn't need; who comes first has it made."""
        async with self._loading:
            if not self._loaded:
                await self._load()
                self._loaded = True

    async def _load(self) -> None:
        from classclock.screens.live.class_control import ClassControl  # noqa: PLC0415  see above
        from classclock.screens.live.class_overlays import ClassOverlays  # noqa: PLC0415
        from classclock.screens.live.people.people_desk import PeopleDesk  # noqa: PLC0415
        from classclock.screens.live.people.session_people import SessionPeople  # noqa: PLC0415

        session, notices, own = self.session, self.notices, self.shown.own
        await self.shown.load()
        look_up, keep_marks = self.work.naming.ask, self.work.marking.ask
        people = PeopleDesk(
            SessionPeople(
                session,
                own,
                look_up=look_up,
                keep_marks=keep_marks,
                look_at=lambda people: self.run_worker(self._look_at(people)),
            )
        )
        self.overlays = ClassOverlays(session, notices.log, people, own, self.look)
        await self.mount(*self.overlays.widgets())
        self.control = ClassControl(
            *(session, notices, self.work, self.shown.guide, self.overlays),
            own=own,
            changed=self._show_soon,
            after=self.set_timer,
            leave=self.leave,
        )

    async def _look_at(self, people: "SessionPeople") -> None:
        """Read what the coach should know of the people, and show it."""
        read = await asyncio.to_thread(people.flagged.read)
        if read is not None:
            people.flags.learn(read)
            self.overlays.people.refresh_list()

    async def _begin(self) -> None:
        """The clock, the sound, the files: all that can wait for the first paint."""
        await self.load()
        look_soon = partial(self.call_later, self.look_after)
        self.work.start(look_soon, press=self.press, pilot=self._autopilot)
        self.set_interval(EVERY, self.look_after)
        self.run_worker(self.work.read_ahead())
        self.look.letters("0", columns=10, rows=5)  # their font, before a key asks for it
        if self._serves is not None:
            self.work.serving.start(*self._serves)
        self.look_after()
        self.call_after_refresh(self.work.reading.ask)  # it loads a database

    def on_unmount(self) -> None:
        self.work.stop()
        # Textual keeps a thousand of these, of widgets long gone, each with all that it painted.
        StylesCache.get_inner_outer.cache_clear()

    @work
    async def leave(self, told: "LeaveWords | None" = None) -> None:
        """Once all is on disk; what isn't has to be `told`, and left knowingly."""
        await self.work.put_on_disk()
        now = leave_words(self.session)
        if not now.warns or (told is not None and told.warns and told.lost == now.lost):
            if self.session.live.phase not in ("count-in", "running", "held"):
                self.work.telling.over()
            self.dismiss(None)
        else:
            self.overlays.ask_leave()

    # -- keys and clicks ---------------------------------------------------------------

    async def on_key(self, event: events.Key) -> None:
        await self.load()
        line = self.overlays.typed_into
        if line is not None and event.key not in ("ctrl+q", "ctrl+c"):
            line.on_key(event)  # it will have the focus in a moment
            return
        event.stop()
        event.prevent_default()
        for sign in signs_of(event.key, event.character):
            self.control.stroke(sign, event.time)

    async def on_paste(self, event: events.Paste) -> None:
        await self.load()
        self.overlays.people.paste(event.text)

    def press(self, sign: str) -> None:
        """Type a sign as of now."""
        self.control.stroke(sign, stamp_now())

    @on(Meant)
    async def carry_out(self, meant: Meant) -> None:
        await self.load()
        self.control.carry_out(meant, stamp_now())

    def on_emergency_card_fill_in(self, _: "EmergencyCard.FillIn") -> None:
        self.app.push_screen(self.control.card_form(self.look), self.control.fill_in)

    def on_screen_question_asked(self) -> None:
        """The answer, once it comes, is to be seen at once."""
        self.call_after_refresh(self.shown.views.ready_coach)

    def on_leave_question_leave(self, meant: "LeaveQuestion.Leave") -> None:
        self.leave(meant.words)

    # -- what is seen ------------------------------------------------------------------

    def show(self) -> None:
        """Bring the screen to how the class stands."""
        self._changed = False
        self.overlays.follow()
        self.shown.foot.people_listed = self.overlays.people.display
        self.shown.show()
        self.work.telling.tell(self._room_view())

    def _room_view(self) -> RoomView:
        card, share = self.overlays.card, self.overlays.share
        sharing = share.display and bool(share.starts)
        return self.shown.guide.room_view(card=card.display, sharing=sharing)

    def until_change(self) -> float:
        return self.work.engine.until_change()

    def look_after(self) -> None:
        """What neither a key nor the clock brings."""
        self.work.upkeep.look()
        for words in self.work.serving.said():
            self.notices.must(words)
        self.overlays.link.show(self.work.serving.status)
        if self.session.live.phase == "running":
            self.shown.show_foot()  # all else comes with each second's tick
            self.overlays.follow()
        else:
            self.show()

    def _show_soon(self) -> None:
        """Show it when all keys that have come are counted: a whole class may shout at once."""
        self._changed = True
        self.check_idle()

    def on_idle(self) -> None:
        if self._changed:
            self.show()

    def on_focus_moved(self, event: FocusMoved) -> None:
        self._focus_line.display = not event.here
