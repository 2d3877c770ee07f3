"""How the chart is drawn: everybody in view with their best on the benchmark that is lit."""

from collections.abc import Iterator

from classclock.screens.canvas.arranged_drawing import Ink, draw_arranged
from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.layout.parts import Name
from classclock.screens.canvas.look import Look
from classclock.screens.pages.chart.chart_desk import ChartDesk
from classclock.screens.pages.chart.chart_layout import ChartBlock, chart_block


def draw_chart(desk: ChartDesk, columns: int, rows: int, look: Look) -> Drawing:
    """The chart in a box of this size."""
    theme, inner = look.theme, columns - 2
    block = chart_block(desk, _told(desk), inner, rows, look)
    at = desk.search.cursor.within(len(desk.rows))
    inks: dict[Name, Ink] = {
        "title": Ink(bold=True),
        "benchmark": Ink(theme.key, bold=True),
        "detail": Ink(bold=True),
        "found": Ink(theme.quiet),
        "keys": Ink(theme.quiet),
        **{("told", number): Ink(theme.quiet) for number in range(3)},
        **dict(_inks(desk, block, at, look)),
    }
    drawn = draw_arranged(block.page_of(at), inner, rows, look, inks=inks)
    return look.box(drawn, columns, rows, across="middle")


def _told(desk: ChartDesk) -> tuple[str, ...]:
    """What stands in the chart, and in which order."""
    if not desk.rows:
        empty = (
            "nobody here has that name"
            if desk.search.text
            else "no bests yet: they come with classes"
        )
        return ("" if desk.notice else empty,)
    count = len(desk.rows)
    place = f"benchmark {desk.across.at + 1} of {len(desk.benchmarks)}"
    here = desk.here_words if desk.only_here else "everybody"
    return f"{count} athlete{'' if count == 1 else 's'}, {desk.order}", place, here


def _inks(desk: ChartDesk, block: ChartBlock, at: int, look: Look) -> Iterator[tuple[Name, Ink]]:
    theme, column = look.theme, desk.across.at
    for number, row in enumerate(block.rows):
        lit = number + block.first == at
        ground = theme.bar if lit else ""
        cell = row.cells[column] if column < len(row.cells) else None
        ink = theme.quiet
        if cell is not None and not desk.kept_off(row):
            ink = theme.ahead.text if cell.new else theme.quiet if cell.modified else theme.ink
        yield ("name", number), Ink(ground=ground, bold=True)
        yield (
            ("score", number),
            Ink(theme.key_ink, theme.key_ground) if lit else Ink(ink, bold=True),
        )
        yield ("day", number), Ink(theme.quiet, ground)
        for nth in range(3):
            yield ("other", nth, number), Ink(theme.quiet, ground)
