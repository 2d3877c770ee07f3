"""A month as plain text, short enough for a message, and as plain values."""

from collections.abc import Iterator, Sequence
from typing import Any

from msgspec import to_builtins

from classclock.book.tables.queries import Athlete
from classclock.records.benchmark_headings import heading
from classclock.records.bests import long_day
from classclock.records.goals import goal_score
from classclock.records.result import Result
from classclock.records.written_terms import NOT_SAID
from classclock.report.cells import pad
from classclock.report.month.news import NEWS, News
from classclock.report.month.page import MonthPage
from classclock.units.printable import printable

NOTHING = "Nobody came, and nothing was scored."
CAME = "Who came"
_LONGEST = 2000
"""Signs of a line: more than a name with all that is said of it."""


def month_lines(page: MonthPage) -> tuple[str, ...]:
    return tuple(printable(line, _LONGEST).rstrip() for line in _lines(page))


def _lines(page: MonthPage) -> Iterator[str]:
    yield title_words(page)
    yield sum_words(page)
    for kind, news in page.news:
        yield ""
        yield kind.heading
        yield from _columns([(one.athlete.name, what_words(one), aside_words(one)) for one in news])
    if page.came:
        yield ""
        yield CAME
        yield from _columns([(one.athlete.name, times_words(one.times)) for one in page.came])
    if not page.news and not page.came:
        yield NOTHING


def title_words(page: MonthPage) -> str:
    """`November 2026 so far`."""
    return f"{page.month.words} so far" if page.so_far else page.month.words


def sum_words(page: MonthPage) -> str:
    """`12 classes; 20 people came 85 times; visitors 3 times`."""
    said = [_counted(page.classes, "class", "classes")]
    if page.visits:
        people = _counted(page.people, "person", "people")
        said.append(f"{people} came {times_words(page.visits)}")
    if page.visitors:
        said.append(f"visitors {times_words(page.visitors)}")
    return "; ".join(said)


def times_words(times: int) -> str:
    return "once" if times == 1 else f"{times} times"


def what_words(one: News) -> str:
    """`Turntable 8+3`, or the day where it is about coming at all."""
    return f"{heading(one.result)} {one.result.score}" if one.result else day_words(one)


def aside_words(one: News) -> str:
    """What else there is to say of it: by how much, under which terms, on which day."""
    if one.result is None:
        return ""
    gain = one.standing.gain() if one.standing else ""
    aim = f"the goal was {one.goal.words()}" if one.goal else ""
    return "; ".join(filter(None, (gain, aim, _terms(one.result), f"on {day_words(one)}")))


def _terms(result: Result) -> str:
    """What to know of a score's terms: the modification, the loads, the reps of a set."""
    terms = result.terms
    words = (terms.modification, terms.loads, terms.work if result.kind == "load" else "")
    return "; ".join(word for word in words if word and word != NOT_SAID)


def day_words(one: News) -> str:
    """`5 November`: the year stands above."""
    return long_day(one.day).rpartition(" ")[0]


def _columns(rows: Sequence[tuple[str, ...]]) -> Iterator[str]:
    columns = [
        pad([printable(cell, _LONGEST) for cell in cells]) for cells in zip(*rows, strict=True)
    ]
    for cells in zip(*columns, strict=True):
        yield f"  {'  '.join(cells)}"


def _counted(number: int, one: str, many: str) -> str:
    return f"{number} {one if number == 1 else many}"


def month_values(page: MonthPage) -> dict[str, Any]:
    """The month as plain values, ready for JSON."""
    return {
        "month": str(page.month),
        "so_far": page.so_far,
        "classes": page.classes,
        "visits": page.visits,
        "people": page.people,
        "visitors": page.visitors,
        "came": [{**_who(one.athlete), "times": one.times} for one in page.came],
        "news": {
            **{kind.key: [] for kind in NEWS},
            **{kind.key: [_news_values(one) for one in news] for kind, news in page.news},
        },
        "left_out": page.left_out,
    }


def _who(athlete: Athlete) -> dict[str, str]:
    return {"athlete": athlete.id, "name": athlete.name}


def _news_values(one: News) -> dict[str, Any]:
    values: dict[str, Any] = {**_who(one.athlete), "day": one.day}
    if one.result is not None:
        result = one.result
        terms = to_builtins(result.terms)
        values |= {"benchmark": result.benchmark, "score": result.score, **terms}
    if one.goal is not None:
        values |= {"goal": goal_score(one.goal), "by": one.goal.by or None}
    if one.standing is not None and (before := one.standing.before) is not None:
        values |= {"before": {"score": before.score, "day": before.day}, "by": one.standing.by}
    return values
