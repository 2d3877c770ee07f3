"""How a table of scores looks once it is laid out."""

from collections.abc import Iterator, Sequence

from classclock.screens.canvas.arranged_drawing import Ink
from classclock.screens.canvas.layout.arrange import Arranged
from classclock.screens.canvas.layout.parts import Name
from classclock.screens.canvas.look import Look
from classclock.screens.live.settle.score_layout import equal_of
from classclock.wall.score_row import ScoreRow


def score_inks(rows: Sequence[ScoreRow], laid: Arranged, look: Look) -> Iterator[tuple[Name, Ink]]:
    """The colours of each row's parts."""
    in_words = bool(laid.sizes.get("words"))
    for number, row in enumerate(rows):
        for what, ink in _inks(row, look, in_words=in_words):
            yield (what, number), ink


def _inks(row: ScoreRow, look: Look, *, in_words: bool) -> Iterator[tuple[str, Ink]]:
    theme = look.theme
    ground = theme.bar if row.selected else ""
    said = _said(row, look)
    yield "key", Ink(theme.key, ground)
    yield "rank", Ink(theme.quiet, ground)
    yield "name", Ink(ground=ground, bold=True)
    yield "score", Ink(theme.ahead.text if row.new_best else "", ground, bold=True)
    yield "last", Ink(theme.quiet, ground)
    yield "cheer", Ink(said, ground, bold=True)
    only_signs = in_words and not equal_of(row)
    yield "sign", Ink(said, ground, bold=True, words="" if only_signs else None)
    yield "words", Ink(said, ground, bold=bool(row.asked or row.best))


def _said(row: ScoreRow, look: Look) -> str:
    """The colour of what stands beside the score."""
    theme = look.theme
    inks = {"ahead": theme.ahead.text, "level": theme.level.text, "first": theme.first.text}
    if row.asked or not row.best:
        return theme.doubtful
    return inks.get(row.best_hue, theme.ink)
