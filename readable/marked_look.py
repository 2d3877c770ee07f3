"""A look whose texts are marked, so that each can be found again on the screen that it came to."""

from collections.abc import Iterator

from msgspec import Struct
from rich.segment import Segment
from rich.style import Style

from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.look import Look

_MARK = "said"


class Said(Struct, frozen=True):
    """A text as a screen had it drawn: `rows` is the room that it was offered."""

    text: str
    columns: int
    rows: int
    air: int
    ink: str
    ground: str
    drawing: Drawing

    @property
    def large(self) -> bool:
        """Whether it came out in drawn letters, and not in a row of the terminal's own."""
        return len(self.drawing) > 1


class Ledger:
    """All that was drawn, by its mark."""

    def __init__(self) -> None:
        self._said: list[Said] = []

    def mark(self, said: Said) -> Drawing:
        """The drawing, each of its cells with its mark."""
        number = len(self._said)
        self._said.append(said)
        style = Style(meta={_MARK: number})
        return tuple(
            tuple(Segment(text, (own or Style()) + style) for text, own, _ in row)
            for row in said.drawing
        )

    def of(self, number: int) -> Said:
        return self._said[number]


class MarkedLook(Look, frozen=True, kw_only=True):
    """Draws as the look that it was made from."""

    ledger: Ledger

    def letters(
        self,
        text: str,
        columns: int,
        rows: int,
        *,
        ink: str | None = None,
        ground: str | None = None,
        air: int = 0,
    ) -> Drawing:
        drawn = super().letters(text, columns, rows, ink=ink, ground=ground, air=air)
        colours = ink or self.theme.ink, ground or self.theme.ground
        return self.ledger.mark(Said(text, columns, rows, air, *colours, drawn))

    def text(
        self,
        text: str,
        columns: int,
        *,
        ink: str | None = None,
        ground: str | None = None,
        bold: bool = False,
    ) -> Drawing:
        drawn = super().text(text, columns, ink=ink, ground=ground, bold=bold)
        colours = ink or self.theme.ink, ground or self.theme.ground
        return self.ledger.mark(Said(text, columns, 1, 0, *colours, drawn))


def marked(look: Look) -> MarkedLook:
    return MarkedLook(theme=look.theme, terminal=look.terminal, ledger=Ledger())


def marks(rows: Drawing) -> Iterator[tuple[int, int, str, int | None]]:
    """Each segment's column, row, text and mark."""
    for y, row in enumerate(rows):
        x = 0
        for segment in row:
            style = segment.style
            mark = style.meta.get(_MARK) if style is not None and style._meta else None  # noqa: SLF001
            yield x, y, segment.text, mark
            x += segment.cell_length
