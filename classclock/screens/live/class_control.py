"""What the coach does to a class, by key, click or answer: carried out, said, followed up."""

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, assert_never

from classclock.live.live_class import Outcome
from classclock.live.session import Session
from classclock.screens.canvas.look import Look
from classclock.screens.card.emergency_card import EmergencyCard
from classclock.screens.controls.line_entry import LineEntry
from classclock.screens.controls.meant import Meant
from classclock.screens.flags.flags_overlay import FlagsOverlay
from classclock.screens.live import class_actions
from classclock.screens.live.background_work import BackgroundWork
from classclock.screens.live.class_guide import ClassGuide
from classclock.screens.live.class_keys import ClassKeys
from classclock.screens.live.class_overlays import ClassOverlays
from classclock.screens.live.foot.notice_line import NoticeLine
from classclock.screens.live.link_keys import LinkKeys
from classclock.screens.live.overlays.clock_entry import ClockEntry
from classclock.screens.live.overlays.correct_entry import CorrectEntry
from classclock.screens.live.overlays.fitting_overlay import FittingOverlay
from classclock.screens.live.overlays.name_entry import NameEntry
from classclock.screens.live.overlays.note_entry import NoteEntry
from classclock.screens.live.overlays.place_entry import PlaceEntry
from classclock.screens.live.overlays.screen_question import ScreenQuestion
from classclock.screens.live.overlays.share_overlay import ShareOverlay
from classclock.screens.live.own_or_wall import OwnScreen
from classclock.screens.live.sound_keys import SoundKeys
from classclock.screens.live.wall.lane_row import LaneRow
from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.decide_groups import AS_PLANNED, SharedWay
from classclock.tally.load_flags import LoadFlag
from classclock.wall.kept_off import said_to_the_room
from classclock.wall.notices.class_notices import ClassNotices

if TYPE_CHECKING:
    from classclock.plan.settings.club import Emergency
    from classclock.screens.card.emergency_screen import EmergencyScreen

_OTHER_BOARD = (ev.SegmentAdded, ev.SegmentChosen, ev.ClassClosed)
_NOT_SHOWN = "what was pasted holds a character that can't be shown: type it instead"


