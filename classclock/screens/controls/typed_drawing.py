"""How a line of text that is being typed is drawn."""

from rich.cells import cell_len

from classclock.screens.canvas.cells import Drawing, beside
from classclock.screens.canvas.look import Look
from classclock.screens.controls.typed_line import TypedLine
from classclock.units.printable import printable


def draw_typed(line: TypedLine, columns: int, look: Look) -> Drawing:
    """What is typed, with the caret in it; what doesn't fit runs out at the left."""
    theme = look.theme
    before = printable(line.text[: line.caret], 2100)
    # A caret within joined signs stands on the next of them: a joiner has no cell to stand on.
    after = line.text[line.caret :].lstrip("\u200c\u200d")
    if not line.caret:
        before = ""
    while cell_len(before) > columns - 2:
        before = before[max(1, (cell_len(before) - columns) // 2) :]
    under = printable(after[:1], 4) if after else " "
    rest = printable(after[1:], 2100) if after[1:] else ""
    ink = theme.quiet if line.fresh else theme.ink
    caret = look.on(theme.ink, theme.ground).text(under, cell_len(under), ink=theme.ground)
    left = look.text(before, cell_len(before), ink=ink, bold=True)
    room = max(0, columns - cell_len(before) - cell_len(under))
    drawn = (left, caret) if before else (caret,)
    return look.box(beside(*drawn, look.text(rest, room, ink=ink, bold=True)), columns, 1)


def draw_typed_at_end(label: str, text: str, columns: int, look: Look) -> Drawing:
    """What is typed at its end, after what it is for."""
    said = f"{label}: {printable(text)}"
    caret = look.on(look.theme.ink).gap(1)
    return look.box(beside(look.text(said, cell_len(said), bold=True), caret), columns, 1)
