"""How the line is drawn that says a clock without a plan: its forms, itself, what it comes to."""

from collections.abc import Iterator
from textwrap import wrap

from rich.cells import cell_len

from classclock.plan.formats.timelines import length
from classclock.plan.outline import describe
from classclock.plan.reading.clock_forms import FORMS
from classclock.screens.canvas.cells import Drawing, above, beside, width
from classclock.screens.canvas.foot_keys import key_rows
from classclock.screens.canvas.look import Look
from classclock.screens.controls.clock_desk import ClockDesk
from classclock.units.printable import printable
from classclock.units.times import show_time

_LARGE = 3
"""Rows of what is typed, where there is room."""
_QUESTION = "which clock? It counts in at once"


def clock_rows(desk: ClockDesk, columns: int, rows: int) -> int:
    """How many rows it takes on a screen of so many; the more the larger is what is typed."""
    high = _LARGE if rows >= 30 else 1
    return len(_said(desk, columns)) + len(key_rows(FORMS, columns)) + high + 3


def draw_clock(desk: ClockDesk, columns: int, rows: int, look: Look, *, left: str) -> Drawing:
    """In a box of so many rows, as `clock_rows` has it. `left` is what escape does."""
    quiet = look.theme.quiet
    turns = ("tab: the score",) if len(desk.ways) > 1 else ()
    said, forms = _said(desk, columns), key_rows(FORMS, columns)
    high = max(1, rows - len(said) - len(forms) - 3)
    return above(
        *(look.text(line, columns, bold=True) for line in said),
        *(look.text(line, columns, ink=quiet) for line in forms),
        _typed(desk, columns, high, look),
        look.text(_comes_to(desk), columns),
        _scored(desk, columns, look),
        look.text("   ".join(("enter starts it", *turns, left)), columns, ink=quiet),
    )


def _said(desk: ClockDesk, columns: int) -> tuple[str, ...]:
    """The question, or why the line can't be run."""
    return tuple(wrap(printable(desk.refused or _QUESTION, 200), columns))


def _typed(desk: ClockDesk, columns: int, high: int, look: Look) -> Drawing:
    text = printable(desk.line.text)
    typed = look.letters(text, columns - 2, high) if text else look.gap(0, high)
    caret = look.on(look.theme.ink).gap(1, high)
    row = beside(look.box(typed, min(width(typed) + 1, columns - 1), high), caret)
    return look.box(row, columns, high)


def _comes_to(desk: ClockDesk) -> str:
    """What would run, in the words of the wall; nothing as long as it can't be read."""
    way = desk.way
    if way is None:
        return ""
    total = f", {show_time(length(way.segment))} in all" if way.segment.about.in_steps else ""
    return f"{describe(way.segment)}{total}"


def _scored(desk: ClockDesk, columns: int, look: Look) -> Drawing:
    """Every way to score it, the one that holds in bold."""
    way, ways = desk.way, desk.ways
    if way is None:
        return look.gap(columns)

    def parts() -> Iterator[Drawing]:
        before = "score: "
        yield look.text(before, len(before), ink=look.theme.quiet)
        for one in ways:
            chosen = one.scored == way.scored
            ink = look.theme.key if chosen else look.theme.quiet
            text = f"[{one.scored}] " if chosen else f" {one.scored}  "
            yield look.text(text, cell_len(text), ink=ink, bold=chosen)

    return look.box(beside(*parts()), columns, 1)
