"""What there is to tell of a month's people. Each kind of news is a function, named in `NEWS`.

Pure: what the book says in, values out. Only what stands was asked of the book: a score that is
settled and can be a best.
"""

from collections.abc import Callable, Iterator, Mapping

from msgspec import Struct

from classclock.book.tables.queries import Athlete
from classclock.records.bests import Standing, standing
from classclock.records.goals import Goal, GoalStands
from classclock.records.result import Result


class Done(Struct, frozen=True):
    """What somebody did on one benchmark, as far as it counts."""

    before: tuple[Result, ...]
    """Their bests until this month, one for each of their terms."""
    results: tuple[Result, ...]
    """Those of this month, the earliest first; at least one."""


class Happened(Struct, frozen=True):
    """What the book says of a month, of those who are on its page."""

    people: tuple[Athlete, ...]
    """In the order of their names."""
    first_came: frozenset[str]
    """The ids of those whose first class it was."""
    done: Mapping[str, Mapping[str, Done]]
    """By athlete's id and benchmark, the benchmarks in order."""
    reached: Mapping[str, tuple[GoalStands, ...]] = {}
    """By athlete's id the goals that they reached this month, in order of benchmarks."""


class News(Struct, frozen=True):
    """One thing to tell of somebody."""

    athlete: Athlete
    day: str
    result: Result | None = None
    """What they did; None where it is about coming at all."""
    standing: Standing | None = None
    """Of a best: what it outdid, and by how much."""
    goal: Goal | None = None
    """What was reached by it."""


def new_bests(happened: Happened) -> Iterator[News]:
    """The last best of each under terms that compare, beside what stood before this month.

    Where nothing did, beside the first of this month.
    """
    for athlete, done in _benchmarks_done(happened):
        for best in reversed(_last_bests(done)):
            stood = standing(best, done.before)
            if stood.verdict == "first":
                compared = (one for one in done.results if one.compares(best))
                stood = standing(best, [next(compared)])
            yield News(athlete, best.day, best, stood)


def _last_bests(done: Done) -> list[Result]:
    """The bests of this month that no later one outdid, the latest first."""
    every = (*done.before, *done.results)
    last: list[Result] = []
    for one in reversed(done.results):
        outdone = any(one.compares(later) for later in last)
        if not outdone and standing(one, every).verdict == "best":
            last.append(one)
    return last


def goals_reached(happened: Happened) -> Iterator[News]:
    for athlete in happened.people:
        for stands in happened.reached.get(athlete.id, ()):
            if (made := stands.reached) is not None:
                yield News(athlete, made.day, made, goal=stands.goal)


def first_times(happened: Happened) -> Iterator[News]:
    """Who did a benchmark that they had never done before, under whatever terms."""
    for athlete, done in _benchmarks_done(happened):
        if not done.before:
            yield News(athlete, done.results[0].day, done.results[0])


def first_classes(happened: Happened) -> Iterator[News]:
    for athlete in happened.people:
        if athlete.id in happened.first_came:
            yield News(athlete, athlete.first_day)


class NewsKind(Struct, frozen=True):
    key: str
    """As JSON has it."""
    heading: str
    told: Callable[[Happened], Iterator[News]]


NEWS = (
    NewsKind("new_bests", "New bests", new_bests),
    NewsKind("goals_reached", "Goals reached", goals_reached),
    NewsKind("first_times", "First time on a benchmark", first_times),
    NewsKind("first_classes", "First class", first_classes),
)
"""In the order in which they stand on a page; a kind more is a function more and its line here."""


def _benchmarks_done(happened: Happened) -> Iterator[tuple[Athlete, Done]]:
    """Everybody with each benchmark that they did this month."""
    for athlete in happened.people:
        for done in happened.done.get(athlete.id, {}).values():
            yield athlete, done
