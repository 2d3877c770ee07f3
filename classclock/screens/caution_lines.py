"""What to look out for, as lines of a board: none of them is ever left out."""

from classclock.screens.board_content import BoardContent
from classclock.screens.look import Look
from classclock.screens.stack import Line, Size, least_rows


def caution_line(text: str, look: Look, size: Size = "second") -> Line:
    theme = look.theme
    return Line(f" ! {text}", size, ink=theme.alarm_ink, ground=theme.alarm_ground, bold=True)


def caution_lines(
    content: BoardContent, look: Look, columns: int, rows: int, others: int = 0
) -> tuple[Line, ...]:
    """A line each; in one that breaks where they would take the rows of what is to be done.

    `others` is how many of the rows that takes at least.
    """
    again = [caution_line(content.stop_again, look, "plain")] if content.stop_again else []
    lines = (*again, *(caution_line(text, look) for text in content.cautions))
    together = tuple(
        Line("".join(line.text for line in lines), ink=line.ink, ground=line.ground, bold=True)
        for line in lines[:1]
    )
    taken, least = least_rows(lines, columns, look), least_rows(together, columns, look)
    makes_room = taken > rows or least + others <= rows < taken + others
    return together if makes_room else lines
