"""A class on the screen: keys to the class, what came of them to the views.

One screen for the whole class. What opens over it is part of it, so that every key still goes
where it always goes.
"""

import asyncio
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, assert_never

from textual import events
from textual._styles_cache import StylesCache
from textual.app import ComposeResult

from classclock.clock.cue_track import CueHeard, CueSkipped
from classclock.clock.source import stamp_now
from classclock.live.desk import Answer
from classclock.live.live_class import Outcome
from classclock.live.session import Session
from classclock.machine.awake import Awake
from classclock.machine.collecting import all_again, before_keys_come
from classclock.plan.model import is_piece
from classclock.screens.canvas.ground import Ground
from classclock.screens.canvas.held_resize import HeldResize
from classclock.screens.canvas.look import Look
from classclock.screens.controls.key_sign import signs_of
from classclock.screens.live import class_actions
from classclock.screens.live.class_answers import ClassAnswers
from classclock.screens.live.class_keys import ClassKeys
from classclock.screens.live.class_tasks import Autopilot, ClassTasks
from classclock.screens.live.class_views import ClassViews
from classclock.screens.live.clock_listener import ClockListener
from classclock.screens.live.foot.foot import Foot
from classclock.screens.live.foot.status_line import StatusLine
from classclock.screens.live.overlays.focus_line import FocusMoved
from classclock.screens.live.overlays.too_small import is_too_small
from classclock.screens.live.sound_keys import SoundKeys
from classclock.screens.live.standing import Standing
from classclock.sound.messages import Notice
from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.load_flags import flag_words
from classclock.wall.cue_words import STAYS, skipped_words, word_of
from classclock.wall.kept_off import said_to_the_room

if TYPE_CHECKING:
    # Named only, and not loaded before they are wanted.
    from classclock.screens.live.class_overlays import ClassOverlays
    from classclock.screens.live.wall.lane_row import LaneRow

_UPKEEP = 0.5
"""Seconds between two looks at what neither a key nor the clock brings."""


