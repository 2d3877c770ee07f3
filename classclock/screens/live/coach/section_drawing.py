"""A heading with the lines under it, in a box that may be too low for all of them."""

from collections.abc import Iterator

from rich.cells import cell_len

from classclock.screens.canvas.cells import Drawing, above, beside, place
from classclock.screens.canvas.look import Look
from classclock.screens.live.coach.coach_lane_drawing import draw_line
from classclock.screens.live.coach.flowing import flowing
from classclock.wall.coach.coach_values import CoachLine, CoachSection, LaneWords


def draw_section(section: CoachSection, columns: int, rows: int, look: Look) -> Drawing:
    """The first lines whole, as far as there is room; in one row the first, without a heading."""
    if not (columns and rows):
        return look.gap(columns, rows)
    lines = section.lines
    if rows == 1 and lines:
        return _line(lines[0], _before(lines[:1]), columns, 1, look)
    drawn = [_heading(section, columns, look), *_shown(section, columns, rows - 1, look)]
    return place(above(*drawn), columns, rows, look.theme.ground)


def _before(lines: tuple[CoachLine, ...]) -> int:
    """Columns before the words of each line."""
    return max((cell_len(line.at) + 1 for line in lines if line.at), default=0)


def _room(line: CoachLine, before: int, columns: int) -> int:
    """Columns for its words."""
    behind = cell_len(line.keys) + 1 if line.keys else 0
    return max(1, columns - before - behind)


def _heading(section: CoachSection, columns: int, look: Look) -> Drawing:
    """Over the lines, and over their keys; the words first where not both fit."""
    theme, right = look.theme, section.over_keys
    wide = cell_len(right)
    if cell_len(section.heading) + wide + 2 > columns:
        right, wide = "", 0
    left = look.text(section.heading, columns - wide, ink=theme.quiet)
    return beside(left, look.text(right, wide, ink=theme.quiet)) if right else left


def _shown(section: CoachSection, columns: int, rows: int, look: Look) -> Iterator[Drawing]:
    """What is too long takes more rows where the lines after it leave any."""
    lines, before = section.lines, _before(section.lines)
    counts_rest = section.name != "entries" and len(lines) > rows > 1
    shown = lines[: rows - counts_rest]
    spare = rows - len(lines)
    for line in shown:
        takes = len(flowing((LaneWords(line.words),), _room(line, before, columns), rows))
        high = 1 + max(0, min(spare, takes - 1))
        spare -= high - 1
        yield _line(line, before, columns, high, look)
    if counts_rest:
        yield look.text(f"and {len(lines) - len(shown)} more", columns, ink=look.theme.quiet)


def _line(line: CoachLine, before: int, columns: int, rows: int, look: Look) -> Drawing:
    theme, room = look.theme, _room(line, before, columns)
    said = flowing((LaneWords(line.words, line.tone),), room, rows)
    words = above(*(draw_line(one, room, look) for one in said)) if said else look.gap(room)
    behind = columns - before - room
    keys = look.text(line.keys.rjust(behind), behind, ink=theme.key, bold=True)
    parts = (
        (look.text(line.at, before, ink=theme.quiet), before),
        (words, room),
        (keys, behind),
    )
    placed = (place(part, wide, rows, theme.ground) for part, wide in parts)
    return place(beside(*placed), columns, rows, theme.ground)
