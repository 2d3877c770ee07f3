"""What opens over a class: help, notices, the emergency card, questions, lines to type into."""

from collections.abc import Iterator

from textual.widget import Widget

from classclock.clock.source import stamp_now
from classclock.live.live_class import Outcome
from classclock.live.session import Session
from classclock.screens.canvas.look import Look
from classclock.screens.card.emergency_card import EmergencyCard
from classclock.screens.controls.line_entry import LineEntry
from classclock.screens.flags.flags_overlay import FlagsOverlay
from classclock.screens.live.overlays.clock_entry import ClockEntry
from classclock.screens.live.overlays.correct_entry import CorrectEntry
from classclock.screens.live.overlays.fitting_lines import fitting_now, time_line
from classclock.screens.live.overlays.fitting_overlay import FittingOverlay
from classclock.screens.live.overlays.keys_overlay import KeysOverlay
from classclock.screens.live.overlays.leave_question import LeaveQuestion
from classclock.screens.live.overlays.link_overlay import LinkOverlay
from classclock.screens.live.overlays.name_entry import NameEntry
from classclock.screens.live.overlays.note_entry import NoteEntry
from classclock.screens.live.overlays.notices_overlay import NoticesOverlay
from classclock.screens.live.overlays.pending_sign import PendingSign
from classclock.screens.live.overlays.place_entry import PlaceEntry
from classclock.screens.live.overlays.screen_question import ScreenQuestion
from classclock.screens.live.overlays.share_overlay import ShareOverlay
from classclock.screens.live.own_or_wall import OwnScreen
from classclock.screens.live.people.people_desk import PeopleDesk
from classclock.screens.live.people.people_keys import PEOPLE_KEYS
from classclock.screens.live.people.people_overlay import PeopleOverlay
from classclock.tally.decide_clock import why_no_clock
from classclock.tally.decide_groups import AS_PLANNED
from classclock.tally.load_flags import open_flags
from classclock.tally.piece import Piece
from classclock.tally.scores.scores import scores
from classclock.tally.visitors import visitors
from classclock.wall.notices.notice_log import NoticeLog
from classclock.wall.notices.pending_words import pending_words
from classclock.wall.on_disk_words import leave_words
from classclock.wall.share_content import shared_now
from classclock.wall.start_lines import start_lines