class ClassScreen(Ground, ClassAnswers):
    # As a path it would have all style sheets read again, before the first paint.
    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text("utf-8")
    AUTO_FOCUS = ""

    def __init__(
        self,
        session: Session,
        look: Look,
        *,
        notice: str = "",
        autopilot: Autopilot | None = None,
        keep_awake: bool = True,
    ) -> None:
        super().__init__()
        self.session = session
        self._notice, self._autopilot = notice, autopilot
        self._selected: str | None = None
        self._changed, self._loaded = False, False
        self._cue, self._cue_at = "", 0
        self._views = ClassViews(session, look)
        self._foot = Foot(session, look)
        self.look = look
        self._overlays: ClassOverlays | None = None
        self._keys = ClassKeys(
            self,
            SoundKeys(session.speaker, session.club.sound.volume, self._say_later),
            self._views.board_keys,
        )
        self._tasks = ClassTasks(
            session,
            ClockListener(
                session.live.clock, session.speaker, self._tick, self._cues_came, self._segment_over
            ),
            saved=self.show,
            remembered=self._remembered,
            awake=Awake(self._say_from_thread) if keep_awake else None,
        )
        self._resize = HeldResize(self._tasks.engine.until_change)
        self._standing = Standing(session, self._tasks.saver)

    # -- coming and going --------------------------------------------------------------

    def compose(self) -> ComposeResult:
        yield self._views
        yield self._foot

    @property
    def over(self) -> "ClassOverlays":
        """Made when first asked for, at the latest when the board is painted; hidden at first."""
        if self._overlays is None:
            from classclock.screens.live.class_overlays import ClassOverlays  # noqa: PLC0415  see above

            self._overlays = ClassOverlays(self.session, self.look)
            self.mount(*self._overlays.widgets())
        return self._overlays

    def on_mount(self) -> None:
        self.say(self._notice)
        self.show()
        self.call_after_refresh(self._settle_in)

    def _settle_in(self) -> None:
        """The clock, the sound and what isn't seen yet: all that can wait for the first paint."""
        self._tasks.start(wound=self._wound, press=self.press, pilot=self._autopilot)
        self.set_interval(_UPKEEP, self.look_after)
        if self.session.live.loads_unread:
            self.run_worker(self._plan_loads())
        if self.session.club.inventory:
            self.run_worker(self._learn_equipment())
        # Loaded before a key asks for them: the other views, and the letters' font.
        _ = self._views.started, self.over, self.look.letters("0", columns=10, rows=5)
        self.look_after()
        self.call_after_refresh(self._tasks.memory.ask)  # reading it loads a database

    def _remembered(self, trouble: str) -> None:
        if not self._loaded:  # all that a class needs is loaded now, the database last
            self._loaded = True
            before_keys_come()
        self.say(trouble)
        self._tasks.saver.ask()
        self.show()

    async def _plan_loads(self) -> None:
        await asyncio.to_thread(self.session.live.plan_loads)
        self.show()

    async def _learn_equipment(self) -> None:
        await asyncio.to_thread(self.session.learn_equipment)
        self.show()

    def on_unmount(self) -> None:
        self._tasks.stop()
        all_again()
        # Textual keeps a thousand of these, of widgets long gone, each with all that it painted.
        StylesCache.get_inner_outer.cache_clear()

    def leave(self) -> None:
        self.run_worker(self._leave_when_saved())

    async def _leave_when_saved(self) -> None:
        await self._tasks.saver.done()
        self.dismiss(None)

    # -- keys and clicks ---------------------------------------------------------------

    def on_key(self, event: events.Key) -> None:
        line = self.over.typed_into
        if line is not None and event.key not in ("ctrl+q", "ctrl+c"):
            line.on_key(event)  # it will have the focus in a moment
            return
        event.stop()
        event.prevent_default()
        for sign in signs_of(event.key, event.character):
            self._stroke(sign, event.time)

    def press(self, sign: str) -> None:
        """Type a sign as of now."""
        self._stroke(sign, stamp_now())

    def _stroke(self, sign: str, stamp: float) -> None:
        if not self.over.offer(sign) and not self._keys.press(sign, selected=self._selected):
            self._carry_out(self.session.key(sign, stamp))
        self._show_soon()

    def on_lane_row_clicked(self, event: "LaneRow.Clicked") -> None:
        if self.session.club.keyboard.click_taps:
            self.press(event.key)
            return
        lanes = self.session.live.lineup()
        clicked = next((lane.id for lane in lanes if lane.key == event.key), None)
        self._selected = None if clicked == self._selected else clicked
        self.show()

    def on_status_line_emergency_clicked(self, _: StatusLine.EmergencyClicked) -> None:
        self._screen_command(cmd.ShowCard())

    # -- what came of them -------------------------------------------------------------

    def _carry_out(self, answer: Answer) -> None:
        self.say(answer.notice)
        if answer.outcome is not None:
            self.came(answer.outcome)
        if answer.screen is not None:
            self._screen_command(answer.screen)

    def came(self, outcome: Outcome) -> None:
        self.say(said_to_the_room(outcome, self.session.live.record))
        if outcome.events:
            if any(isinstance(one, ev.PersonAdded) for one in outcome.events):
                self._tasks.memory.ask()
            if any(isinstance(one, ev.SegmentChosen | ev.ClassClosed) for one in outcome.events):
                self._selected = None
            self._tasks.engine.wake()
            if self.session.live.phase in ("board", "over", "closed"):
                self._tasks.saver.ask()
        self._show_soon()

    def _screen_command(self, command: cmd.ScreenCommand) -> None:
        match command:
            case cmd.Select(lane=lane):
                self._selected = lane
            case cmd.AddLate():
                self.over.ask_name()
            case cmd.ShowCard():
                before = not self.session.live.record.runs
                self.came(class_actions.stop_clock(self.session))  # a count-in is called off
                self.over.show_card(before=before)
            case cmd.ShowKeys():
                self.over.show_keys()
            case cmd.Leave() if self.session.live.record.closed:
                self.leave()
            case cmd.Leave():
                self.over.ask_leave()
            case _:
                assert_never(command)

    # -- what comes by itself ----------------------------------------------------------

    def _tick(self) -> None:
        """The digits first, together with their sound; what takes longer when they are painted."""
        self._views.show_digits()
        self.call_after_refresh(self.show)

    def _cues_came(self, cues: tuple[CueHeard | CueSkipped, ...]) -> None:
        if word := word_of(cues):
            self._cue, self._cue_at = word, self._real()
        self.say(skipped_words(cues))
        self.call_after_refresh(self.show)

    def _segment_over(self) -> None:
        if is_piece(self.session.live.record.segment):
            self.call_after_refresh(self._tasks.saver.ask)
        self.call_after_refresh(self.show)

    def _wound(self) -> None:
        self._tasks.engine.wake()
        self.call_later(self.look_after)

    def look_after(self) -> None:
        """The time of day, what lapses, the loudspeaker, the disk, the battery."""
        real = self._real()
        self.say(self.session.desk.lapse(real))
        for said in self.session.speaker.poll():
            late = "a sound was left out: too late"
            self._standing.sound(said.text if isinstance(said, Notice) else late, real)
        self._standing.look_again(real)
        if self.session.live.phase == "running":
            self._show_foot(real)  # all else comes with each second's tick
        else:
            self.show()

    def _real(self) -> int:
        return self.session.source.stroke_ms(stamp_now())

    # -- what is seen ------------------------------------------------------------------

    def show(self) -> None:
        """Bring the screen to how the class stands; only what changed is painted."""
        self._changed = False
        real = self._real()
        cue = self._cue if real - self._cue_at < STAYS else ""
        self._views.show(selected=self._selected, cue=cue)
        self._show_foot(real)

    def _show_foot(self, real: int) -> None:
        flagged = flag_words(self.session.live.record, self.session.live.loads)
        left_out = self.session.left_out if self.session.live.phase == "board" else ""
        troubles = (*self._standing.troubles(), *filter(None, (flagged, left_out)))
        rows = self._foot.show(troubles, real)
        if self._views.styles.margin.bottom != rows:
            self._views.styles.margin = (0, 0, rows, 0)
        if self._overlays is not None:
            self._overlays.pending.show(self.session.desk.pending)
            self._overlays.share.display &= self.session.live.phase == "board"

    def _show_soon(self) -> None:
        """Show it when all keys that have come are counted: a whole class may shout at once."""
        self._changed = True
        self.check_idle()

    def on_idle(self) -> None:
        if self._changed:
            self.show()

    async def on_event(self, event: events.Event) -> None:
        if isinstance(event, events.Resize) and (wait := self._resize.wait(event)):
            self.set_timer(wait, partial(self.post_message, event))
        else:
            await super().on_event(event)

    def on_resize(self, event: events.Resize) -> None:
        if (small := is_too_small(*event.size)) or self._overlays is not None:
            self.over.too_small.display = small

    def say(self, text: str) -> None:
        if text:
            self._foot.say(text, self._real())

    def _say_later(self, seconds: float, text: str) -> None:
        def say() -> None:
            self.say(text)
            self.show()

        self.set_timer(seconds, say)

    def _say_from_thread(self, text: str) -> None:
        self.app.call_from_thread(self.say, text)

    def on_focus_moved(self, event: FocusMoved) -> None:
        if not event.here or self._overlays is not None:
            self.over.focus.display = not event.here
