"""What comes of the questions and lines that open over a class."""

from typing import TYPE_CHECKING

from textual.screen import Screen

from classclock.live.live_class import Outcome
from classclock.live.session import Session
from classclock.screens.canvas.look import Look
from classclock.screens.live import class_actions
from classclock.tally import commands as cmd

if TYPE_CHECKING:
    # Named only, and not loaded before they are wanted.
    from classclock.plan.settings.club import Emergency
    from classclock.screens.card.emergency_card import EmergencyCard
    from classclock.screens.flags.flags_overlay import FlagsOverlay
    from classclock.screens.live.class_overlays import ClassOverlays
    from classclock.screens.live.overlays.correct_entry import CorrectEntry
    from classclock.screens.live.overlays.leave_question import LeaveQuestion
    from classclock.screens.live.overlays.name_entry import NameEntry
    from classclock.screens.live.overlays.place_entry import PlaceEntry
    from classclock.screens.live.overlays.share_overlay import ShareOverlay


class ClassAnswers(Screen[None]):
    """The part of a class's screen that carries out what was answered."""

    session: Session
    look: Look

    @property
    def over(self) -> "ClassOverlays":
        raise NotImplementedError

    def came(self, outcome: Outcome) -> None:
        """Show what came of a command."""
        raise NotImplementedError

    def say(self, text: str) -> None:
        """Say something at the foot, if it is anything."""
        raise NotImplementedError

    def show(self) -> None:
        """Bring the screen to how the class stands."""
        raise NotImplementedError

    def leave(self) -> None:
        raise NotImplementedError

    def on_name_entry_named(self, event: "NameEntry.Named") -> None:
        self.came(class_actions.take_in(self.session, event.name))

    def on_emergency_card_noted(self, event: "EmergencyCard.Noted") -> None:
        self.came(class_actions.note_emergency(self.session, event.text))

    def on_emergency_card_fill_in(self, _: "EmergencyCard.FillIn") -> None:
        from classclock.screens.card.emergency_screen import (  # noqa: PLC0415  once in a club's life
            EmergencyScreen,
        )

        session = self.session
        asked = EmergencyScreen(self.look, session.settings, session.club.emergency)
        self.app.push_screen(asked, self._filled_in)

    def _filled_in(self, card: "Emergency | None") -> None:
        if card is not None:
            self.session.fill_in(card)
            self.over.show_card(before=True)
            self.show()

    def on_flags_overlay_looked_at(self, event: "FlagsOverlay.LookedAt") -> None:
        for flag in event.flags:
            self.came(self.session.live.acknowledge(flag.person_id, flag.segment, flag.text))

    def on_share_overlay_chose(self, event: "ShareOverlay.Chose") -> None:
        self.came(self.session.live.share(event.segment, event.sharing))
        if event.sharing is not None:
            self.say(self.over.show_sharing())

    def on_correct_entry_corrected(self, event: "CorrectEntry.Corrected") -> None:
        outcome = self.session.live.do(cmd.Correct(event.lane, event.score, event.reason))
        self.came(outcome)
        if outcome.refused:
            self.over.correct.refuse(outcome.text)
        else:
            self.over.correct.close()

    def on_place_entry_given(self, event: "PlaceEntry.Given") -> None:
        self.came(class_actions.save_elsewhere(self.session, event.folder))

    def on_leave_question_leave(self, _: "LeaveQuestion.Leave") -> None:
        self.leave()
