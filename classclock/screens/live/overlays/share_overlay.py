"""The ways to share, over the board: a digit chooses one; then who shares and starts where."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from textual.geometry import Size

from classclock.screens.canvas.arranged_drawing import Ink, draw_arranged
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.cells import Drawing, above
from classclock.screens.canvas.layout.arrange import Arranged, arrange
from classclock.screens.canvas.layout.nodes import Spot
from classclock.screens.canvas.layout.parts import Stack, Written
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.controls.meant import Meant
from classclock.tally.decide_groups import SharedWay
from classclock.units.printable import printable
from classclock.wall.share_content import ShareLine, share_lines

if TYPE_CHECKING:
    from classclock.planning.equipment_offers import Offer  # loaded only where equipment is counted


_LONGEST = 400


class ShareOverlay(Painted):
    """Digits and escape are its own; every other key goes where it goes."""

    @dataclass
    class Chose(Meant):
        segment: int
        way: SharedWay

    def __init__(self, look: Look) -> None:
        super().__init__(look)
        self.asked: Offer | None = None
        self.holds = SharedWay()
        self.starts: tuple[str, ...] = ()

    def show(self, asked: "Offer", holds: SharedWay, starts: tuple[str, ...] = ()) -> None:
        """Show the ways; or, with `starts`, who starts where in the one that holds."""
        self.asked, self.holds, self.starts = asked, holds, starts
        self.display = True
        self.refresh(layout=True)
        self.repaint()

    def restart(self, starts: tuple[str, ...]) -> None:
        """Two have changed places, or somebody has gone: this is who shares now."""
        if starts and starts != self.starts:
            self.starts = starts
            self.refresh(layout=True)
            self.repaint()

    def offer(self, sign: str) -> bool:
        """Whether this sign was the overlay's own and is done with."""
        asked = self.asked
        if not self.display or asked is None:
            return False
        if sign == "<escape>":
            self.display = False
        elif sign.isdecimal() and sign.isascii():
            self._choose(asked, int(sign))
        else:
            return False
        return True

    def _choose(self, asked: "Offer", number: int) -> None:
        if number > len(asked.ways):
            return
        way = asked.ways[number - 1].shared if number else SharedWay()
        self.display = False
        self.post_message(self.Chose(asked.segment, way))

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002  Textual's signature
        most = viewport.height - 2
        if self.starts:
            spots = self._laid(width - 4, most - 1).spots.values()
            return max((spot.box.y + _lines_high(spot) for spot in spots), default=0) + 1
        return min(most, len(self._fitting(width - 4)) + 1)

    def paint(self, columns: int, rows: int) -> Drawing:
        """The lines on a ground of their own, the keys under them."""
        here, inner = self.look.on(self.look.theme.bar), columns - 4
        if self.starts:
            spots = self._laid(inner, rows - 1).spots
            inks = dict.fromkeys(spots, Ink(bold=True, down="top"))
            shown = draw_arranged(spots, inner, rows - 1, here, inks=inks)
        else:
            lines = [here.text(one.text, inner, bold=one.bold) for one in self._fitting(inner)]
            shown = above(*lines[: max(0, rows - 1)])
        keys = here.text(self._keys(), inner, ink=here.theme.quiet)
        return here.box(above(shown, keys), columns, rows, across="middle")

    def _fitting(self, columns: int) -> tuple[ShareLine, ...]:
        """The lines, in brief where they would fill more than half of the window."""
        if self.asked is None:
            return ()
        whole = tuple(share_lines(self.asked, self.holds, columns))
        if len(whole) <= self.app.size.height // 2:
            return whole
        return tuple(share_lines(self.asked, self.holds, columns, brief=True))

    def _laid(self, columns: int, rows: int) -> Arranged:
        """Who shares and starts where, to be read from the back."""
        lines = tuple(
            Written(("start", number), printable(words, _LONGEST), "start", breaks=True)
            for number, words in enumerate(self.starts)
        )
        return arrange(Stack(lines), columns, rows, CellMeasure(self.look.terminal))

    def _keys(self) -> str:
        if self.starts:
            return "0: as planned; >ab swaps two; ctrl+t: another; escape"
        if self.asked is not None and self.asked.ways:
            return "a digit chooses, escape leaves it"
        return "escape leaves it"


def _lines_high(spot: Spot) -> int:
    return max(1, spot.size) * len(spot.lines)
