"""Everybody's load and plates as a drawing, as large as they all fit."""

from collections.abc import Sequence
from textwrap import wrap

from msgspec import Struct

from classclock.screens.canvas.bar_side import draw_side
from classclock.screens.canvas.cells import Drawing, above, beside, width
from classclock.screens.canvas.letters.lettering import lettering_width
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.stack import Line, stack
from classclock.tally.signs import SIGNS
from classclock.wall.lift_content import LiftLane

_LETTERS = (6, 5, 3)
"""Rows of the names' and the loads' letters; four suit numerals, but no words."""
_LEAST_LETTERS = _LETTERS[-1]
_MOST_ROWS = 8
_GAP = 2
_LEAST_NOTE = 16
_LEAST_CHANGE = 24
"""Columns in which `then Femke: on 20, off 15` stands in two lines."""
_WORDY = 34
"""Columns of a lane of one row from which its plates are named."""
_LOAD = SIGNS["load"].sign


class _Table(Struct, frozen=True):
    """How all lanes stand: lanes beside each other, and each one's rows and columns.

    `letters` is how high the load is drawn, 1 in terminal text. `name` is 0 where the name stands
    in terminal text over the plates in words, so that the load can be large in a narrow window.
    """

    across: int
    rows: int
    letters: int
    key: int
    name: int
    load: int
    picture: int = 0


