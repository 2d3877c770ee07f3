"""The board as a drawing: the plan at the left, who is in it at the right."""

from collections.abc import Iterator

from rich.cells import cell_len

from classclock.screens.canvas.cells import Drawing, above, beside, blank, place, width
from classclock.screens.canvas.letters.lettering import lettering_width
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.stack import Line, fit, stack
from classclock.screens.live.board.caution_lines import caution_ways, largest
from classclock.wall.board_content import BoardContent, BoardLane, BoardStation
from classclock.wall.modification import AS_WRITTEN

_TWO_SIDES = 100
"""Columns from which the lanes have a side of their own."""
_MARGIN = 2


def draw_board(content: BoardContent, columns: int, rows: int, look: Look) -> Drawing:
    """The board in a box of this size. Its cautions are never left out."""
    if content.lesson is not None:
        from classclock.screens.live.board.lesson_drawing import draw_lesson  # noqa: PLC0415  only if asked

        return draw_lesson(content.lesson, columns, rows, look)
    ground = look.theme.ground
    inner = columns - 2 * _MARGIN if columns >= _TWO_SIDES else columns - 2
    top = _top(content, inner, look)
    foot = _foot(content, inner, look)
    spare = 1 if rows >= 24 else 0
    middle = rows - len(top) - len(foot) - 2 * spare
    others = len(content.stations) + 1
    if content.lift is not None and content.lift.lanes:
        from classclock.screens.live.board.lift_board_drawing import draw_lift_body  # noqa: PLC0415  lifts only

        body = draw_lift_body(content, content.lift, inner, middle, look)
    elif columns >= _TWO_SIDES and content.lanes:
        cautions = caution_ways(content, look, inner * 58 // 100, middle, others)
        ways = [tuple(_lines(content, one, look)) for one in cautions]
        lines = largest(ways, inner * 66 // 100, middle, look)

        def worth(left: int) -> tuple[int, bool, int]:
            main, text = fit(lines, left, middle, look)
            return main, _has_letters(content.lanes, inner - left - 3, middle, look), text

        left = max((inner * share // 100 for share in (58, 66, 74)), key=worth)
        body = beside(
            stack(lines, left, middle, look),
            blank(3, middle, ground),
            draw_lanes(content.lanes, inner - left - 3, middle, look),
        )
    else:
        names = _names(content, look)
        cautions = caution_ways(content, look, inner, middle, others)
        ways = [(*_lines(content, one, look), *names) for one in cautions]
        body = stack(largest(ways, inner, middle, look), inner, middle, look)
    gap = blank(inner, spare, ground)
    board = above(top, gap, body, gap, foot) if spare else above(top, body, foot)
    return place(board, columns, rows, ground, across="middle")


def _top(content: BoardContent, columns: int, look: Look) -> Drawing:
    theme = look.theme
    right = min(len(content.place), columns)
    title = look.text(content.title, columns - right, ink=theme.quiet)
    return beside(title, look.text(content.place, right, ink=theme.quiet))


def _foot(content: BoardContent, columns: int, look: Look) -> Drawing:
    """What comes next and how the time stands; what is short."""
    theme = look.theme
    words = f"{content.next}    {content.left}"
    lines = [words] if len(words) <= columns else [content.next, content.left]
    drawn = [look.text(text, columns, bold=True) for text in lines]
    if content.equipment:
        drawn.insert(0, look.text(content.equipment, columns, ink=theme.doubtful, bold=True))
    return above(*drawn)


def _lines(content: BoardContent, cautions: tuple[Line, ...], look: Look) -> Iterator[Line]:
    theme = look.theme
    yield Line(content.name, "title", keep=1, bold=True)
    yield Line(content.words, "second", keep=2, ink=theme.quiet)
    if content.expected:
        yield Line(content.expected, "second", keep=2, ink=theme.quiet)
    yield from cautions
    yield Line(keep=6)
    for number, station in enumerate(content.stations):
        if number:
            yield Line(keep=7)
        yield from _station(station, look)
    for text in (*content.sets, *content.lines):
        yield Line(text, "main", keep=1, bold=True)
    yield Line(keep=6)
    for text in content.notes:
        yield Line(text, keep=3, ink=theme.quiet)


def _station(station: BoardStation, look: Look) -> Iterator[Line]:
    quiet = look.theme.quiet
    yield Line(station.words, "main", keep=1, bold=True)
    if station.standard:
        yield Line(station.standard, keep=3, indent=2)
    if station.options:
        yield Line(", ".join(station.options), keep=2, ink=quiet, indent=2)


def _names(content: BoardContent, look: Look) -> tuple[Line, ...]:
    """Who is in it, in one line that breaks, where there is no side for them."""
    if not content.lanes:
        return ()
    starts = dict.fromkeys(lane.start for lane in content.lanes)
    lines = []
    for start in starts:
        here = (lane for lane in content.lanes if lane.start == start)
        words = "".join(
            f"{' + ' if lane.beside else '   '}{lane.key}\N{NO-BREAK SPACE}{lane.name}"
            for lane in here
        ).strip()
        # Who starts where must be known before the start; who is here can be seen.
        text, keep = (f"{start}: {words}", 2) if start else (words, 3)
        lines.append(Line(text, keep=keep, ink=look.theme.quiet))
    return (Line(keep=6), *lines)


def draw_lanes(lanes: tuple[BoardLane, ...], columns: int, rows: int, look: Look) -> Drawing:
    """Everybody with key and modification, as large as they all fit."""
    ground = look.theme.ground
    across = max((1, 2), key=lambda sides: _lane_rows(lanes, columns, rows, sides, look))
    high = max(1, _lane_rows(lanes, columns, rows, across, look))
    down, each = -(-len(lanes) // across), _side(columns, across)
    longest = max(len(lane.name) for lane in lanes)
    sides = []
    for side in range(across):
        part = lanes[side * down : (side + 1) * down]
        drawn = above(*(_lane(lane, each, high, look, longest) for lane in part)) if part else ()
        sides.append(place(drawn or blank(each, 0, ground), each, rows, ground))
    drawing = sides[0] if across == 1 else beside(sides[0], blank(2, rows, ground), sides[1])
    return place(drawing, columns, rows, ground)


def _has_letters(lanes: tuple[BoardLane, ...], columns: int, rows: int, look: Look) -> bool:
    """Whether everybody's name can be read from afar in this box."""
    return any(_lane_rows(lanes, columns, rows, across, look) > 1 for across in (1, 2))


def _side(columns: int, across: int) -> int:
    return (columns - 2 * (across - 1)) // across


def _lane_rows(
    lanes: tuple[BoardLane, ...], columns: int, rows: int, across: int, look: Look
) -> int:
    """How high a lane can be in so many columns of lanes; 0: they don't all fit."""
    most = min(5, rows // -(-len(lanes) // across))
    name = max((lane.name for lane in lanes), key=len)
    drawn = (
        high
        for high in range(most, 2, -1)
        if lettering_width(name, high, look.terminal) <= _side(columns, across) - 3 * high
    )
    return next(drawn, min(1, most)) if look.terminal.dots else min(1, most)


def _lane(lane: BoardLane, columns: int, rows: int, look: Look, longest: int) -> Drawing:
    """One lane; in one row the names of all take as much as the longest."""
    theme = look.theme
    details = ", ".join(part for part in (lane.modification, lane.load) if part)
    if details == AS_WRITTEN:
        details = ""  # what nobody has to be told
    if lane.partners:
        details = ", ".join(
            part for part in (f"with {' and '.join(lane.partners)}", details) if part
        )
    if lane.start:
        details = ", ".join(part for part in (f"at {lane.start}", details) if part)
    if rows == 1:
        key = look.text(f" {lane.key} ", 3, ink=theme.key_ink, ground=theme.key_ground, bold=True)
        name = min(max(14, longest + 1), columns - 4)
        rest = columns - 4 - name
        return beside(
            key,
            blank(1, 1, theme.ground),
            look.text(lane.name, name, bold=True),
            look.text(details, rest, ink=theme.quiet),
        )
    wide = 2 * rows + 1
    key = place(
        look.letters(lane.key, wide - 1, rows, ink=theme.key, air=max(0, rows - 3)),
        wide,
        rows,
        theme.ground,
    )
    whole = columns - wide - cell_len(details) - 2  # what the letters may take beside all details
    least = lettering_width(lane.name, rows, look.terminal)
    name_letters = look.letters(lane.name, whole if least <= whole else columns - wide, rows)
    taken = width(name_letters) + 2
    rest = max(0, columns - wide - taken)
    note = place(
        look.text(details, rest, ink=theme.quiet) if rest else blank(0, 1, theme.ground),
        rest,
        rows,
        theme.ground,
        down="middle",
    )
    return beside(key, place(name_letters, columns - wide - rest, rows, theme.ground), note)
