"""An athlete's page where the room reads it: who, how it went, their bests; all of it large."""

from collections.abc import Iterator, Sequence

from classclock.book.goals.standing import GoalNow
from classclock.records.result import Result
from classclock.report.athlete_page import AthletePage
from classclock.report.goal_words import goal_words, pointed_words
from classclock.report.plot import plot_lines
from classclock.screens.canvas.arranged_drawing import Drawer, Ink, draw_arranged
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.cells import Drawing, above
from classclock.screens.canvas.layout.arrange import Arranged, arrange
from classclock.screens.canvas.layout.parts import (
    Arrangement,
    Beside,
    Drawn,
    Grid,
    Name,
    Role,
    Stack,
    Written,
)
from classclock.screens.canvas.look import Look
from classclock.screens.pages.athlete.athlete_desk import AthleteDesk
from classclock.units.printable import printable

_ACROSS = (1, 2, 3, 4)
_LAST_DAY = 8
"""Columns by which the last day's label stands out at the right of a plot."""
_AXES = 4
"""Rows of a plot beside what it plots."""
_LEAST_PLOT = (40, 6 + _AXES)
_ROOM_FOR_A_PLOT = 30
"""Rows from which letters leave room for it."""
_KEYS = "left, right: another benchmark; up, down: more bests; g: a goal; escape: back"
_COVERED = "F7: attendance and what they modify; the room would see it too"
_PRIVATE = "F7: all of it; they keep loads, rank and bests off the wall"


def draw_on_the_wall(
    desk: AthleteDesk, page: AthletePage, columns: int, rows: int, look: Look
) -> Drawing:
    """What the room may read of the page, in a box of this size."""
    theme, inner = look.theme, columns - 2
    laid = laid_out(desk, page, inner, rows, look)
    number = min(desk.top, len(laid.pages) - 1)
    inks: dict[Name, Ink] = {
        "name": Ink(bold=True),
        "benchmark": Ink(theme.key, bold=True),
        "best": Ink(bold=True),
        "goal": Ink(theme.ahead.text, bold=True),
        "pointed": Ink(theme.quiet),
        "notice": Ink(theme.doubtful, bold=True),
        "covered": Ink(theme.quiet),
        "keys": Ink(theme.quiet),
        "pages": Ink(theme.quiet, words=f"page {number + 1} of {len(laid.pages)}"),
        "place": Ink(theme.quiet),
    }
    results = _history(desk)
    drawers: dict[Name, Drawer] = {
        "plot": lambda wide, high: _plot(results, desk.goal, wide, high, look)
    }
    drawn = draw_arranged(laid.pages[number], inner, rows, look, inks=inks, drawers=drawers)
    return look.box(drawn, columns, rows, across="middle")


def laid_out(desk: AthleteDesk, page: AthletePage, columns: int, rows: int, look: Look) -> Arranged:
    """Where all of it stands; bests are parted over pages where they would be small."""
    measure = CellMeasure(look.terminal)
    alone = arrange(_parts(desk, page, columns, rows), columns, rows, measure)
    if len(alone.pages) == 1:
        return alone
    return arrange(_parts(desk, page, columns, rows, paged=True), columns, rows, measure)


def _history(desk: AthleteDesk) -> tuple[Result, ...]:
    if desk.book is None or not desk.benchmark:
        return ()
    return desk.book.histories[desk.benchmark]


def _plot(
    results: Sequence[Result], goal: GoalNow | None, columns: int, rows: int, look: Look
) -> Drawing:
    lines = plot_lines(results, columns - _LAST_DAY, max(1, rows - _AXES), goal)
    return above(*(look.text(line, columns) for line in lines)) if lines else look.gap(columns, 0)


def _parts(
    desk: AthleteDesk, page: AthletePage, columns: int, rows: int, *, paged: bool = False
) -> Arrangement:
    heading = (
        Written("name", printable(page.athlete.name, 40), "name", matters=3),
        Written("place", _place(desk), "place", role="coach", most=1),
        Written("pages", "page 99 of 99" if paged else "", "pages", role="coach"),
    )
    keys = desk.entry.keys if desk.entry else _KEYS
    covered = _PRIVATE if desk.wholly_covered else _COVERED
    foot = (
        Written("notice", printable(desk.said, 400), "notice", role="coach", breaks=True),
        Written("covered", covered, "covered", role="coach", breaks=True),
        Written("keys", keys, "keys", role="coach", breaks=True),
    )
    body = () if desk.wholly_covered else tuple(_body(desk, page, columns, rows))
    return Stack((Beside(heading), *body, *foot), air=1)


def _place(desk: AthleteDesk) -> str:
    """Which of the benchmarks is shown."""
    if desk.wholly_covered or not desk.benchmark:
        return ""
    at = desk.benchmarks.index(desk.benchmark) + 1
    return f"benchmark {at} of {len(desk.benchmarks)}"


def _body(desk: AthleteDesk, page: AthletePage, columns: int, rows: int) -> Iterator[Arrangement]:
    results = _history(desk)
    best = next((one.result for one in page.bests if one.result.benchmark == desk.benchmark), None)
    title = printable(page.called(desk.benchmark), 40) or "no benchmark yet"
    yield Beside(
        (
            Written("benchmark", title, "benchmark", breaks=True),
            Written("best", printable(best.score, 12) if best else "", "score"),
        )
    )
    if (goal := desk.goal) is not None:
        words = printable(goal_words(goal.stands), 120)
        yield Written("goal", words, "goal", breaks=True)
        pointed = pointed_words(goal.pointed)
        yield Written("pointed", pointed, "pointed", role="detail", breaks=True)
    if plot_lines(results, columns - _LAST_DAY):
        role: Role = "room" if rows >= _ROOM_FOR_A_PLOT else "detail"
        yield Drawn("plot", "plot", _LEAST_PLOT, (columns, rows // 3), role)
    every = tuple(_bests(page))
    if every:
        yield Grid(
            tuple(
                (
                    Written(("what", number), what, "what", breaks=True),
                    Written(("score", number), score, "score", across="right"),
                    Written(("day", number), day, "day", role="detail"),
                )
                for number, (what, score, day) in enumerate(every)
            ),
            across=_ACROSS,
            paged=True,
        )


def _bests(page: AthletePage) -> Iterator[tuple[str, str, str]]:
    """Every benchmark, and every lift that is none, with the best and when that was."""
    told = set()
    for best in page.bests:
        one = best.result
        told.add(one.benchmark)
        yield printable(page.called(one.benchmark), 24), printable(one.score, 12), one.day
    for lift in page.lifts:
        if lift.lift not in told:
            told.add(lift.lift)
            yield printable(page.called(lift.lift), 24), str(lift.load), lift.day
