"""How the page of a clock without a plan is drawn."""

from classclock.screens.canvas.cells import Drawing, above
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.page_heading import draw_heading, heading_rows
from classclock.screens.controls.clock_desk import ClockDesk
from classclock.screens.controls.clock_drawing import clock_rows, draw_clock


def draw_clock_page(desk: ClockDesk, columns: int, rows: int, look: Look) -> Drawing:
    inner = columns - 2
    heading = draw_heading("classclock", ("a clock, no plan",), inner, heading_rows(rows), look)
    clock = draw_clock(desk, inner, clock_rows(desk, inner, rows), look, left="escape goes back")
    return look.box(above(heading, look.gap(inner), clock), columns, rows, across="middle")