class ClassControl:
    def __init__(
        self,
        session: Session,
        notices: ClassNotices,
        work: BackgroundWork,
        guide: ClassGuide,
        overlays: ClassOverlays,
        *,
        own: OwnScreen,
        changed: Callable[[], None],
        after: Callable[[float, Callable[[], None]], object],
        leave: Callable[[], object],
    ) -> None:
        """`changed` is called when the class may look otherwise; `after` does a thing later (s)."""
        self._session, self._notices, self._work = session, notices, work
        self._guide, self._overlays, self._own = guide, overlays, own
        self._changed, self._after, self._leave = changed, after, leave
        sound = SoundKeys(session.speaker, session.club.sound.volume, self._say_later)
        pages = guide.page_keys
        self._keys = ClassKeys(
            *(session, overlays, sound, guide.board_keys, pages),
            link=LinkKeys(work.serving, overlays),
        )

    def stroke(self, sign: str, stamp: float) -> None:
        """A sign that was typed, with its message's stamp (CLOCK_MONOTONIC, s)."""
        self._notices.struck(sign)
        if not self._overlays.offer(sign):
            outcome = self._keys.press(sign, selected=self._guide.selected)
            if outcome is not None:
                self._came(outcome, sign)
            else:
                self._key_language(sign, stamp)
        self._changed()

    def carry_out(self, meant: Meant, stamp: float) -> None:  # noqa: C901, PLR0912  one case a meaning
        """What was clicked, or answered to what is open over the class."""
        session = self._session
        match meant:
            case LaneRow.Clicked(key=key):
                self._click(key, stamp)
            case NoticeLine.EmergencyClicked():
                self._show_card()
            case LineEntry.PasteRefused():
                self._notices.refuse(_NOT_SHOWN)
            case NameEntry.Named(name=name):
                self._came(class_actions.take_in(session, name))
            case NoteEntry.Noted(text=text, person_id=person_id):
                self._came(class_actions.note(session, text, person_id))
            case EmergencyCard.Noted(text=text):
                self._came(class_actions.note_emergency(session, text))
            case FlagsOverlay.LookedAt(flags=flags):
                self._acknowledge(flags)
            case ShareOverlay.Chose(segment=segment, way=way):
                self._share(segment, way)
            case FittingOverlay.Took(segment=segment, fit=fit):
                self._came(session.live.fit(segment, fit))
            case CorrectEntry.Corrected():
                outcome = session.live.do(cmd.Correct(meant.lane, meant.score, meant.reason))
                self._came(outcome)
                self._overlays.corrected(outcome)
            case ClockEntry.Said(segment=segment):
                self._came(session.live.start_clock(segment))
            case ScreenQuestion.NotOnTheTv():
                self._own.told()
                self._overlays.cover()
            case PlaceEntry.Given(folder=folder):
                self._came(class_actions.save_elsewhere(session, folder))
        self._changed()

    def card_form(self, look: Look) -> "EmergencyScreen":
        """What asks for the lines of the emergency card."""
        from classclock.screens.card.emergency_screen import EmergencyScreen  # noqa: PLC0415  once in a club's life

        return EmergencyScreen(look, self._session.settings, self._session.club.emergency)

    def fill_in(self, card: "Emergency | None") -> None:
        """The emergency card says this from now on; None: it was left as it is."""
        if card is not None:
            self._session.fill_in(card)
            self._overlays.show_card(before=True)
            self._changed()

    def _key_language(self, sign: str, stamp: float) -> None:
        answer = self._session.key(sign, stamp)
        if answer.outcome is None and answer.screen is None:
            self._notices.refuse(answer.notice, sign)
        else:
            self._notices.aside(answer.notice)  # what was typed before has lapsed
        if answer.outcome is not None:
            self._came(answer.outcome, sign)
        if answer.screen is not None:
            self._screen_command(answer.screen)

    def _screen_command(self, command: cmd.ScreenCommand) -> None:  # noqa: C901  one case a command
        match command:
            case cmd.Select(lane=lane):
                self._guide.selected = lane
            case cmd.AddLate():
                self._overlays.ask_name()
            case cmd.WriteNote():
                self._overlays.ask_note()
            case cmd.ShowCard():
                self._show_card()
            case cmd.ShowKeys():
                self._overlays.show_keys()
            case cmd.ShowPeople():
                self._overlays.turn_people()
            case cmd.TurnScreen():
                self._overlays.turn_screen()
            case cmd.ShowNotices():
                self._overlays.turn_notices()
            case cmd.Leave() if self._session.live.record.closed:
                self._leave()
            case cmd.Leave():
                self._overlays.ask_leave()
            case _:
                assert_never(command)

    def _click(self, key: str, stamp: float) -> None:
        """On the lane with this key: it selects, or lets go; it taps where the club wants that."""
        if self._session.club.keyboard.click_taps:
            self.stroke(key, stamp)
            return
        lanes = self._session.live.lineup()
        clicked = next((lane.id for lane in lanes if lane.key == key), None)
        self._guide.selected = None if clicked == self._guide.selected else clicked

    def _acknowledge(self, flags: Iterable[LoadFlag]) -> None:
        for flag in flags:
            self._came(self._session.live.acknowledge(flag.person_id, flag.segment, flag.text))

    def _share(self, segment: int, way: SharedWay) -> None:
        """As chosen, with who shares and starts where; or all as planned."""
        self._came(self._session.live.share_so(segment, way))
        if way != AS_PLANNED:
            self._came(self._overlays.show_sharing())

    def _show_card(self) -> None:
        """The emergency card, the clock held; a count-in is called off."""
        before = not self._session.live.record.runs
        self._came(class_actions.stop_clock(self._session))
        self._overlays.show_card(before=before)

    def _came(self, outcome: Outcome, sign: str = "") -> None:
        """Say what came of a command, and see to what it asks for."""
        if outcome.refused:
            self._notices.refuse(outcome.text, sign)
        else:
            self._notices.answer(said_to_the_room(outcome, self._session.live.record))
        if outcome.events:
            if any(isinstance(one, _OTHER_BOARD) for one in outcome.events):
                self._guide.selected = None
            self._work.follow(outcome.events)

    def _say_later(self, seconds: float, text: str) -> None:
        def say() -> None:
            self._notices.answer(text)
            self._changed()

        self._after(seconds, say)
