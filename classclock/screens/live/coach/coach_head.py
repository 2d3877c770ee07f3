"""Beside the coach's clock: what is done, what the clock is doing, and what a key would do now.

The room's heading in letters for a reader at the laptop; cautions are never left out.
"""

from collections.abc import Iterator, Mapping

from classclock.screens.canvas.arranged_drawing import Ink, draw_arranged
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.layout.arrange import arrange
from classclock.screens.canvas.layout.parts import Arrangement, Beside, Name, Role, Stack, Written
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.wall.wall_content import WallContent

_LETTERS = 3
"""Rows of the largest letters: more room is for the lanes."""


def coach_head(content: WallContent, *, clears: bool) -> Arrangement:
    """`clears`: what is done is to be read before the start, and so are its cautions."""
    return Stack(tuple(_parts(content, clears=clears)))


def _parts(content: WallContent, *, clears: bool) -> Iterator[Arrangement]:
    if content.emphasis:
        yield Written("shout", content.emphasis, "shout", matters=95, most=_LETTERS, breaks=True)
    title = Written("title", content.title, "title", "coach", 65, breaks=True, most=1)
    if clears and not content.emphasis:
        title = Written("title", content.title, "title", matters=80, breaks=True, most=_LETTERS)
    if content.progress:
        counted = Written("progress", content.progress, "progress", "coach", 75, most=1)
        left = Written("left", content.total_left, "left", "coach", 60, most=1)
        yield Beside((title, counted, left))
    else:
        yield title
    yield Written("hint", content.hint, "hint", "coach", 70, breaks=True, most=1)
    yield Written("head", content.head, "head", "coach", 50, breaks=True, most=1)
    yield Written("words", content.words, "words", "detail", 10, breaks=True, most=1)
    yield Written("fitted", content.fitted, "fitted", "detail", 8, breaks=True, most=1)
    standards = content.standards or ("",) * len(content.stations)
    for n, (text, standard) in enumerate(zip(content.stations, standards, strict=True)):
        role: Role = "coach" if clears else "detail"  # once it runs the lanes come first
        move = Written(("move", n), text, "move", role, 55, breaks=True, most=1)
        yield Beside((move, Written(("standard", n), standard, "standard", "detail", 4, most=1)))
    for n, text in enumerate(content.lines if clears else ()):
        yield Written(("line", n), text, "line", "coach", 45, breaks=True, most=1)
    for n, text in enumerate(content.cautions if clears else ()):
        yield Written(("caution", n), f"! {text}", "caution", "caution", 90, breaks=True, most=1)


class CoachHead(Painted):
    content: WallContent | None = None
    clears = False

    def show(self, content: WallContent, *, clears: bool) -> None:
        """`content` without the digits of its clock."""
        if (content, clears) != (self.content, self.clears):
            self.content, self.clears = content, clears
            self.repaint()

    def paint(self, columns: int, rows: int) -> Drawing:
        content, look = self.content, self.look
        if content is None or not (columns and rows):
            return look.gap(columns, rows)
        parts = coach_head(content, clears=self.clears)
        spots = arrange(parts, columns, rows, CellMeasure(look.terminal)).spots
        return draw_arranged(spots, columns, rows, look, inks=_inks(content, look))


def _inks(content: WallContent, look: Look) -> Mapping[Name, Ink]:
    theme = look.theme
    quiet, bold = Ink(theme.quiet), Ink(bold=True)
    shout = hint = Ink(theme.doubtful, bold=True)
    if content.held:
        shout = hint = Ink(theme.hold_ink, theme.hold_ground, bold=True)
    inks: dict[Name, Ink] = {
        "shout": shout,
        "hint": hint,
        "title": bold,
        "progress": bold,
        "head": bold,
        "words": quiet,
        "fitted": quiet,
        "left": quiet,
    }
    inks |= {("standard", n): quiet for n in range(len(content.stations))}
    return inks | {("caution", n): Ink(theme.doubtful) for n in range(len(content.cautions))}
