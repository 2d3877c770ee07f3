"""Another place for the class's files, while the club's folder can't be written to."""

from dataclasses import dataclass
from pathlib import Path

from classclock.screens.canvas.cells import Drawing, above
from classclock.screens.controls.line_entry import LineEntry
from classclock.screens.controls.meant import Meant

OFFERED = Path("~/classclock-saved")


class PlaceEntry(LineEntry):
    """Has the focus while it is open; a folder is offered, enter takes it."""

    @dataclass
    class Given(Meant):
        folder: Path

    def ask(self) -> None:
        self.text = str(OFFERED)
        self.display = True
        self.focus()
        self.repaint()

    def close(self) -> None:
        self.display = False

    def entered(self) -> None:
        if text := self.text.strip():
            self.post_message(self.Given(Path(text).expanduser()))
            self.close()

    def left(self) -> None:
        self.close()

    def paint(self, columns: int, rows: int) -> Drawing:
        look = self.look.on(self.look.theme.bar)
        words = "save this class in which folder? enter takes it, escape leaves it. Taps are off"
        return look.box(
            above(
                look.text(f" {words}", columns, bold=True),
                look.text(f" {self.text}\N{LEFT ONE EIGHTH BLOCK}", columns),
            ),
            columns,
            rows,
        )