def draw_lifts(lanes: Sequence[LiftLane], columns: int, rows: int, look: Look) -> Drawing:
    """The lanes in a box of this size, in as many columns as let all be seen."""
    if not lanes or rows < 1:
        return look.gap(columns, max(0, rows))
    table = _table(lanes, columns, rows, look)
    down = -(-len(lanes) // table.across)
    wide = _wide(columns, table.across)
    sides = [
        look.box(above(*(_lane(lane, table, wide, look) for lane in part)), wide, rows)
        for part in (lanes[at : at + down] for at in range(0, len(lanes), down))
    ]
    gap = look.gap(_GAP, rows)
    drawn = beside(sides[0], *(part for side in sides[1:] for part in (gap, side)))
    return look.box(drawn, columns, rows)


def _wide(columns: int, across: int) -> int:
    return (columns - _GAP * (across - 1)) // across


def _table(lanes: Sequence[LiftLane], columns: int, rows: int, look: Look) -> _Table:
    """The largest letters that fit; of equally large the fewest lanes beside each other."""
    found = [
        table
        for across in (1, 2, 3)
        if (table := _lettered(lanes, _wide(columns, across), rows, across, look)) is not None
    ]
    if found:
        return max(found, key=lambda table: (table.letters, bool(table.name), -table.across))
    across = max(1, -(-len(lanes) // rows))
    name = min(16, max(len(lane.name) for lane in lanes), max(5, _wide(columns, across) - 12))
    return _Table(across, 1, 1, 3, name, 0)


def _lettered(
    lanes: Sequence[LiftLane], columns: int, rows: int, across: int, look: Look
) -> _Table | None:
    each = min(_MOST_ROWS, rows // -(-len(lanes) // across))
    if each < _LEAST_LETTERS or look.terminal.dots is None:
        return None
    for letters in (high for high in _LETTERS if high < each or high == _LEAST_LETTERS):
        key = 2 * letters + 1
        load = max(_load_width(lane, letters, look) for lane in lanes)
        name = max(lettering_width(lane.name, letters, look.terminal) for lane in lanes)
        picture = _picture_width(lanes, letters, look)
        if key + name + load + picture + 2 * _GAP <= columns:
            return _Table(across, each, letters, key, name, load, picture)
    key = 2 * _LEAST_LETTERS + 1
    load = max(_load_width(lane, _LEAST_LETTERS, look) for lane in lanes)
    if columns - key - load - _GAP < max(18, *(len(lane.name) for lane in lanes)):
        return None
    return _Table(across, each, _LEAST_LETTERS, key, 0, load)


def _load_width(lane: LiftLane, letters: int, look: Look) -> int:
    return lettering_width(lane.amount, letters, look.terminal) + 1 + len(lane.unit) + 1


def _picture_width(lanes: Sequence[LiftLane], rows: int, look: Look) -> int:
    pictures = (
        draw_side(lane.bar, lane.plates, 1000, rows, theme=look.theme, terminal=look.terminal)
        for lane in lanes
        if lane.bar
    )
    return max((width(picture) for picture in pictures if picture), default=0)


def _lane(lane: LiftLane, table: _Table, columns: int, look: Look) -> Drawing:
    if table.letters < _LEAST_LETTERS:
        return _in_a_row(lane, table, columns, look)
    letters, theme = table.letters, look.theme
    letter = look.letters(lane.key, table.key - 1, letters, ink=theme.key, air=max(0, letters - 3))
    tie = _tie(lane, letters, table.rows, look)
    key = beside(look.box(letter, table.key - 1, letters), tie[:letters])
    rest = columns - table.key
    if table.name and not lane.amount:
        tall = beside(look.box(letter, table.key - 1, table.rows), tie)
        return beside(tall, _in_words(lane, table, rest, look))
    if table.name:
        drawn = beside(key, _in_columns(lane, table, rest, look))
        if table.rows > letters:
            note = look.text(_note(lane), rest, ink=theme.quiet)
            drawn = above(drawn, beside(look.gap(table.key - 1), tie[letters : letters + 1], note))
    else:
        drawn = beside(key, _narrow(lane, table, rest, look))
    under = range(len(drawn), table.rows)
    more = [beside(look.gap(table.key - 1), tie[at : at + 1], look.gap(rest)) for at in under]
    return look.box(above(drawn, *more), columns, table.rows)


def _in_columns(lane: LiftLane, table: _Table, columns: int, look: Look) -> Drawing:
    """Name, load and picture beside each other."""
    rows = table.letters
    left = columns - table.name - table.load - 2 * _GAP
    name, load = _name(lane, table, rows, look), _load(lane, table, look)
    taken = min(left, table.picture + 1)
    if lane.change.next and table.rows == rows and left - taken < _LEAST_CHANGE:
        # What changes on a bar that is shared is worth more than its picture.
        said = look.box(_shared_lines(lane, left, rows, look), left, rows)
        return beside(name, load, look.gap(_GAP, rows), said)
    picture = _picture(lane, taken, rows, look)
    note = _beside(lane, table, left - taken, look)
    return beside(name, load, look.gap(_GAP, rows), picture, note)


def _shared_lines(lane: LiftLane, columns: int, rows: int, look: Look) -> Drawing:
    """The plates in words, and what changes on the bar for whoever is next."""
    change = wrap(lane.change.words, max(1, columns))
    lines = [(lane.side, False), *((text, True) for text in change), (lane.later, False)]
    drawn = (
        look.text(text, columns, bold=bold, ink=look.theme.ink if bold else look.theme.quiet)
        for text, bold in lines[:rows]
    )
    return above(*drawn)


def _beside(lane: LiftLane, table: _Table, columns: int, look: Look) -> Drawing:
    """The note at the right of the plates, where the lane has no row for it."""
    rows = table.letters
    said = wrap(_note(lane), columns) if table.rows == rows and columns >= _LEAST_NOTE else []
    lines = [look.text(text, columns, ink=look.theme.quiet) for text in said[:rows]]
    return look.box(above(*lines) if lines else look.gap(columns, 0), columns, rows)


def _in_words(lane: LiftLane, table: _Table, columns: int, look: Look) -> Drawing:
    """The name, and what is said in place of a load."""
    said = stack([_words(lane, look)], columns - table.name - _GAP, table.rows, look)
    return beside(_name(lane, table, table.rows, look), said)


def _name(lane: LiftLane, table: _Table, rows: int, look: Look) -> Drawing:
    name = look.letters(lane.name, table.name, table.letters)
    return look.box(name, table.name + _GAP, rows)


def _narrow(lane: LiftLane, table: _Table, columns: int, look: Look) -> Drawing:
    """The name over the plates in words, the load at the right."""
    rows = table.letters
    load = _load(lane, table, look) if lane.amount else look.gap(table.load, rows)
    left = columns - table.load - _GAP
    name = look.text(lane.name, left, bold=True)
    if not lane.amount:
        wide = columns - _GAP
        said = stack([_words(lane, look)], wide, rows - 1, look)
        return look.box(above(look.text(lane.name, wide, bold=True), said), columns, rows)
    lines = above(
        name, look.text(lane.side, left), look.text(_note(lane), left, ink=look.theme.quiet)
    )
    return beside(look.box(lines, left + _GAP, rows), load)


def _words(lane: LiftLane, look: Look) -> Line:
    return Line(lane.words, "main", ink=look.theme.quiet)


def _picture(lane: LiftLane, columns: int, rows: int, look: Look) -> Drawing:
    drawn = (
        draw_side(lane.bar, lane.plates, columns, rows, theme=look.theme, terminal=look.terminal)
        if lane.bar
        else None
    )
    if drawn is None:
        drawn = look.text(lane.side, max(0, columns), bold=True)
    return look.box(drawn, max(0, columns), rows)


def _load(lane: LiftLane, table: _Table, look: Look) -> Drawing:
    """The load, its unit at the foot of the numerals, and a sign where it is to be looked at."""
    rows, theme = table.letters, look.theme
    sign = look.box(
        look.text(_LOAD if lane.flagged else "", 1, ink=theme.doubtful, bold=True), 1, rows
    )
    unit_wide = len(lane.unit) + 1
    amount = look.letters(lane.amount, table.load - 1 - unit_wide, rows, air=max(0, rows - 3))
    unit = look.box(look.text(f" {lane.unit}", unit_wide), unit_wide, rows, down="bottom")
    left = table.load - 1 - unit_wide
    return beside(sign, look.box(amount, left, rows, across="right"), unit)


def _note(lane: LiftLane) -> str:
    waits = "waits for plates" if lane.waits else ""
    then = "; ".join(filter(None, [lane.change.words, lane.later]))
    return ", ".join(filter(None, [waits, then]))


_TIES = {"first": ("┌", False, True)}


def _tie(lane: LiftLane, letters: int, rows: int, look: Look) -> Drawing:
    """A line beside the keys that holds those together who share a bar."""
    place = lane.change.place
    if not place:
        return look.gap(1, rows)
    begins, ends = place in ("first", "middle"), place in ("middle", "last")
    signs = ["│" if begins else " "] * rows
    if ends:
        signs[:letters] = ["│"] * letters
        signs[letters - 1] = "├" if begins else "└"
    elif begins:
        signs[0] = "┌"
    return above(*(look.text(sign, 1, ink=look.theme.quiet) for sign in signs))


def _in_a_row(lane: LiftLane, table: _Table, columns: int, look: Look) -> Drawing:
    theme = look.theme
    key = look.text(f" {lane.key} ", 3, ink=theme.key_ink, ground=theme.key_ground, bold=True)
    name = look.text(lane.name, table.name, bold=True)
    sign = look.text(_LOAD if lane.flagged else "", 1, ink=theme.doubtful, bold=True)
    left = columns - 3 - 1 - table.name - 1
    load = f"{lane.amount} {lane.unit}".strip()
    load = load if len(load) <= left else lane.amount
    words = load or (lane.words if left >= _LEAST_NOTE else "-")
    if load and left >= _WORDY - table.name:
        words = f"{load:>8}  {lane.change.words or lane.side}"
    rest = look.text(words, left, bold=bool(load), ink=theme.ink if load else theme.quiet)
    return beside(key, _tie(lane, 1, 1, look), name, sign, rest)
