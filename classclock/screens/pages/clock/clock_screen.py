"""A clock without a plan, before a class: one line says it."""

from functools import partial

from textual import events

from classclock.plan.model import Segment
from classclock.screens.canvas.look import Look
from classclock.screens.controls.clock_desk import ClockDesk
from classclock.screens.controls.drawn_view import DrawnView
from classclock.screens.controls.page_screen import PageScreen
from classclock.screens.pages.clock.clock_page_drawing import draw_clock_page


class ClockScreen(PageScreen[Segment | None]):
    """Ends with the segment to run; None goes back."""

    def __init__(self, look: Look, line: str = "") -> None:
        """`line` is what is typed already."""
        super().__init__()
        self.desk = ClockDesk(line)
        self.view = DrawnView(look, partial(draw_clock_page, self.desk))

    def take(self, sign: str) -> bool:
        if sign == "<escape>":
            self.dismiss(None)
            return True
        if sign != "<enter>":
            self.desk.sign(sign)
            return False
        segment = self.desk.entered()
        if segment is not None:
            self.dismiss(segment)
        return segment is not None

    def on_paste(self, event: events.Paste) -> None:
        event.stop()
        self.desk.line.paste(event.text)
        self.view.repaint()
