"""The emergency card is filled in, or put right, before a class."""

from functools import partial
from pathlib import Path

from textual import events

from classclock.club.emergency_file import write_card
from classclock.plan.settings.club import Emergency
from classclock.screens.canvas.look import Look
from classclock.screens.card.emergency_desk import CardDesk
from classclock.screens.card.form_drawing import draw_filling_in
from classclock.screens.controls.drawn_view import DrawnView
from classclock.screens.controls.page_screen import PageScreen


class EmergencyScreen(PageScreen[Emergency | None]):
    """Ends with the card that is written now; None where it was left as it is."""

    def __init__(self, look: Look, path: Path, card: Emergency) -> None:
        """`path` is the club's settings, `card` what they say."""
        super().__init__()
        self.path = path
        self.desk = CardDesk(card)
        self.view = DrawnView(look, partial(draw_filling_in, self.desk, path))

    def on_paste(self, event: events.Paste) -> None:
        event.stop()
        self.desk.paste(event.text)
        self.view.repaint()

    def take(self, sign: str) -> bool:
        left = self.desk.sign(sign)
        if left == "before":
            self.dismiss(None)
        elif left == "after" and self._written():
            self.dismiss(self.desk.card)
        else:
            return False
        return True

    def _written(self) -> bool:
        try:
            write_card(self.path, self.desk.card)
        except OSError as error:
            why = error.strerror or type(error).__name__
            self.desk.notice = f"it can't be written ({why}): escape goes on without"
            return False
        except ValueError as error:
            self.desk.notice = str(error)
            return False
        return True
