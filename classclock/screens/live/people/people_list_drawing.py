"""How the list of who is here is drawn, between two pieces."""

from collections.abc import Sequence

from classclock.screens.canvas.cells import Drawing, above
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.page_heading import draw_heading, heading_rows
from classclock.screens.canvas.wrapped import wrapped
from classclock.screens.controls.typed_drawing import draw_typed_at_end
from classclock.screens.live.people.people_desk import PeopleDesk
from classclock.screens.people.marks import MARKS
from classclock.screens.people.options_drawing import draw_options
from classclock.screens.people.people_drawing import ShownPeople, draw_people, draw_said
from classclock.screens.people.person_line import PersonLine
from classclock.wall.between.here_content import HereContent

_ROOMY = 24
"""Rows from which a line is left free here and there."""


def draw_people_list(desk: PeopleDesk, columns: int, rows: int, look: Look) -> Drawing:
    """The list in a box of this size."""
    content = desk.people.content()
    inner = columns - 2
    heading = _heading(content, inner, rows, look)
    over = above(*_over_the_names(desk, content, inner, look))
    gap = look.gap(inner, 1 if rows >= _ROOMY else 0)
    keys = [look.text(text, inner, ink=look.theme.quiet) for text in _keys(desk, inner, rows)]
    left = rows - len(heading) - len(over) - 2 * len(gap) - len(keys)
    shown = ShownPeople(desk.lines, desk.at, _Words(desk, content).of)
    names = draw_people(shown, inner, max(0, left), look)
    drawn = above(heading, over, gap, names, gap, *keys)
    return look.box(drawn, columns, rows, across="middle")


def _heading(content: HereContent, columns: int, rows: int, look: Look) -> Drawing:
    beside_it = tuple(filter(None, (content.count, content.clock)))
    high = heading_rows(rows)
    if high == 1:
        beside_it = (", ".join(beside_it),)
    return draw_heading("Who is here?", beside_it, columns, high, look)


def _over_the_names(
    desk: PeopleDesk, content: HereContent, columns: int, look: Look
) -> Sequence[Drawing]:
    """The piece to come with what its digits mean, or the marks; what is being typed."""
    drawn = []
    if desk.marks_open:
        drawn.append(look.text(_marks_words(desk), columns))
        lit = desk.lit
        if not desk.people.mirrored:  # a class has begun: nothing uncovers it for the room
            lines = desk.people.flags.lines_for(lit.id if lit else None, uncovered=True)
            drawn.append(draw_said(lines, columns, look))
    elif content.piece is not None:
        piece = content.piece
        drawn.append(draw_options(piece, desk.piece.digits.shown(piece), columns, look))
    if desk.asked is not None:
        drawn.append(draw_typed_at_end(desk.asked.label, desk.asked.text, columns, look))
    elif desk.search is not None:
        drawn.append(draw_typed_at_end("name", desk.search.text, columns, look))
    return drawn


def _marks_words(desk: PeopleDesk) -> str:
    """Which digit is which mark; where the room reads along it is told that there are some."""
    if desk.people.mirrored:
        return f"1 to {len(MARKS)} marks who is lit, or takes it off; ? says which is which"
    marks = "   ".join(f"{number} {mark}" for number, mark in enumerate(MARKS, start=1))
    return f"marks   {marks}"


class _Words:
    """What stands behind each name."""

    def __init__(self, desk: PeopleDesk, content: HereContent) -> None:
        self._desk = desk
        self._in_class = {one.id: one for one in content.people}
        self._marks = desk.marks_open and not desk.people.mirrored

    def of(self, line: PersonLine) -> str:
        person = self._in_class.get(line.id)
        if person is None:
            return ""
        if not self._marks:
            return person.words
        return ", ".join(filter(None, (*person.marks, self._desk.people.flags.words(person.id))))


def _keys(desk: PeopleDesk, columns: int, rows: int) -> list[str]:
    """The weightiest that fit into two lines, three where there is room."""
    lines = wrapped(_key_words(desk), columns)
    return lines[: 3 if rows >= _ROOMY else 2]


def _key_words(desk: PeopleDesk) -> list[str]:
    if desk.asked is not None:
        return [desk.asked.notice, "escape: leave it"]
    if desk.search is not None:
        return ["enter: take in", "up, down: another", "escape: nobody comes"]
    if desk.swaps:
        return ["their letter, or up, down and enter: change places", "escape: leave it"]
    if desk.marks_open:
        return [f"1 to {len(MARKS)}: a mark", "a letter, up, down: who", "F7: hide the marks"]
    return [
        "escape: close",
        "a letter, up, down: who",
        "space: has left, is back",
        "+: add",
        "1-9, 0: options",
        "tab: load",
        "ctrl+e: name",
        ">: swap",
        "F7: marks",
        "ctrl+k: key",
        "?: keys",
    ]
