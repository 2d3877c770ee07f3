"""How "who is here" is drawn."""

from functools import partial
from typing import TYPE_CHECKING

from classclock.plan.care import BEFORE_A_CLASS
from classclock.screens.canvas.cells import Drawing, above
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.page_heading import draw_heading, heading_rows
from classclock.screens.canvas.wrapped import wrapped
from classclock.screens.controls.typed_drawing import draw_typed_at_end
from classclock.screens.pages.who.who_desk import WhoDesk
from classclock.screens.people.marks import MARKS
from classclock.screens.people.options_drawing import draw_options
from classclock.screens.people.people_drawing import ShownPeople, draw_people, draw_said
from classclock.screens.people.person_line import PersonLine
from classclock.units.printable import printable
from classclock.wall.kept_off import MARKED
from classclock.wall.share_content import share_lines

if TYPE_CHECKING:
    from classclock.planning.equipment_offers import Offer

_NAMES = 6
"""Rows of names from which what to ask before the class stands over them all the time."""


def draw_who(desk: WhoDesk, columns: int, rows: int, look: Look) -> Drawing:
    """The page in a box of this size."""
    inner = columns - 2
    ends = f"{len(desk.who.people)} here, class ends {desk.who.ends:%H:%M}"
    high = heading_rows(rows)
    beside_it = (ends, printable(desk.who.plan.title), printable(desk.expected))
    heading = draw_heading("Who is here?", beside_it, inner, high, look)
    foot = above(
        *(look.text(text, inner, ink=look.theme.doubtful, bold=True) for text in _short(desk)),
        look.text(desk.notice, inner, ink=look.theme.doubtful, bold=True),
        *(look.text(text, inner, ink=look.theme.quiet) for text in wrapped(_keys(desk), inner)),
    )
    if desk.sharing.asked is not None:
        ways = _sharing(desk, desk.sharing.asked, inner, look)
        ways = look.box(ways, inner, max(0, rows - len(heading) - len(foot)))
        return look.box(above(heading, ways, foot), columns, rows, across="middle")
    left = rows - len(heading) - 3 - len(foot)
    over = _over_the_names(desk, inner, left, look)
    at = desk.search.cursor.within(len(desk.entries))
    people = ShownPeople(desk.entries, at, partial(_words, desk))
    drawn = above(
        heading,
        over,
        look.gap(inner),
        draw_typed_at_end(desk.asked.label if desk.asked else "name", desk.text, inner, look),
        look.gap(inner),
        draw_people(people, inner, max(0, left - len(over)), look),
        foot,
    )
    return look.box(drawn, columns, rows, across="middle")


def _over_the_names(desk: WhoDesk, columns: int, rows: int, look: Look) -> Drawing:
    """What to ask before the class, and the options; in a low window the one, then the other."""
    care = above(*(look.text(text, columns) for text in wrapped([*BEFORE_A_CLASS], columns)))
    choosing = _choosing(desk, columns, look)
    if rows - len(care) - len(choosing) >= _NAMES:
        return above(care, choosing)
    opened = not (desk.who.people or desk.text or desk.marks_open)
    return care if opened else choosing


def _choosing(desk: WhoDesk, columns: int, look: Look) -> Drawing:
    """The piece whose options the digits mean, and what each means."""
    if desk.marks_open:
        return _behind_f7(desk, columns, look)
    piece = desk.options.piece
    if piece is None:
        return look.gap(columns, 0)
    more = "   (ctrl+n: the next piece)" if len(desk.who.choices.pieces) > 1 else ""
    return draw_options(piece, desk.options.shown(piece), columns, look, more=more)


def _behind_f7(desk: WhoDesk, columns: int, look: Look) -> Drawing:
    """The marks, and what there is to say of whoever is lit, where no room reads along."""
    marks = "   ".join(f"{number} {mark}" for number, mark in enumerate(MARKS, start=1))
    lit = desk.highlighted
    here = lit.id if lit is not None and lit.kind == "here" else None
    said = desk.flags.lines_for(here, uncovered=desk.uncovered)
    return above(
        look.text(f"marks   {marks}", columns),
        draw_said(said, columns, look),
    )


def _sharing(desk: WhoDesk, offer: "Offer", columns: int, look: Look) -> Drawing:
    """The ways to share what is short in one segment."""
    lines = share_lines(offer, desk.sharing.of(offer.segment), columns)
    return above(*(look.text(line.text, columns, bold=line.bold) for line in lines))


def _short(desk: WhoDesk) -> tuple[str, ...]:
    """What is short for who is here, or how it is shared, in one line."""
    short = desk.sharing.short()
    if not short or desk.sharing.asked is not None:
        return ()
    offer = short[0]
    sharing = desk.sharing.of(offer.segment).sharing
    words = offer.short if sharing is None else sharing.way
    more = f", and {len(short) - 1} more" if len(short) > 1 else ""
    return (printable(f"ctrl+t: {offer.name}{more}: {words}", 300),)


def _words(desk: WhoDesk, entry: PersonLine) -> str:
    if desk.marks_open:
        return _marks(desk, entry)
    if entry.kind != "here":
        return ""
    sign = MARKED if desk.who.person(entry.id).marks else ""
    piece = desk.options.piece
    chosen = printable(desk.who.choices.words(piece, entry.id), 80)
    return " ".join(filter(None, [sign, chosen]))


def _marks(desk: WhoDesk, entry: PersonLine) -> str:
    """A person's marks, and how long they were away, for the coach's eyes."""
    who = desk.who
    marks = who.person(entry.id).marks if entry.kind == "here" else ()
    days = who.away(entry.id, desk.today)
    ago = [f"last here {days} days ago"] if days is not None and days > 0 else []
    if entry.kind == "here" and desk.uncovered and (words := desk.flags.words(entry.id)):
        ago = [words]
    return ", ".join([*marks, *ago])


def _keys(desk: WhoDesk) -> list[str]:
    if desk.sharing.asked is not None:
        digits = ["a digit chooses"] if desk.sharing.asked.ways else []
        return [*digits, "ctrl+t: the next piece", "escape: leave it"]
    if desk.marks_open:
        return [
            f"1 to {len(MARKS)}: set or take off a mark",
            "up, down: somebody else",
            "F7: hide the marks",
        ]
    if desk.text:
        return ["enter: take in", "up, down: another", "escape: drop what is typed"]
    return [
        "type to find somebody, ? for a visitor",
        "space: here or not",
        "1-9, 0: options",
        "tab: load",
        "ctrl+k: key",
        "ctrl+e: name",
        "F6: chart",
        f"F7: marks, {count} to look at" if (count := desk.flags.count()) else "F7: marks",
        "left, right: class end",
        "enter: to the board",
    ]
