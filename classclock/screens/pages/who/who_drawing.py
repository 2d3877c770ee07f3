"""How "who is here" is drawn."""

from datetime import datetime
from typing import TYPE_CHECKING

from msgspec import Struct

from classclock.plan.care import BEFORE_A_CLASS
from classclock.plan.outline import describe
from classclock.screens.canvas.cells import Drawing, above, beside
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.page_heading import draw_heading, heading_rows
from classclock.screens.pages.who.who_desk import MOST_DIGITS, WhoDesk
from classclock.screens.pages.who.who_list import MARKS, Entry
from classclock.units.printable import printable
from classclock.wall.share_content import share_lines

if TYPE_CHECKING:
    from classclock.planning.equipment_offers import Offer

_LEAST_COLUMN = 38
_NAMES = 6
"""Rows of names from which what to ask before the class stands over them all the time."""
_SIGN = "•"  # stands for marks that the room may not read


class WhoPage(Struct, frozen=True):
    """What is shown at one moment."""

    desk: WhoDesk
    today: datetime


def draw_who(page: WhoPage, columns: int, rows: int, look: Look) -> Drawing:
    desk, inner = page.desk, columns - 2
    ends = f"{len(desk.who.people)} here, class ends {desk.who.ends:%H:%M}"
    high = heading_rows(rows)
    beside_it = (ends, printable(desk.who.plan.title), printable(desk.expected))
    heading = draw_heading("Who is here?", beside_it, inner, high, look)
    foot = above(
        *(look.text(text, inner, ink=look.theme.doubtful, bold=True) for text in _short(desk)),
        look.text(desk.notice, inner, ink=look.theme.doubtful, bold=True),
        *(look.text(text, inner, ink=look.theme.quiet) for text in _wrapped(_keys(desk), inner)),
    )
    if desk.sharing.asked is not None:
        ways = _sharing(desk, desk.sharing.asked, inner, look)
        ways = look.box(ways, inner, max(0, rows - len(heading) - len(foot)))
        return look.box(above(heading, ways, foot), columns, rows, across="middle")
    left = rows - len(heading) - 3 - len(foot)
    over = _over_the_names(desk, inner, left, look)
    drawn = above(
        heading,
        over,
        look.gap(inner),
        _typed(desk, inner, look),
        look.gap(inner),
        _people(page, inner, max(0, left - len(over)), look),
        foot,
    )
    return look.box(drawn, columns, rows, across="middle")


def _over_the_names(desk: WhoDesk, columns: int, rows: int, look: Look) -> Drawing:
    """What to ask before the class, and the options; in a low window the one, then the other."""
    care = above(*(look.text(text, columns) for text in _wrapped([*BEFORE_A_CLASS], columns)))
    choosing = _choosing(desk, columns, look)
    if rows - len(care) - len(choosing) >= _NAMES:
        return above(care, choosing)
    opened = not (desk.who.people or desk.text or desk.marks_open)
    return care if opened else choosing


def _choosing(desk: WhoDesk, columns: int, look: Look) -> Drawing:
    """The piece whose options the digits mean, and what each means."""
    if desk.marks_open:
        marks = "   ".join(f"{number} {mark}" for number, mark in enumerate(MARKS, start=1))
        return look.text(f"marks   {marks}", columns)
    piece = desk.piece
    if piece is None:
        return look.gap(columns, 0)
    names = [
        f"{digit} {piece.option_name(number)}"
        for digit, number in enumerate(desk.options_shown(piece), start=1)
    ]
    names += ["0 as written"] if names else []
    names += ["ctrl+o more options"] if len(piece.menu) > MOST_DIGITS else []
    names += [f"tab {' / '.join(map(piece.load_name, piece.loads))}"] if piece.loads else []
    title = f"{piece.segment.name}: {describe(piece.segment)}"
    if len(desk.who.modifiable()) > 1:
        title += "   (ctrl+n: the next piece)"
    lines = [look.text(printable(title, 200), columns, bold=True)]
    lines += [
        look.text(printable(text, 400), columns, ink=look.theme.quiet)
        for text in _wrapped(names, columns)
    ]
    return above(*lines)


def _sharing(desk: WhoDesk, offer: "Offer", columns: int, look: Look) -> Drawing:
    """The ways to share what is short in one segment."""
    lines = share_lines(offer, desk.who.sharing(offer.segment), columns)
    return above(*(look.text(line.text, columns, bold=line.bold) for line in lines))


