"""The board of a lift: the set, what to look out for, everybody's load and plates."""

from functools import partial

from classclock.screens.canvas.arranged_drawing import Drawer, Ink, draw_arranged
from classclock.screens.canvas.bar_side import draw_side
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.cells import Drawing, VerticalAlign, above
from classclock.screens.canvas.layout.nodes import Spot, Spots
from classclock.screens.canvas.layout.parts import Name
from classclock.screens.canvas.look import Look
from classclock.screens.live.board.lift_layout import lift_layout, load_words, page_words
from classclock.wall.board_content import BoardContent
from classclock.wall.lift_content import LiftBoard, LiftLane


def draw_lift_body(
    content: BoardContent, lift: LiftBoard, columns: int, rows: int, look: Look
) -> Drawing:
    """What is between the board's first row and its foot. Cautions are never left out."""
    laid = lift_layout(content, lift, columns, rows, CellMeasure(look.terminal))
    spots = laid.pages[content.page % len(laid.pages)]
    inks = {name: _ink(name, spots, lift, look) for name in spots}
    inks["page"] = Ink(look.theme.quiet, words=_shown(spots, lift) if len(laid.pages) > 1 else "")
    return draw_arranged(spots, columns, rows, look, inks=inks, drawers=_drawers(spots, lift, look))


def _shown(spots: Spots, lift: LiftBoard) -> str:
    here = [at for at, _ in enumerate(lift.lanes, start=1) if ("key", at - 1) in spots]
    return page_words(here[0], here[-1], len(lift.lanes))


def _ink(name: Name, spots: Spots, lift: LiftBoard, look: Look) -> Ink:
    theme = look.theme
    match name:
        case ("key", _):
            return Ink(theme.key, bold=True)
        case "stop" | ("caution", _):
            return Ink(theme.alarm_ink, theme.alarm_ground, bold=True)
        case "short":
            return Ink(theme.doubtful, bold=True)
        case ("load", int(number)):
            lane = lift.lanes[number]
            ink = theme.doubtful if lane.flagged else ""
            return Ink(ink, bold=True, words=load_words(lane), down=_down(spots["load", number]))
        case ("name" | "plates", _):
            return Ink(bold=True, down=_down(spots[name]))
        case ("unit", int(number)):
            return Ink(theme.quiet, down=_down(spots["load", number]))
        case "title" | "words" | (("note" | "later" | "instead"), _):
            return Ink(theme.quiet)
        case _:
            return Ink(bold=True)


def _down(spot: Spot) -> VerticalAlign:
    """Large letters, and what stands beside them, are on the key's line."""
    return "bottom" if spot.size > 1 else "middle"


def _drawers(spots: Spots, lift: LiftBoard, look: Look) -> dict[Name, Drawer]:
    found: dict[Name, Drawer] = {}
    for name in spots:
        match name:
            case ("tie", int(number)):
                found[name] = partial(_tie, lift.lanes[number], look)
            case ("picture", int(number)):
                found[name] = partial(_picture, lift.lanes[number], look)
    return found


def _picture(lane: LiftLane, look: Look, columns: int, rows: int) -> Drawing:
    theme, terminal = look.theme, look.terminal
    drawn = draw_side(lane.bar, lane.plates, columns, rows, theme=theme, terminal=terminal)
    return drawn or look.gap(columns, rows)


def _tie(lane: LiftLane, look: Look, columns: int, rows: int) -> Drawing:
    """A line beside the keys that holds those together who share a bar."""
    begins, ends = lane.change.place != "last", lane.change.place != "first"
    if rows == 1:
        signs = ["┌" if not ends else "├" if begins else "└"]
    else:
        first = "│" if ends else "┌"
        last = "│" if begins else "└"
        signs = [first, *["│"] * (rows - 2), last]
    return above(*(look.text(sign, columns, ink=look.theme.quiet) for sign in signs))
