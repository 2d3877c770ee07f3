"""The first run: a few questions, then the club's settings are written with what each means."""

from functools import partial
from pathlib import Path

from textual import events

from classclock.machine.whole_file import write_whole
from classclock.plan.settings.club import Emergency
from classclock.plan.settings.club_card import with_card
from classclock.plan.settings.club_text import default_club_text
from classclock.screens.canvas.look import Look
from classclock.screens.card.emergency_desk import CardDesk
from classclock.screens.controls.drawn_view import DrawnView
from classclock.screens.controls.page_screen import PageScreen
from classclock.screens.pages.first_run.first_run_desk import FirstRunDesk
from classclock.screens.pages.first_run.first_run_drawing import draw_first_run


class FirstRunScreen(PageScreen[bool]):
    """Ends once the file is written or put off; False leaves classclock."""

    def __init__(self, look: Look, path: Path) -> None:
        """`path` is where the club's settings will be."""
        super().__init__()
        self.path = path
        self.desk = FirstRunDesk(CardDesk(Emergency()))
        self.view = DrawnView(look, partial(draw_first_run, self.desk, path))

    def quit(self) -> None:
        self.dismiss(result=False)

    def on_paste(self, event: events.Paste) -> None:
        event.stop()
        if self.desk.question == "card":
            self.desk.paste(event.text)
            self.view.repaint()

    def take(self, sign: str) -> bool:
        put_off = sign == "<escape>" and self.desk.question != "card"
        left = put_off or (self.desk.sign(sign) and self._written())
        if left:
            self.dismiss(result=True)
        return left

    def _written(self) -> bool:
        desk = self.desk
        text = with_card(default_club_text(desk.unit, desk.keyboard), desk.card.card)
        try:
            write_whole(self.path, text.encode())
        except OSError as error:
            why = error.strerror or type(error).__name__
            desk.notice = f"it can't be written ({why}): escape goes on without"
            return False
        return True
