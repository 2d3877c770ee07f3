"""One lane of the coach's screen as a drawing: key, name, score, signs, and what is to be known."""

from collections.abc import Iterator, Sequence

from rich.cells import cell_len

from classclock.screens.canvas.arranged_drawing import Ink, draw_boxes, draw_spot
from classclock.screens.canvas.cells import Drawing, above, beside, place
from classclock.screens.canvas.layout.nodes import Box, Spot
from classclock.screens.canvas.letters.lettering import lettering_width
from classclock.screens.canvas.look import Look
from classclock.screens.live.coach.coach_layout import CoachLaneLayout
from classclock.screens.live.coach.flowing import RowPiece, flowing
from classclock.wall.coach.coach_values import CoachLane, LaneWords, WordTone

_LETTERS = 3
"""Rows from which letters are drawn."""

_Part = tuple[Box, Drawing]


def draw_coach_lane(lane: CoachLane, plan: CoachLaneLayout, look: Look) -> Drawing:
    """The lane in its rows; what the layout has no spot for is left out."""
    ground = look.theme.bar if lane.selected else look.theme.ground
    parts = _parts(lane, plan, look.on(ground))
    return draw_boxes(parts, plan.width, plan.rows, ground)


def _parts(lane: CoachLane, plan: CoachLaneLayout, look: Look) -> Iterator[_Part]:
    theme = look.theme
    ink = theme.quiet if lane.out else theme.ink
    yield _key(lane.key, plan.key, look)
    yield _text(lane.name, plan.name, look, ink)
    if plan.score is not None:
        wide = lettering_width(lane.score, max(1, plan.score.size), look.terminal)
        score = lane.score if wide <= plan.score.box.width else lane.short_score
        yield _text(score, plan.score, look, ink)
    box = plan.signs.box._replace(y=plan.name.box.y, height=plan.name.box.height)
    signs = look.text(lane.signs, box.width, ink=theme.doubtful, bold=True)
    yield box, place(signs, box.width, box.height, theme.ground, down="middle")
    if plan.about is not None:
        box = plan.about.box
        drawn = draw_said(lane.about, box.width, box.height, look)
        yield box, place(drawn, box.width, box.height, theme.ground, down="middle")


def _key(key: str, spot: Spot, look: Look) -> _Part:
    """A large letter; in terminal text a cap, which is a column wider at both sides."""
    theme, box = look.theme, spot.box
    if spot.size < _LETTERS or look.terminal.dots is None:
        cap = look.text(f" {key} ", 3, ink=theme.key_ink, ground=theme.key_ground, bold=True)
        return Box(box.x - 1, box.y + (box.height - 1) // 2, 3, 1), cap
    return _text(key, spot, look, theme.key)


def _text(words: str, spot: Spot, look: Look, ink: str) -> _Part:
    return spot.box, draw_spot(spot, look, Ink(ink, bold=True, words=words))


def draw_said(said: Sequence[LaneWords], columns: int, rows: int, look: Look) -> Drawing:
    """In as many rows as it takes, and there are."""
    lines = flowing(said, columns, rows)
    return above(*(draw_line(line, columns, look) for line in lines)) if lines else ()


def draw_line(line: Sequence[RowPiece], columns: int, look: Look) -> Drawing:
    """A row of that width."""
    drawn = [
        look.text(
            piece.words,
            cell_len(piece.words),
            ink=tone_ink(piece.tone, look),
            bold=piece.tone != "quiet",
        )
        for piece in line
    ]
    return place(beside(*drawn), columns, 1, look.theme.ground)


def tone_ink(tone: WordTone, look: Look) -> str:
    """A word or a sign always says the same."""
    theme = look.theme
    inks: dict[WordTone, str] = {
        "doubtful": theme.doubtful,
        "cheer": theme.ahead.text,
        "plain": theme.ink,
        "quiet": theme.quiet,
    }
    return inks[tone]
