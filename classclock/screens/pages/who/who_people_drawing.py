"""How the names at "who is here" are drawn: all who match, with what each modifies."""

from classclock.screens.canvas.cells import Drawing, above, beside
from classclock.screens.canvas.look import Look
from classclock.screens.pages.who.who_desk import WhoDesk
from classclock.screens.pages.who.who_list import WhoLine
from classclock.units.names import is_unnamed
from classclock.units.printable import printable

_LEAST_COLUMN = 38
_SIGN = "•"  # stands for marks that the room may not read


def draw_people(desk: WhoDesk, columns: int, rows: int, look: Look) -> Drawing:
    """All who match, those who are here first, in as many columns as there is room for."""
    entries = desk.entries
    if not rows or not entries:
        return look.gap(columns, rows)
    across = max(1, min(3, columns // _LEAST_COLUMN, -(-len(entries) // rows)))
    width = (columns - 2 * (across - 1)) // across
    at = desk.search.cursor.within(len(entries))
    first = _first_shown(at, rows, across)
    shown = entries[first : first + rows * across]
    stacks = [
        look.box(
            above(
                *(
                    _entry(entry, desk, width, look, lit=first + start + n == at)
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


def _entry(entry: WhoLine, desk: WhoDesk, columns: int, look: Look, *, lit: bool) -> Drawing:
    theme = look.theme
    here = look.on(theme.bar) if lit else look
    edge = here.text("▌" if lit else "", 1)
    if entry.kind == "several":
        return beside(edge, here.text(f"+ add {printable(entry.name, 200)}", columns - 1))
    if entry.kind == "new":
        new = "a visitor" if is_unnamed(entry.name) else f"{printable(entry.name)}, new here"
        return beside(edge, here.text(f"+ add {new}", columns - 1))
    known = entry.kind == "known"
    cap = f" {entry.key.upper()} "
    key = (
        here.text(cap, 3, ink=theme.quiet)
        if known
        else here.text(cap, 3, ink=theme.key_ink, ground=theme.key_ground, bold=True)
    )
    name = printable(entry.name, 40)
    wide = max(10, min(16, columns // 3))
    words = _words(entry, desk)
    return beside(
        edge,
        key,
        here.gap(1),
        here.text(name, wide, ink=theme.quiet if known else theme.ink, bold=not known),
        here.gap(1),
        here.text(words, columns - 6 - wide, ink=theme.quiet),
    )


def _words(entry: WhoLine, desk: WhoDesk) -> str:
    if desk.marks_open:
        return _marks(entry, desk)
    if entry.kind != "here":
        return ""
    sign = _SIGN if desk.who.person(entry.id).marks else ""
    piece = desk.options.piece
    chosen = printable(desk.who.choices.words(piece, entry.id), 80) if piece else ""
    return " ".join(filter(None, [sign, chosen]))


def _marks(entry: WhoLine, desk: WhoDesk) -> str:
    """A person's marks, and how long they were away, for the coach's eyes."""
    who = desk.who
    marks = who.person(entry.id).marks if entry.kind == "here" else ()
    days = who.away(entry.id, desk.today)
    ago = [f"last here {days} days ago"] if days is not None and days > 0 else []
    return ", ".join([*marks, *ago])
