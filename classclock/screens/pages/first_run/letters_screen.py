"""Which letters come out whole: asked once in each kind of terminal that isn't known."""

from functools import partial
from pathlib import Path

from classclock.club.folder import letters
from classclock.club.letters_file import remember_letters
from classclock.screens.canvas.look import Look
from classclock.screens.controls.drawn_view import DrawnView
from classclock.screens.controls.page_screen import PageScreen
from classclock.screens.pages.first_run.letters_desk import LettersDesk
from classclock.screens.pages.first_run.letters_drawing import draw_letters_question
from classclock.units.cell_dots import CellDots


class LettersScreen(PageScreen[CellDots | None]):
    """Ends with what letters are made of from now on; None leaves classclock."""

    def __init__(self, look: Look, kind: str, folder: Path) -> None:
        super().__init__()
        self.desk = LettersDesk(kind)
        self._folder = folder
        draw = partial(draw_letters_question, self.desk, letters(folder))
        self.view = DrawnView(look, draw)

    def take(self, sign: str) -> bool:
        if sign == "<escape>":
            self.dismiss("halves")
            return True
        if self.desk.sign(sign) and self.desk.dots and self._remembered(self.desk.dots):
            self.dismiss(self.desk.dots)
            return True
        return False

    def _remembered(self, dots: CellDots) -> bool:
        try:
            remember_letters(self._folder, self.desk.kind, dots)
        except OSError as error:
            why = error.strerror or type(error).__name__
            self.desk.notice = f"it can't be written ({why}): escape goes on without"
            return False
        return True
