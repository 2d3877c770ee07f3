"""The last weeks for a terminal, as bars, and as plain values."""

from collections.abc import Iterator, Sequence
from typing import Any

from msgspec import to_builtins

from classclock.planning.patterns import LastWeeks
from classclock.planning.weeks import Weeks, planned_words
from classclock.units.printable import printable

HELD, PLANNED = "#", "o"
"""One class each; told apart by sign, whatever the colours."""
_LABEL = 17
_LEAST, _MOST = 7, 24
"""Columns of a week."""
_SHOWN = 8
"""Movements without a pattern, and planned classes, that are named."""


def weeks_lines(weeks: Weeks, width: int, without_plan: int = 0) -> tuple[str, ...]:
    """A line for each pattern and each length of the hard piece, a column for each week."""
    return tuple(line.rstrip() for line in _lines(weeks, width, without_plan))


def _lines(weeks: Weeks, width: int, without_plan: int) -> Iterator[str]:
    columns = week_columns(weeks)
    wide = max(_LEAST, min(_MOST, (width - _LABEL) // len(columns)))
    yield _row("week of", [title for title, _ in columns], wide)
    yield _row("classes", [str(held.classes) for _, held in columns], wide)
    for title, counted in (
        ("Classes with each pattern", {name: name for name in columns[0][1].patterns}),
        ("Length of the hard piece", {name: name for name in columns[0][1].lengths}),
    ):
        yield ""
        yield title
        rows = {name: [count_of(held, name) for _, held in columns] for name in counted}
        most = max(max(row) for row in rows.values())
        for name, row in rows.items():
            last = len(row) - 1
            cells = [
                _bar(count, most, wide - 2, planned=at == last) for at, count in enumerate(row)
            ]
            yield _row(f"  {name}", cells, wide)
    yield ""
    yield f"{HELD} held   {PLANNED} planned for the coming days   a class counts once in a line"
    yield from notes(weeks, without_plan)


def week_columns(weeks: Weeks) -> tuple[tuple[str, LastWeeks], ...]:
    """Each week's title and count, the earliest first; the coming days last."""
    *before, this = weeks.weeks
    return (
        *((f"{week.monday.day} {week.monday:%b}", week.held) for week in before),
        ("this", this.held),
        ("coming", weeks.coming),
    )


def count_of(held: LastWeeks, name: str) -> int:
    """How many classes had this pattern, or a hard piece of this length."""
    for pattern, count in held.patterns.items():
        if pattern == name:
            return count
    return held.lengths[name]


def notes(weeks: Weeks, without_plan: int = 0) -> tuple[str, ...]:
    """What was heavy twice running, what is planned, and what couldn't be counted."""
    return tuple(printable(line, 400) for line in _notes(weeks, without_plan))


def _notes(weeks: Weeks, without_plan: int) -> Iterator[str]:
    yield from map(weeks.heavy_words, weeks.heavy_lately)
    if weeks.planned:
        named = _some([planned_words(one) for one in weeks.planned], "; ")
        yield f"planned: {named}"
    if weeks.unknown:
        named = _some(weeks.unknown, ", ")
        yield f"no pattern is known for: {named} (write them into movements.toml)"
    if without_plan:
        are = "1 class counts" if without_plan == 1 else f"{without_plan} classes count"
        yield f"{are} by its results alone: the journal with the plan is gone"


def _some(words: Sequence[str], between: str) -> str:
    more = len(words) - _SHOWN
    return between.join(words[:_SHOWN]) + (f" and {more} more" if more > 0 else "")


def weeks_values(weeks: Weeks, without_plan: int) -> dict[str, Any]:
    """The same as plain values; days as in 2026-11-24."""
    return {
        "today": weeks.today.isoformat(),
        "weeks": [
            {"monday": week.monday.isoformat(), **_values(week.held)} for week in weeks.weeks
        ],
        "coming": {
            **_values(weeks.coming),
            "plans": [{"date": one.date.isoformat(), "title": one.title} for one in weeks.planned],
        },
        "heavy_twice": [
            {
                **to_builtins(one),
                "second": one.second.isoformat(),
                "words": weeks.heavy_words(one),
            }
            for one in weeks.heavy_twice
        ],
        "unknown": list(weeks.unknown),
        "without_plan": without_plan,
    }


def _values(held: LastWeeks) -> dict[str, Any]:
    return {
        "classes": held.classes,
        "patterns": dict(held.patterns),
        "lengths": dict(held.lengths),
    }


def _bar(count: int, most: int, columns: int, *, planned: bool) -> str:
    """The number and a bar: a sign a class, or fewer where the longest has no room."""
    if not count:
        return "."
    room = columns - 3
    signs = count if most <= room else max(1, count * room // most)
    return f"{count:>2} {(PLANNED if planned else HELD) * signs}"


def _row(label: str, cells: list[str], wide: int) -> str:
    return label.ljust(_LABEL) + "".join(cell.ljust(wide) for cell in cells)
