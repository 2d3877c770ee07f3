"""One lane of the wall as a drawing: key, name, tally, its bar, and what it is on for."""

from collections.abc import Iterator

from rich.cells import cell_len

from classclock.screens.canvas.cells import Drawing, Side, above, blank, lay_out, place, width
from classclock.screens.canvas.interval_strip import draw_interval_strip
from classclock.screens.canvas.layout.nodes import Box
from classclock.screens.canvas.letters.lettering import lettering_width
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.ribbon import draw_ribbon, draw_work
from classclock.screens.live.wall.lane_layout import LaneLayout
from classclock.tally.signs import SIGNS
from classclock.wall.hue import Hue
from classclock.wall.lane_bars import Boxes, Ribbon, Share
from classclock.wall.lane_content import LaneContent

_READABLE = 3
"""Rows from which letters are drawn."""
_WORDY = 9
"""Columns from which the last split is called so."""

_Part = tuple[Box | None, Drawing, Side]


def draw_lane(content: LaneContent, plan: LaneLayout, look: Look) -> Drawing:
    """The lane in its rows; what the layout has no box for is left out."""
    ground = look.theme.band if content.selected else look.theme.ground
    parts = (
        (box.x, box.y, place(drawing, box.width, box.height, ground, across=across))
        for box, drawing, across in _parts(content, plan, look, ground)
        if box is not None and box.width > 0 and box.height > 0
    )
    return lay_out(parts, plan.width, plan.rows, ground)


def _parts(content: LaneContent, plan: LaneLayout, look: Look, ground: str) -> Iterator[_Part]:
    theme, rows = look.theme, plan.type_rows
    yield plan.key, _key(content, plan, look, ground), "middle"
    ink = theme.quiet if content.out or content.turn == "waits" else theme.ink
    name = look.letters(content.name, plan.name.width, rows, ink=ink, ground=ground)
    yield plan.name, above(blank(width(name), rows - len(name), ground), name), "left"
    whole = lettering_width(content.tally, rows, look.terminal) <= plan.tally.width
    tally = content.tally if whole else content.short_tally
    drawn = look.letters(tally, plan.tally.width, rows, ground=ground, air=plan.air)
    yield plan.tally, drawn, "right"
    yield plan.sign, _sign(content, look, ground), "left"
    if plan.ribbon is not None:
        standing = _standing_in_words(content, plan)
        bar = _bar(content, plan.ribbon, look, ground, standing, thin=plan.thin_ribbon)
        yield plan.ribbon, bar, "left"
    if plan.projection is not None:
        yield plan.projection, _projection(content, plan.projection, look, ground), "left"
    if plan.split is not None:
        box, text = plan.split, content.split
        beside = box.width < _WORDY
        words = text.rjust(box.width) if beside else f"last {text}" if text else ""
        yield box, look.text(words, box.width, ink=theme.quiet, ground=ground), "left"
    if plan.modification is not None:
        box = plan.modification
        detail = _detail(content, box.width)
        if plan.projection is None and content.against:
            detail = f"{content.against}  {detail}"  # the ribbon's colour is never alone
        note = look.text(detail, box.width, ink=theme.quiet, ground=ground)
        yield box, note, "left"


def _detail(content: LaneContent, columns: int) -> str:
    """The modification, and the planned load in as many words as there is room for."""
    modified, planned = content.modification, content.planned
    if not planned:
        return modified
    every = [*(f"{modified}, {words}" for words in planned if modified), *planned]
    return next((words for words in every if cell_len(words) <= columns), planned[-1])


def _key(content: LaneContent, plan: LaneLayout, look: Look, ground: str) -> Drawing:
    letter, theme = content.key.upper(), look.theme
    if plan.type_rows < _READABLE or look.terminal.dots is None:
        return look.text(f" {letter} ", 3, ink=theme.key_ink, ground=theme.key_ground, bold=True)
    return look.letters(
        letter, plan.key.width, plan.type_rows, ink=theme.key, ground=ground, air=plan.air
    )


def _sign(content: LaneContent, look: Look, ground: str) -> Drawing:
    """Filled where an entry is in doubt; plain where a call may be missing, or whose turn it is."""
    theme = look.theme
    if content.doubtful:
        return look.text(content.sign, 1, ink=theme.ground, ground=theme.doubtful, bold=True)
    if content.turn == "now" and not content.sign:
        return look.text(SIGNS["turn"].sign, 1, ink=theme.key, ground=ground, bold=True)
    sign = content.sign or " "
    return look.text(sign, 1, ink=theme.doubtful, ground=ground, bold=True)


def _projection(content: LaneContent, box: Box, look: Look, ground: str) -> Drawing:
    """What the lane is on for, its rank, and how it stands against its own best."""
    theme = look.theme
    ink = theme.shades(content.standing).text if content.against else theme.ink
    if box.height == 1:
        texts = _fitting(box.width, content.rank, content.on_for, content.against)
        return look.text(texts, box.width, ink=ink, ground=ground, bold=True)
    first = _fitting(box.width, content.on_for, content.against) or content.rank
    second = content.rank if content.on_for else ""
    return above(
        look.text(first, box.width, ink=ink, ground=ground, bold=True),
        look.text(second, box.width, ink=theme.ink, ground=ground),
    )


def _fitting(columns: int, *texts: str) -> str:
    """As many of these as fit beside each other: of too many the first goes first."""
    left = [text for text in texts if text]
    while left:
        shown = "  ".join(left)
        for fewer in (shown, shown.replace("on for ", "→"), " ".join(left).replace("on for ", "→")):
            if len(fewer) <= columns:
                return fewer
        left = left[1:]
    return ""


def _standing_in_words(content: LaneContent, plan: LaneLayout) -> Hue:
    """How the lane stands, where there is room to say it: hue is never all that says so."""
    box = plan.projection or plan.modification
    said = box is not None and len(content.against) <= box.width
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