def _short(desk: WhoDesk) -> tuple[str, ...]:
    """What is short for who is here, or how it is shared, in one line."""
    short = desk.sharing.short()
    if not short or desk.sharing.asked is not None:
        return ()
    offer = short[0]
    sharing = desk.who.sharing(offer.segment)
    words = offer.short if sharing is None else sharing.way
    more = f", and {len(short) - 1} more" if len(short) > 1 else ""
    return (printable(f"ctrl+t: {offer.name}{more}: {words}", 300),)


def _wrapped(parts: list[str], columns: int) -> list[str]:
    """The parts in lines, none torn apart."""
    lines: list[str] = []
    for part in parts:
        if lines and len(lines[-1]) + 3 + len(part) <= columns:
            lines[-1] += f"   {part}"
        else:
            lines.append(part)
    return lines


def _typed(desk: WhoDesk, columns: int, look: Look) -> Drawing:
    words = {"find": "name", "key": "key", "name": "name on the wall"}[desk.mode]
    typed = look.text(
        f"{words}: {printable(desk.text)}", len(words) + 2 + len(desk.text), bold=True
    )
    caret = look.on(look.theme.ink).gap(1)
    return look.box(beside(typed, caret), columns, 1)


def _people(page: WhoPage, columns: int, rows: int, look: Look) -> Drawing:
    """All who match, those who are here first, in as many columns as there is room for."""
    entries = page.desk.entries
    if not rows or not entries:
        return look.gap(columns, rows)
    across = max(1, min(3, columns // _LEAST_COLUMN, -(-len(entries) // rows)))
    width = (columns - 2 * (across - 1)) // across
    at = min(page.desk.at, len(entries) - 1)
    first = _first_shown(at, rows, across)
    shown = entries[first : first + rows * across]
    stacks = [
        look.box(
            above(
                *(
                    _entry(entry, page, width, look, lit=first + start + n == at)
                    for n, entry in enumerate(shown[start : start + rows])
                )
            ),
            width,
            rows,
        )
        for start in range(0, len(shown), rows)
    ]
    gap = look.gap(2, rows)
    together = beside(stacks[0], *(part for stack in stacks[1:] for part in (gap, stack)))
    return look.box(together, columns, rows)


def _first_shown(at: int, rows: int, across: int) -> int:
    """The first entry in view: whole columns go by, so that what is highlighted stays in view."""
    return max(0, at // rows - across + 1) * rows


def _entry(entry: Entry, page: WhoPage, columns: int, look: Look, *, lit: bool) -> Drawing:
    theme = look.theme
    here = look.on(theme.bar) if lit else look
    edge = here.text("▌" if lit else "", 1)
    if entry.kind == "new":
        return beside(edge, here.text(f"+ add {printable(entry.name)}, new here", columns - 1))
    known = entry.kind == "known"
    cap = f" {entry.key.upper()} "
    key = (
        here.text(cap, 3, ink=theme.quiet)
        if known
        else here.text(cap, 3, ink=theme.key_ink, ground=theme.key_ground, bold=True)
    )
    name = printable(entry.name, 40)
    wide = max(10, min(16, columns // 3))
    words = _words(entry, page)
    return beside(
        edge,
        key,
        here.gap(1),
        here.text(name, wide, ink=theme.quiet if known else theme.ink, bold=not known),
        here.gap(1),
        here.text(words, columns - 6 - wide, ink=theme.quiet),
    )


def _words(entry: Entry, page: WhoPage) -> str:
    desk = page.desk
    if desk.marks_open:
        return _marks(entry, page)
    if entry.kind != "here":
        return ""
    sign = _SIGN if desk.who.person(entry.id).marks else ""
    piece = desk.piece
    chosen = printable(desk.who.choice_words(piece, entry.id), 80) if piece else ""
    return " ".join(filter(None, [sign, chosen]))


def _marks(entry: Entry, page: WhoPage) -> str:
    """A person's marks, and how long they were away, for the coach's eyes."""
    who = page.desk.who
    marks = who.person(entry.id).marks if entry.kind == "here" else ()
    days = who.away(entry.id, page.today)
    ago = [f"last here {days} days ago"] if days is not None and days > 0 else []
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
        "type to find somebody",
        "space: here or not",
        "1-9, 0: options",
        "tab: load",
        "ctrl+k: key",
        "ctrl+e: name",
        "F6: chart",
        "F7: marks",
        "left, right: class end",
        "enter: to the board",
    ]
