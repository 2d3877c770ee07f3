"""A line for a clock without a plan, over the board."""

from dataclasses import dataclass

from textual.geometry import Size

from classclock.plan.model import Segment
from classclock.screens.canvas.cells import Drawing, above
from classclock.screens.canvas.look import Look
from classclock.screens.controls.clock_desk import ClockDesk
from classclock.screens.controls.clock_drawing import clock_rows, draw_clock
from classclock.screens.controls.line_entry import LineEntry
from classclock.screens.controls.meant import Meant


class ClockEntry(LineEntry):
    """Has the focus while it is open."""

    @dataclass
    class Said(Meant):
        """This is to run now."""

        segment: Segment

    def __init__(self, look: Look) -> None:
        super().__init__(look)
        self._begin()

    def ask(self) -> None:
        self._begin()
        self.display = True
        self.focus()
        self.repaint()

    def _begin(self) -> None:
        self.desk = ClockDesk()
        self._line = self.desk.line

    def sign(self, sign: str) -> None:
        self.desk.sign(sign)

    def entered(self) -> None:
        segment = self.desk.entered()
        if segment is not None:
            self.post_message(self.Said(segment))
            self.left()

    def left(self) -> None:
        self.display = False

    def typed(self) -> None:
        self.refresh(layout=True)  # what is said of the line may take a row more

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002  Textual's signature
        return clock_rows(self.desk, width - 4, viewport.height) + 1

    def paint(self, columns: int, rows: int) -> Drawing:
        here = self.look.on(self.look.theme.bar)
        inner = columns - 4
        clock = draw_clock(self.desk, inner, rows - 1, here, left="escape leaves")
        return here.box(above(here.gap(inner), clock), columns, rows, across="middle")
