"""How a list of people is drawn: a letter, a name and a few words each."""

from collections.abc import Callable, Sequence
from textwrap import wrap

from msgspec import Struct

from classclock.screens.canvas.cells import Drawing, above, beside
from classclock.screens.canvas.look import Look
from classclock.screens.people.person_line import PersonLine
from classclock.units.names import is_unnamed
from classclock.units.printable import printable

_LEAST_COLUMN = 38

Words = Callable[[PersonLine], str]


class ShownPeople(Struct, frozen=True):
    lines: Sequence[PersonLine]
    at: int
    """Which of them is lit."""
    words: Words
    """What stands behind a name."""


def draw_people(people: ShownPeople, columns: int, rows: int, look: Look) -> Drawing:
    """In as many columns as there is room for, the one that is lit in view."""
    entries, at, words = people.lines, people.at, people.words
    if not rows or not entries:
        return look.gap(columns, rows)
    across = max(1, min(3, columns // _LEAST_COLUMN, -(-len(entries) // rows)))
    width = (columns - 2 * (across - 1)) // across
    first = _first_shown(at, rows, across)
    shown = entries[first : first + rows * across]
    stacks = [
        look.box(
            above(
                *(
                    _entry(entry, words, width, look, lit=first + start + n == at)
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


def draw_said(lines: Sequence[str], columns: int, look: Look) -> Drawing:
    """What there is to say of whoever is lit, the first line as a heading."""
    said = [text for line in lines for text in wrap(line, columns - 2)]
    return above(
        look.gap(columns, 0),
        *(look.text(text, columns, bold=not number) for number, text in enumerate(said)),
    )


def _first_shown(at: int, rows: int, across: int) -> int:
    """The first entry in view: whole columns go by, so that what is highlighted stays in view."""
    return max(0, at // rows - across + 1) * rows


def _entry(entry: PersonLine, words: Words, columns: int, look: Look, *, lit: bool) -> Drawing:
    theme = look.theme
    here = look.on(theme.bar) if lit else look
    edge = here.text("▌" if lit else "", 1)
    if entry.kind == "several":
        return beside(edge, here.text(f"+ add {printable(entry.name, 200)}", columns - 1))
    if entry.kind == "new":
        new = "a visitor" if is_unnamed(entry.name) else f"{printable(entry.name)}, new here"
        return beside(edge, here.text(f"+ add {new}", columns - 1))
    here_now = entry.kind == "here"
    cap = f" {entry.key.upper()} "
    key = (
        here.text(cap, 3, ink=theme.key_ink, ground=theme.key_ground, bold=True)
        if here_now
        else here.text(cap, 3, ink=theme.quiet)
    )
    name = printable(entry.name, 40)
    wide = max(10, min(16, columns // 3))
    return beside(
        edge,
        key,
        here.gap(1),
        here.text(name, wide, ink=theme.ink if here_now else theme.quiet, bold=here_now),
        here.gap(1),
        here.text(words(entry), columns - 6 - wide, ink=theme.quiet),
    )
