"""One lane of the wall as a drawing: key, name, tally, its bar, and what it is on for."""

from collections.abc import Iterator

from classclock.screens.canvas.arranged_drawing import Ink, draw_boxes, draw_spot
from classclock.screens.canvas.cells import Drawing, above, blank
from classclock.screens.canvas.interval_strip import draw_interval_strip
from classclock.screens.canvas.layout.nodes import Box, Spot
from classclock.screens.canvas.letters.lettering import lettering_width
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.ribbon import draw_ribbon, draw_work
from classclock.screens.live.wall.lane_notes import lane_notes
from classclock.screens.live.wall.lift_grid import MADE
from classclock.screens.live.wall.wall_layout import LaneLayout
from classclock.tally.signs import SIGNS
from classclock.wall.hue import Hue
from classclock.wall.lane_bars import Boxes, Ribbon, Share
from classclock.wall.lane_content import LaneContent

_READABLE = 3
"""Rows from which letters are drawn."""

_Part = tuple[Box, Drawing]


def draw_lane(content: LaneContent, plan: LaneLayout, look: Look) -> Drawing:
    """The lane in its rows; what the layout has no spot for is left out."""
    ground = look.theme.band if content.selected else look.theme.ground
    parts = _parts(content, plan, look.on(ground))
    return draw_boxes(parts, plan.width, plan.rows, ground)


def _parts(content: LaneContent, plan: LaneLayout, look: Look) -> Iterator[_Part]:
    theme = look.theme
    yield _key(content, plan.key, look)
    quiet = content.out or content.turn == "waits"
    ink = theme.quiet if quiet else theme.ink
    yield _text(content.name, plan.name, look, Ink(ink, bold=True, down="bottom"))
    if plan.tally is not None:
        tally = tally_shown(content, plan.tally, look)
        yield _text(tally, plan.tally, look, Ink(bold=True, down="bottom"))
    signed = plan.tally or plan.load
    if signed is not None:
        box = signed.box
        line = box.height - 1 if signed.size >= _READABLE else (box.height - 1) // 2
        yield Box(box.x - 1, box.y + line, 1, 1), _sign(content, look)
    said = (
        (plan.start, content.start),
        (plan.rung, content.rung),
        (plan.load, content.load),
        (plan.plates, content.plates),
    )
    for spot, words in said:
        if spot is not None and words:
            yield _text(words, spot, look, Ink(ink, bold=True, down="bottom"))
    if plan.unit is not None and content.load:
        yield _text(content.unit, plan.unit, look, Ink(theme.quiet, down="bottom"))
    if plan.made is not None and content.tally:
        yield _text(MADE, plan.made, look, Ink(theme.quiet, down="bottom"))
    if plan.ribbon is not None:
        box = _ribbon_box(plan.ribbon.box)
        thin = box.height == 1 and (box.y > 0 or plan.rows == 1)
        yield box, _bar(content, box, look, theme.ground, _hue_said(content, plan), thin=thin)
    if plan.notes is not None:
        yield plan.notes.box, _notes(content, plan.notes.box, look)


def _text(words: str, spot: Spot, look: Look, ink: Ink) -> _Part:
    """Large letters stand on the lane's line, terminal text in its middle."""
    down = ink.down if spot.size >= _READABLE else "middle"
    return spot.box, draw_spot(spot, look, Ink(ink.ink, ink.ground, ink.bold, words, down))


def tally_shown(content: LaneContent, spot: Spot, look: Look) -> str:
    """With its odd reps, where there is room for them."""
    wide = lettering_width(content.tally, max(1, spot.size), look.terminal)
    return content.tally if wide <= spot.box.width else content.short_tally


def _ribbon_box(box: Box) -> Box:
    """A high ribbon leaves a row between it and the next lane's."""
    return box._replace(height=box.height - 1 if box.height >= _READABLE else box.height)


def _key(content: LaneContent, spot: Spot, look: Look) -> _Part:
    """A large letter; in terminal text a cap, which is a column wider at both sides."""
    letter, theme, box = content.key.upper(), look.theme, spot.box
    if spot.size < _READABLE or look.terminal.dots is None:
        cap = look.text(f" {letter} ", 3, ink=theme.key_ink, ground=theme.key_ground, bold=True)
        return Box(box.x - 1, box.y + (box.height - 1) // 2, 3, 1), cap
    return _text(letter, spot, look, Ink(theme.key, down="bottom"))


def _sign(content: LaneContent, look: Look) -> Drawing:
    """Filled where an entry is in doubt; plain where a call may be missing, or whose turn it is."""
    theme = look.theme
    if content.doubtful:
        return look.text(content.sign, 1, ink=theme.ground, ground=theme.doubtful, bold=True)
    if content.turn == "now" and not content.sign:
        return look.text(SIGNS["turn"].sign, 1, ink=theme.key, bold=True)
    return look.text(content.sign or " ", 1, ink=theme.doubtful, bold=True)


def _notes(content: LaneContent, box: Box, look: Look) -> Drawing:
    theme = look.theme
    lines = []
    for note in lane_notes(content, box.width, box.height):
        ink = theme.quiet if note.quiet else theme.ink
        if note.standing:
            ink = theme.shades(content.standing).text
        lines.append(look.text(note.text, box.width, ink=ink, bold=not note.quiet))
    return above(*lines) if lines else blank(box.width, box.height, theme.ground)


def _hue_said(content: LaneContent, plan: LaneLayout) -> Hue:
    """How the lane stands, where there is room to say it: hue is never all that says so."""
    said = plan.notes is not None and len(content.against) <= plan.notes.box.width
    return content.standing if said else "first"


def _bar(
    content: LaneContent, box: Box, look: Look, ground: str, standing: Hue, *, thin: bool
) -> Drawing:
    theme = look.theme
    match content.bar:
        case Ribbon() as bar:
            return draw_ribbon(
                box.width,
                box.height,
                cap=bar.cap,
                rounds=bar.rounds,
                elapsed=bar.reached,
                standing=standing,
                theme=theme,
                ground=ground,
                stopped=bar.stopped,
                thin=thin,
                goal=bar.goal,
            )
        case Share() as bar:
            return draw_work(
                box.width,
                box.height,
                whole=bar.whole,
                rounds=bar.rounds,
                done=bar.done,
                standing=standing,
                theme=theme,
                ground=ground,
                finish=bar.finish,
                thin=thin,
                goal=bar.goal,
            )
        case Boxes() as bar:
            return draw_interval_strip(
                box.width,
                box.height,
                numbers=bar.numbers,
                current=bar.current,
                standing=standing,
                theme=theme,
                ground=ground,
                dots=look.terminal.dots,
            )
        case None:
            return blank(box.width, box.height, ground)
