"""How an athlete's page is drawn: a history as a plot, bests, attendance, what they modify."""

from collections.abc import Iterator, Sequence
from textwrap import wrap

from classclock.records.bests import long_day
from classclock.report.athlete_page import AthletePage
from classclock.report.cells import pad
from classclock.report.effort_words import effort_lines
from classclock.report.goal_words import asked_words, pointed_words
from classclock.report.plot import legend, plot_lines
from classclock.screens.canvas.cells import Drawing, above, beside
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.page_heading import draw_heading, heading_rows
from classclock.screens.pages.athlete.athlete_desk import AthleteDesk
from classclock.screens.pages.athlete.athlete_wall_drawing import draw_on_the_wall
from classclock.units.printable import printable

_TWO_SIDES = 110
"""Columns from which what is said stands beside the plot."""
_SIDE = 44
_LAST_DAY = 8
"""Columns by which the last day's label stands out at the right."""
_KEYS = "left, right: another benchmark   up, down: scroll   g: a goal   escape: back"

_Line = tuple[str, str]
"""The text, and the name of its ink: empty, `quiet` or `bold`."""


def draw_athlete(desk: AthleteDesk, columns: int, rows: int, look: Look) -> Drawing:
    """The page in a box of this size: large for the room, or all of it for the coach, scrolled."""
    if desk.book is not None and desk.covered:
        return draw_on_the_wall(desk, desk.book.page, columns, rows, look)
    inner = columns - 2
    foot = above(
        look.text(printable(desk.said, 400), inner, ink=look.theme.doubtful, bold=True),
        look.text(desk.entry.keys if desk.entry else _KEYS, inner, ink=look.theme.quiet),
    )
    if desk.book is None:
        return look.box(above(look.gap(inner, rows - len(foot)), foot), columns, rows)
    page = desk.book.page
    high = heading_rows(rows)
    came = _classes_words(page)
    heading = draw_heading(printable(page.athlete.name, 40), (came,), inner, high, look)
    left = max(1, rows - high - 1 - len(foot))
    if columns >= _TWO_SIDES:
        side = _drawn(tuple(_side(page)), desk.top, _SIDE, left, look)
        wide = inner - _SIDE - 3
        plot = _plot(desk, wide, max(7, min(left * 3 // 5, 26)))
        main = _drawn((*plot, *_goals(desk, page, wide), *_bests(page)), desk.top, wide, left, look)
        body = beside(main, look.gap(3, left), side)
    else:
        lines = (*_plot(desk, inner, 7), *_goals(desk, page, inner), *_bests(page), *_side(page))
        body = _drawn(lines, desk.top, inner, left, look)
    drawn = above(heading, look.gap(inner), body, foot)
    return look.box(drawn, columns, rows, across="middle")


def _drawn(lines: Sequence[_Line], top: int, columns: int, rows: int, look: Look) -> Drawing:
    first = min(top, max(0, len(lines) - rows))
    quiet = look.theme.quiet
    drawn = (
        look.text(text, columns, ink=quiet if ink == "quiet" else None, bold=ink == "bold")
        for text, ink in lines[first : first + rows]
    )
    return look.box(above(*drawn), columns, rows)


def _plot(desk: AthleteDesk, columns: int, rows: int) -> Iterator[_Line]:
    if desk.book is None:
        return
    if not desk.benchmark:
        yield "no benchmark yet", "quiet"
        return
    place = desk.benchmarks.index(desk.benchmark) + 1
    called = printable(desk.book.page.called(desk.benchmark))
    yield f"{called}   ({place} of {len(desk.benchmarks)})", "bold"
    results = desk.book.histories[desk.benchmark]
    plot = plot_lines(results, columns - _LAST_DAY, rows, desk.goal)
    if plot:
        yield legend(results, desk.goal), "quiet"
        yield from ((line, "") for line in plot)
    else:
        for one in results:
            yield f"  {one.score} on {long_day(one.day)}", ""
    yield "", ""


def _goals(desk: AthleteDesk, page: AthletePage, columns: int) -> Iterator[_Line]:
    """What they work towards, how far it is, and where the last scores point; the shown first."""
    if not page.goals:
        return
    yield "Works towards", "bold"
    for one in sorted(page.goals, key=lambda one: one is not desk.goal):
        yield f"  {printable(asked_words(one.stands.goal), 200)}", ""
        for words in filter(None, (one.stands.far_words(), pointed_words(one.pointed))):
            yield from ((f"    {line}", "quiet") for line in wrap(words, columns - 4))
    yield "", ""


def _bests(page: AthletePage) -> Iterator[_Line]:
    if page.bests:
        yield "Bests", "bold"
        names = pad([printable(page.called(one.result.benchmark), 24) for one in page.bests])
        for name, best in zip(names, page.bests, strict=True):
            one = best.result
            times = "once" if best.times == 1 else f"{best.times} times"
            terms = printable(str(one.terms), 80)
            yield f"  {name}  {one.score:>9}  {one.day}  {times:>8}  {terms}", ""
        yield "", ""
    if page.lifts:
        yield "Heaviest made", "bold"
        names = pad([printable(page.called(one.lift), 24) for one in page.lifts])
        for name, lift in zip(names, page.lifts, strict=True):
            reps = "reps not said" if lift.reps is None else f"{lift.reps} x"
            reps += ", provisional" if lift.provisional else ""
            yield f"  {name}  {lift.load:>9}  {lift.day}  {reps}", ""
        yield "", ""


def _side(page: AthletePage) -> Iterator[_Line]:
    """What the room may not read during a class."""
    if page.athlete.marks:
        yield f"marked: {', '.join(page.athlete.marks)}", ""
        yield "", ""
    yield "The last twelve weeks", "bold"
    for week in page.weeks:
        bar = "■" * min(week.classes, 20) or "-"
        yield f"  {week.monday:%d %b}  {bar} {week.classes or ''}", ""
    if efforts := effort_lines(page.efforts, _SIDE):
        yield "", ""
        heading, *others = efforts
        yield heading, "bold"
        yield from ((line, "") for line in others)
    if page.modifications:
        yield "", ""
        yield "Modified in these weeks", "bold"
        for name, times in page.modifications:
            yield f"  {times} x {printable(name, 60)}", ""


def _classes_words(page: AthletePage) -> str:
    who = page.athlete
    if not who.classes:
        return "no class yet; scores from older records"
    number = "1 class" if who.classes == 1 else f"{who.classes} classes"
    return f"{number} since {long_day(who.first_day)}"
