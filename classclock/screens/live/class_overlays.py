"""What opens over a class: help, the emergency card, questions, lines to type into."""

from collections.abc import Iterator

from textual.widget import Widget

from classclock.live.session import Session
from classclock.screens.canvas.look import Look
from classclock.screens.card.emergency_card import EmergencyCard
from classclock.screens.controls.entry import Entry
from classclock.screens.flags.flags_overlay import FlagsOverlay
from classclock.screens.live.overlays.correct_entry import CorrectEntry
from classclock.screens.live.overlays.focus_line import FocusLine
from classclock.screens.live.overlays.keys_overlay import KeysOverlay
from classclock.screens.live.overlays.leave_question import LeaveQuestion
from classclock.screens.live.overlays.name_entry import NameEntry
from classclock.screens.live.overlays.pending_sign import PendingSign
from classclock.screens.live.overlays.place_entry import PlaceEntry
from classclock.screens.live.overlays.share_overlay import ShareOverlay
from classclock.screens.live.overlays.too_small import TooSmall
from classclock.tally.load_flags import open_flags
from classclock.tally.piece import Piece
from classclock.tally.scores.scores import scores
from classclock.wall.start_lines import start_lines


class ClassOverlays:
    """They are all there from the start, and hidden; none of them swallows a tap."""

    def __init__(self, session: Session, look: Look) -> None:
        mirrored = session.club.tv.mirrored
        self._session = session
        self.flags = FlagsOverlay(look)
        self.keys = KeysOverlay(look)
        self.share = ShareOverlay(look)
        self.card = EmergencyCard(look, mirrored=mirrored)
        self.leave = LeaveQuestion(look)
        self.name = NameEntry(look)
        self.correct = CorrectEntry(look, mirrored=mirrored)
        self.place = PlaceEntry(look)
        self.pending = PendingSign(look)
        self.focus = FocusLine(look)
        self.too_small = TooSmall(look)

    def widgets(self) -> Iterator[Widget]:
        for widget in (
            self.flags,
            self.keys,
            self.share,
            self.card,
            self.leave,
            self.name,
            self.correct,
            self.place,
            self.pending,
            self.focus,
            self.too_small,
        ):
            widget.display = False
            yield widget

    def offer(self, sign: str) -> bool:
        """Whether one that is open took this sign as its own; never a letter."""
        over = (self.leave, self.card, self.keys, self.share, self.flags)
        return any(one.offer(sign) for one in over)

    @property
    def typed_into(self) -> Entry | None:
        """The line that has the keys to itself, if one is open."""
        lines: tuple[Entry, ...] = (self.name, self.correct, self.place, self.card)
        return next((line for line in lines if line.takes_keys), None)

    def show_keys(self) -> None:
        if self.keys.display:
            self.keys.turn()
            return
        live = self._session.live
        phase = live.phase
        piece = Piece.of(live.record.segment, live.record.unit)
        self.keys.show(piece.counts_by, "over" if phase == "closed" else phase)

    def show_card(self, *, before: bool) -> None:
        """`before`: nothing of this class has been started."""
        self.keys.display = False
        self.card.show(self._session.club.emergency, before=before)

    def show_flags(self) -> str:
        """Show the flags on the loads to come; what to say where that can't be."""
        live = self._session.live
        flags = open_flags(live.record, live.loads, (live.record.chosen.segment,))
        if not flags:
            return "no load has to be looked at"
        if self._session.club.tv.mirrored:
            return (
                "the room sees this screen: leave with ctrl+q, mute the TV, "
                "and classclock resume shows them first"
            )
        if live.phase != "board":
            return "loads are looked at on the board, before the start"
        self.flags.show(flags)
        return ""

    def show_sharing(self) -> str:
        """Show the ways to share what is short; what to say where there is nothing to show."""
        record = self._session.live.record
        offer = self._session.offer()
        if offer is not None:
            self.keys.display = False
            chosen = record.shared.get(offer.segment)
            if chosen is None or (self.share.display and self.share.starts):
                self.share.show(offer, chosen)
            else:
                self.share.show(offer, chosen, start_lines(self._session.live))
            return ""
        if self._session.live.phase != "board":
            return "equipment is shared on the board, before the start"
        if not self._session.club.inventory:
            return "no equipment is counted: write [equipment] in club.toml"
        return "nothing that was counted is short here"

    def ask_name(self) -> None:
        self.name.ask(running=self._session.live.phase in ("count-in", "running"))

    def ask_leave(self) -> None:
        self.leave.ask(running=self._session.live.phase in ("count-in", "running", "held"))

    def ask_correction(self, lane: str | None) -> str:
        """Ask for the selected lane's right score; what to say where that can't be."""
        live = self._session.live
        sheet = live.record.sheet
        if live.phase != "over" or sheet is None:
            return "a score is corrected once its piece is over"
        if lane not in sheet.tallies:
            return "select whose score it is first: type their letter"
        now = scores((sheet,), now=None, settled=sheet.settled)
        score = next(score for score in now if score.lane.id == lane)
        self.correct.ask(score.lane.id, score.athlete, score.score)
        return ""
