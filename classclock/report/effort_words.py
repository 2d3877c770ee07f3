"""How hard somebody's weeks were, as lines of text, and what those numbers don't say."""

from collections.abc import Iterator, Sequence
from textwrap import wrap

from classclock.records.effort_weeks import BEFORE, EffortWeek

SHOWN = 8
"""So many weeks are shown, the newest last."""
POINTED_OUT = 2
"""Only of the newest so many is said that one is far from those before: later it is too late."""
NO_FORECAST = (
    "These numbers set somebody beside their own weeks. They are a reason to talk and no "
    "forecast: they predict no injury and clear nobody. Whoever has pain or was ill, or has any "
    "question of health, asks a doctor or whoever else is licensed for it."
)
WHAT_IT_IS = (
    "Effort minutes: their own word for a class, 0 to 10, times its minutes. Monotony: the mean "
    "of the seven days over their standard deviation; strain: the week's sum times that (after "
    "Foster et al. 2001)."
)
_HEADING = "          MTWTFSS    sum  monotony  strain"
_BARS = "▁▂▃▄▅▆▇█"
_NONE, _NOT_SAID = "·", "?"


def shown_weeks(weeks: Sequence[EffortWeek]) -> tuple[EffortWeek, ...]:
    """The last ones, from the first on in which anything was said; none where nothing was."""
    said = [any(week.days) for week in weeks]
    first = said.index(True) if True in said else len(weeks)
    return tuple(weeks[max(first, len(weeks) - SHOWN) :])


def effort_lines(weeks: Sequence[EffortWeek], width: int = 76) -> tuple[str, ...]:
    """For the coach alone: a heading, a line a week, what stands out, and what it doesn't say."""
    shown = shown_weeks(weeks)
    return tuple(_lines(shown, width)) if shown else ()


def _lines(weeks: Sequence[EffortWeek], width: int) -> Iterator[str]:
    most = max(minutes or 0 for week in weeks for minutes in week.days)
    yield "How hard it was"
    yield _HEADING
    for week in weeks:
        bars = "".join(bar(minutes, most) for minutes in week.days)
        yield f"  {week.monday:%d %b}  {bars}  {_numbers(week)}"
    for words in (*standing_out(weeks), NO_FORECAST, WHAT_IT_IS):
        yield from wrap(words, width)


def bar(minutes: int | None, most: int) -> str:
    """One sign for a day beside the hardest of all days."""
    if minutes is None:
        return _NOT_SAID
    if not minutes:
        return _NONE
    return _BARS[max(0, -(-minutes * len(_BARS) // most) - 1)]


def _numbers(week: EffortWeek) -> str:
    if week.effort_minutes is None:
        return "not everything was said"
    even = "" if week.monotony is None else f"{week.monotony:.2f}"
    strain = "" if week.strain is None else f"{week.strain:.0f}"
    return f"{week.effort_minutes:>5}  {even:>8}  {strain:>6}".rstrip()


def standing_out(weeks: Sequence[EffortWeek]) -> Iterator[str]:
    """What the coach is told of the newest weeks, where one is far from the four before it."""
    for number, week in enumerate(weeks):
        if not week.far or len(weeks) - number > POINTED_OUT:
            continue
        when = "is so far" if not week.over else "was"
        how = "harder" if week.far == "above" else "easier"
        yield (
            f"The week of {week.monday:%d %b} {when} far {how} than each of their {BEFORE} before "
            "it: ask them how they are."
        )
