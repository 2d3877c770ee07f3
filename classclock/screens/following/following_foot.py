"""The foot of a screen that follows: what is wrong, its two keys, the time of day."""

from rich.cells import cell_len
from textual.app import ComposeResult
from textual.containers import Horizontal

from classclock.following.following_words import KEYS
from classclock.screens.canvas.cells import Drawing, beside
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.live.foot.time_line import TimeLine
from classclock.wall.time_words import TimeWords


class FollowingFoot(Horizontal):
    """One row, whatever is said."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._line, self._time = FootLine(look), TimeLine(look)

    def compose(self) -> ComposeResult:
        yield self._line
        yield self._time

    def show(self, said: str, time: TimeWords) -> None:
        self._line.show(said)
        self._time.show(time)


class FootLine(Painted):
    said = ""

    def show(self, said: str) -> None:
        if said != self.said:
            self.said = said
            self.repaint()

    def paint(self, columns: int, rows: int) -> Drawing:
        here = self.look.on(self.look.theme.bar)
        keys = f" {'    '.join(KEYS)} "[-columns:]
        wide = cell_len(keys)
        said = here.text(f" {self.said}", max(0, columns - wide), bold=True)
        return here.box(beside(said, here.text(keys, wide, ink=here.theme.quiet)), columns, rows)
