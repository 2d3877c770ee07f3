"""The first run: a few questions, then the club's settings are written with what each means."""

from pathlib import Path

from classclock.book.whole_file import write_whole
from classclock.plan.club_text import default_club_text
from classclock.plan.printable import printable
from classclock.screens.drawing.cells import Drawing, above
from classclock.screens.first_run_desk import FirstRunDesk
from classclock.screens.look import Look
from classclock.screens.page_heading import draw_heading, heading_rows
from classclock.screens.page_screen import PageScreen
from classclock.screens.painted import Painted
from classclock.screens.stack import Line, stack


class FirstRunView(Painted):
    def __init__(self, look: Look, desk: FirstRunDesk, path: Path) -> None:
        super().__init__(look)
        self.desk, self.path = desk, path

    def paint(self, columns: int, rows: int) -> Drawing:
        look, inner = self.look, columns - 2
        asked = self.desk.asked()
        heading = draw_heading("classclock", ("the first run",), inner, heading_rows(rows), look)
        where = printable(f"All is written to {self.path}. Fill in its emergency card, too.", 300)
        high = heading_rows(rows) + 1
        question = stack((Line(asked.question, "title", bold=True),), inner, high, look)
        lines = (
            Line(asked.why),
            Line(keep=6),
            Line(asked.keys, bold=True),
            Line(keep=6),
            Line(where, keep=3, ink=look.theme.quiet),
        )
        foot = (
            look.text(self.desk.notice, inner, ink=look.theme.doubtful, bold=True),
            look.text("escape: not now, asked again next time", inner, ink=look.theme.quiet),
        )
        gap = look.gap(inner)
        left = max(1, rows - len(heading) - high - 3 - len(foot))
        body = stack(lines, inner, left, look)
        drawn = above(heading, gap, gap, question, gap, body, *foot)
        return look.box(drawn, columns, rows, across="middle")


class FirstRunScreen(PageScreen[bool]):
    """Ends once the file is written or put off; False leaves classclock."""

    def __init__(self, look: Look, path: Path) -> None:
        """`path` is where the club's settings will be."""
        super().__init__()
        self.path = path
        self.desk = FirstRunDesk()
        self.view = FirstRunView(look, self.desk, path)

    def quit(self) -> None:
        self.dismiss(result=False)

    def take(self, sign: str) -> bool:
        left = sign == "<escape>" or (self.desk.sign(sign) and self._written())
        if left:
            self.dismiss(result=True)
        return left

    def _written(self) -> bool:
        text = default_club_text(self.desk.unit, self.desk.keyboard)
        try:
            write_whole(self.path, text.encode())
        except OSError as error:
            why = error.strerror or type(error).__name__
            self.desk.notice = f"it can't be written ({why}): escape goes on without"
            return False
        return True
