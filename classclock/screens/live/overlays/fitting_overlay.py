"""What fits the class to the clock, over the board: a digit takes one way, 0 takes back."""

from collections.abc import Callable
from dataclasses import dataclass

from textual.geometry import Size

from classclock.plan.formats.fit import Fit
from classclock.screens.canvas.cells import Drawing, above
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.controls.meant import Meant
from classclock.screens.live.overlays.fitting_lines import FittingContent, fitting_lines
from classclock.tally.keys.guard import GUARD_MS
from classclock.wall.share_content import ShareLine


class FittingOverlay(Painted):
    """Digits and escape are its own; every other key goes where it goes."""

    @dataclass
    class Took(Meant):
        segment: int
        fit: Fit | None
        """None: as planned again."""

    def __init__(self, look: Look, now: Callable[[], int]) -> None:
        """`now` is real time in milliseconds: what a held key repeats by itself takes nothing."""
        super().__init__(look)
        self._now = now
        self._struck: dict[str, int] = {}
        self.content: FittingContent | None = None

    def show(self, content: FittingContent) -> None:
        """Show how the class stands; nothing is painted anew where that is as before."""
        if self.display and content == self.content:
            return
        self.content = content
        self.display = True
        self.refresh(layout=True)
        self.repaint()

    def offer(self, sign: str) -> bool:
        """Whether this sign was the overlay's own and is done with."""
        if not self.display or self.content is None:
            return False
        if sign == "<escape>":
            self.display = False
        elif sign.isdecimal() and sign.isascii():
            before, self._struck[sign] = self._struck.get(sign), self._now()
            if before is None or self._struck[sign] - before > GUARD_MS:
                self._take(self.content, int(sign))
        else:
            return False
        return True

    def _take(self, content: FittingContent, number: int) -> None:
        if number == 0 and content.taken:
            self.post_message(self.Took(content.taken[0][0], None))
        elif 0 < number <= len(content.fit.ways):
            way = content.fit.ways[number - 1]
            self.post_message(self.Took(way.segment, way.fit))

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002  Textual's signature
        return min(viewport.height - 2, len(self._fitting(width - 4)) + 1)

    def paint(self, columns: int, rows: int) -> Drawing:
        """The lines on a ground of their own, the keys under them."""
        here, inner = self.look.on(self.look.theme.bar), columns - 4
        lines = [here.text(one.text, inner, bold=one.bold) for one in self._fitting(inner)]
        keys = here.text(self._keys(), inner, ink=here.theme.quiet)
        return here.box(above(*lines[: max(0, rows - 1)], keys), columns, rows, across="middle")

    def _fitting(self, columns: int) -> tuple[ShareLine, ...]:
        """The lines, in brief where they would fill more than half of the window."""
        if self.content is None:
            return ()
        whole = tuple(fitting_lines(self.content, columns))
        if len(whole) <= self.app.size.height // 2:
            return whole
        return tuple(fitting_lines(self.content, columns, brief=True))

    def _keys(self) -> str:
        if self.content is not None and self.content.fit.ways:
            return "a digit takes one, escape leaves it"
        return "escape: back to the board"
