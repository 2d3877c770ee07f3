"""What stands beside or around the clock: what is being done, and what the clock is doing."""

from collections.abc import Iterator

from classclock.screens.canvas.cells import Drawing, blank
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.canvas.stack import Line, Size, stack
from classclock.wall.wall_content import WallContent


def beside_lines(content: WallContent, look: Look) -> tuple[Line, ...]:
    """For the box right of the clock, above the lanes."""
    theme = look.theme
    stations = tuple(_stations(content, look, keep=3))
    return tuple(
        line
        for line in (
            *_shout(content, look),
            *_progress(content),
            Line(content.title, keep=1, bold=True),
            Line(content.fitted, keep=2) if content.fitted else None,
            Line(content.words, keep=4, ink=theme.quiet),
            Line(keep=6) if stations else None,
            *stations,
        )
        if line is not None
    )


def around_lines(content: WallContent, look: Look) -> tuple[tuple[Line, ...], tuple[Line, ...]]:
    """For a clock that has the screen to itself: what it is for, and what is done meanwhile."""
    over = (
        Line(content.title, "title", bold=True),
        *((Line(content.fitted, "second", keep=3),) if content.fitted else ()),
        Line(content.words, "second", keep=4, ink=look.theme.quiet),
    )
    under = (
        *_shout(content, look, "title" if content.held else "main"),
        *_progress(content),
        Line(keep=6),
        *_stations(content, look, keep=2),
        *(Line(text, "main", keep=3) for text in content.lines),
        Line(keep=6),
        *(
            Line(f"! {text}", "second", keep=1, ink=look.theme.doubtful)
            for text in content.cautions
        ),
    )
    return over, under


def _stations(content: WallContent, look: Look, *, keep: int) -> Iterator[Line]:
    """What is done, and quietly what makes it count, which is the first to go."""
    standards = content.standards or ("",) * len(content.stations)
    for text, standard in zip(content.stations, standards, strict=True):
        yield Line(text, "main", keep=keep, bold=True)
        if standard:
            yield Line(standard, keep=7, ink=look.theme.quiet, indent=2)


def _progress(content: WallContent) -> tuple[Line, ...]:
    if not content.progress:
        return ()
    return (
        Line(content.progress, "main", keep=1, bold=True),
        Line(content.total_left, "second", keep=2),
    )


def _shout(content: WallContent, look: Look, size: Size = "title") -> tuple[Line, ...]:
    """One word, large, and what a key does now; on the ground of a hold while it is held."""
    theme = look.theme
    if not content.emphasis:
        return ()
    ink, ground = (theme.hold_ink, theme.hold_ground) if content.held else (theme.doubtful, "")
    indent = 1 if content.held else 0
    word = Line(content.emphasis, size, ink=ink, ground=ground, bold=True, indent=indent)
    if not content.hint:
        return (word,)
    under = ink if content.held else theme.ink
    return (word, Line(content.hint, ink=under, ground=ground, bold=True, indent=indent))


class Heading(Painted):
    """Lines in a box, as large as they fit."""

    def __init__(self, look: Look) -> None:
        super().__init__(look)
        self.lines: tuple[Line, ...] = ()

    def show(self, lines: tuple[Line, ...]) -> None:
        if lines != self.lines:
            self.lines = lines
            self.repaint()

    def paint(self, columns: int, rows: int) -> Drawing:
        if not self.lines:
            return blank(columns, rows, self.look.theme.ground)
        return stack(self.lines, columns, rows, self.look)
