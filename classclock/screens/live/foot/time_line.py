"""The time of day, and the class's end or the minutes it is over: always in view."""

from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.wall.time_words import TimeWords


class TimeLine(Painted):
    def __init__(self, look: Look) -> None:
        super().__init__(look)
        self.words = TimeWords("", "")

    @property
    def columns(self) -> int:
        return len(str(self.words)) + 2

    def show(self, words: TimeWords) -> None:
        if words != self.words:
            self.words = words
            self.styles.width = self.columns
            self.repaint()

    def paint(self, columns: int, rows: int) -> Drawing:
        theme = self.look.theme
        look = self.look.on(theme.bar)
        if self.words.over:
            look = self.look.on(theme.alarm_ground, theme.alarm_ink)
        elif self.words.soon:
            look = self.look.on(theme.bar, theme.doubtful)
        return look.box(look.text(f" {self.words} ", columns, bold=True), columns, rows)
