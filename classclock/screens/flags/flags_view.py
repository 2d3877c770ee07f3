"""The loads that the coach should look at before the start, with what is known of each."""

from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.flags.flags_drawing import draw_cover, draw_flags, fitting
from classclock.tally.load_flags import LoadFlag


class FlagsView(Painted):
    """`covered` tells that there are flags, but neither whose they are nor what they say."""

    def __init__(self, look: Look, *, covered: bool = False, id: str | None = None) -> None:  # noqa: A002  Textual's own name
        super().__init__(look, id=id)
        self.flags: tuple[LoadFlag, ...] = ()
        self.covered = covered

    def show(self, flags: tuple[LoadFlag, ...]) -> None:
        self.flags = flags
        self.display = bool(flags)
        self.repaint()

    def uncover(self) -> None:
        self.covered = False
        self.repaint()

    @property
    def seen(self) -> tuple[LoadFlag, ...]:
        """Those that stand on the screen now, and can have been read."""
        return () if self.covered else self.flags[: fitting(self.size.height)]

    def paint(self, columns: int, rows: int) -> Drawing:
        look = self.look.on(self.look.theme.bar)
        drawn = draw_cover(self.flags, columns - 4, rows, look)
        if not self.covered:
            drawn = draw_flags(self.flags, columns - 4, rows, look)
        return look.box(drawn, columns, rows, across="middle")