class ClassOverlays:
    """All of them are hidden until they are asked for; none of them swallows a tap."""

    def __init__(
        self, session: Session, log: NoticeLog, people: PeopleDesk, own: OwnScreen, look: Look
    ) -> None:
        """`own` says whether the room sees them."""
        mirrored = own.mirrored
        self._session, self._log, self._own = session, log, own
        self.people = PeopleOverlay(look, people)
        self.flags = FlagsOverlay(look)
        self.keys = KeysOverlay(look)
        self.notices = NoticesOverlay(look)
        self.share = ShareOverlay(look)
        self.fitting = FittingOverlay(look, lambda: session.source.stroke_ms(stamp_now()))
        self.card = EmergencyCard(look, mirrored=mirrored)
        self.link = LinkOverlay(look)
        self.leave = LeaveQuestion(look)
        self.name = NameEntry(look)
        self.note = NoteEntry(look, mirrored=mirrored)
        self.clock = ClockEntry(look)
        self.correct = CorrectEntry(look, mirrored=mirrored)
        self.place = PlaceEntry(look)
        self.screen = ScreenQuestion(look)
        self.pending = PendingSign(look)

    def widgets(self) -> Iterator[Widget]:
        for widget in (
            self.people,
            self.flags,
            self.keys,
            self.notices,
            self.share,
            self.fitting,
            self.link,
            self.card,
            self.leave,
            self.name,
            self.note,
            self.clock,
            self.correct,
            self.place,
            self.screen,
            self.pending,
        ):
            widget.display = False
            yield widget

    def offer(self, sign: str) -> bool:
        """Whether one that is open took this sign as its own; never a letter."""
        lists = (self.keys, self.fitting, self.share, self.flags, self.link)
        return any(
            one.offer(sign) for one in (self.leave, self.screen, self.card, self.notices, *lists)
        )

    @property
    def typed_into(self) -> LineEntry | None:
        """The line that has the keys to itself, if one is open."""
        lines: tuple[LineEntry, ...] = (
            *(self.name, self.note, self.clock, self.correct),
            *(self.place, self.card),
        )
        return next((line for line in lines if line.takes_keys), None)

    def follow(self) -> None:
        """Bring those that are open to how the class stands."""
        pending, live = self._session.desk.pending, self._session.live
        self.pending.show(pending, pending_words(live.record, pending, live.clock.now()))
        on_the_board = live.phase == "board"
        self.share.display &= on_the_board
        if self.share.display and self.share.starts:
            self.share.restart(start_lines(live))
        fitting = fitting_now(self._session) if self.fitting.display and on_the_board else None
        if fitting is None:
            self.fitting.display = False
        else:
            self.fitting.show(fitting)
        if self.leave.display:
            self.leave.say(leave_words(self._session))
        if live.phase in ("count-in", "running"):
            self.people.close()
        self.people.follow()
        self.notices.follow(self._log.newest_first())

    def turn_screen(self) -> None:
        """The coach's own screen, or the room's wall; asked first where the TV may show it."""
        if self._own.turn():
            self.cover()
        else:
            self.leave.display = False
            self.screen.ask()

    def cover(self) -> None:
        """Let those that are open hide from the room what it mustn't see, or show it."""
        self.people.repaint()
        for one in (self.card, self.note, self.correct):
            one.mirrored = self._own.mirrored
            one.repaint()
        if self._own.mirrored:
            self.flags.display = False

    def turn_people(self) -> None:
        """Open the list of who is here, or close it."""
        if self.people.display:
            self.people.close()
            return
        for other in (self.keys, self.notices, self.share, self.fitting, self.flags):
            other.display = False
        self.people.open()

    def turn_link(self) -> None:
        """Show where the page is, or no more."""
        for other in (self.keys, self.notices, self.share, self.fitting):
            other.display = False
        self.link.turn()

    def turn_notices(self) -> None:
        self.keys.display = False
        self.notices.turn(self._log.newest_first())

    def show_keys(self) -> None:
        if self.keys.display:
            self.keys.turn()
            return
        self.notices.display = False
        if self.people.display:
            self.keys.show_these(PEOPLE_KEYS)
            return
        live = self._session.live
        phase = live.phase
        piece = Piece.of(live.record.segment, live.record.unit)
        self.keys.show(piece.counts_by, "last" if phase == "closed" else phase)

    def show_card(self, *, before: bool) -> None:
        """`before`: nothing of this class has been started."""
        self.keys.display = False
        self.card.show(self._session.club.emergency, before=before)

    def show_flags(self) -> Outcome:
        """Show the flags on the loads to come; in words where that can't be."""
        live = self._session.live
        flags = open_flags(live.record, live.loads, (live.record.chosen.segment,))
        if not flags:
            return Outcome("no load has to be looked at")
        if self._own.mirrored:
            return _refused(
                "the room sees this screen: leave with ctrl+q, mute the TV, "
                "and classclock resume shows them first"
            )
        if live.phase != "board":
            return _refused("loads are looked at on the board, before the start")
        self.flags.show(flags)
        return Outcome()

    def turn_fitting(self) -> Outcome:
        """Show what fits the class to the clock, or no more; in words where nothing is to do."""
        if self.fitting.display:
            self.fitting.display = False
            return Outcome()
        if self._session.live.phase != "board":
            return _refused("the class is fitted on the board, before a start")
        content = fitting_now(self._session)
        if content is None:
            return _refused("nobody said when this class ends: there is no end to fit it to")
        if not content.fit.over and not content.taken:
            return Outcome(time_line(content.fit))
        self.keys.display = self.share.display = False
        self.fitting.show(content)
        return Outcome()

    def show_sharing(self) -> Outcome:
        """Show the ways to share; in words where there is nothing to show."""
        live = self._session.live
        offer = self._session.ways_to_share()
        if offer is not None:
            self.keys.display = self.fitting.display = False
            holds = shared_now(live.record)
            choosing = holds == AS_PLANNED or (self.share.display and self.share.starts)
            self.share.show(offer, holds, () if choosing else start_lines(live))
            return Outcome()
        if live.phase != "board":
            return _refused("equipment is shared on the board, before the start")
        if not self._session.club.inventory:
            return _refused("no equipment is counted: write [equipment] in club.toml")
        return Outcome("nothing that was counted is short here")

    def ask_name(self) -> None:
        live = self._session.live
        nameless = visitors(live.record.people)
        running = live.phase in ("count-in", "running")
        self.name.ask(running=running, visitor=nameless[0].name if nameless else "")

    def ask_note(self) -> None:
        live = self._session.live
        self.note.ask(live.record.people, running=live.phase in ("count-in", "running"))

    def ask_clock(self) -> Outcome:
        """Ask which clock is to run that the plan hasn't; in words where none can."""
        live = self._session.live
        if why := why_no_clock(live.record, live.clock.now()):
            return _refused(why)
        self.keys.display = self.share.display = False
        self.clock.ask()
        return Outcome()

    def ask_leave(self) -> None:
        self.leave.ask(leave_words(self._session))

    def ask_place(self) -> Outcome:
        """Ask in which folder the class is to be saved; in words where all is well."""
        on_disk, spare = self._session.on_disk, self._session.spare
        if on_disk.refused is None and not (spare.short or spare.given_up):
            return Outcome("it is being saved" if on_disk.lacking else "all is on disk")
        self.leave.display = False
        self.place.ask()
        return Outcome()

    def ask_correction(self, lane: str | None) -> Outcome:
        """Ask for the selected lane's right score; in words where that can't be."""
        live = self._session.live
        sheet = live.record.sheet
        if live.phase != "over" or sheet is None:
            return _refused("a score is corrected once its piece is over")
        if lane not in sheet.tallies:
            return _refused("select whose score it is first: type their letter")
        now = scores((sheet,), now=None, settled=sheet.settled)
        score = next(score for score in now if score.lane.id == lane)
        self.correct.ask(score.lane.id, score.athlete, score.score)
        return Outcome()

    def corrected(self, outcome: Outcome) -> None:
        """What came of a correction: it is asked for again where it was refused."""
        if outcome.refused:
            self.correct.refuse(outcome.text)
        else:
            self.correct.close()


def _refused(text: str) -> Outcome:
    return Outcome(text, refused=True)
