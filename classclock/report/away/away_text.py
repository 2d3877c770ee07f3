"""Who hasn't come for weeks, as plain text and as plain values: no blame, no promise."""

from collections.abc import Iterator
from typing import Any

from rich.cells import cell_len

from classclock.records.bests import long_day
from classclock.report.away.page import Away, AwayPage
from classclock.report.cells import pad
from classclock.units.printable import printable

WHY = "Why isn't known here, and is theirs to say."


def away_lines(page: AwayPage) -> tuple[str, ...]:
    return tuple(line.rstrip() for line in _lines(page))


def _lines(page: AwayPage) -> Iterator[str]:
    if not page.anybody:
        yield "Nobody has come to a class yet."
        return
    weeks = _counted(page.weeks, "week")
    if page.people:
        yield f"Last here {weeks} ago or more:"
        yield ""
        yield from _people(page.people)
        yield ""
        yield WHY
    else:
        yield f"Nobody last came {weeks} {'to a year ago' if page.longer else 'ago or more'}."
    if page.longer:
        who = "1 person" if page.longer == 1 else f"{page.longer} people"
        yield f"{who} last came a year ago or longer: --all names them too."


def _people(people: tuple[Away, ...]) -> Iterator[str]:
    names = pad([printable(one.athlete.name) for one in people])
    for name, one in zip(names, people, strict=True):
        yield f"  {name}  {since_words(one)}"
        if one.most:
            yield f"  {' ' * cell_len(name)}  most often {most_words(one)}"


def since_words(one: Away) -> str:
    """`3 November 2026, 3 weeks ago; came 12 times`."""
    times = "once" if one.times == 1 else f"{one.times} times"
    return f"{long_day(one.last_day)}, {_counted(one.weeks, 'week')} ago; came {times}"


def most_words(one: Away) -> str:
    """`Turntable (5 times), Front Squat (once)`."""
    said = (f"{what} ({'once' if times == 1 else f'{times} times'})" for what, times in one.most)
    return printable(", ".join(said), 400)


def _counted(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"


def away_values(page: AwayPage) -> dict[str, Any]:
    """The same as plain values, ready for JSON."""
    return {
        "weeks": page.weeks,
        "away": [
            {
                "athlete": one.athlete.id,
                "name": one.athlete.name,
                "last_day": one.last_day,
                "weeks": one.weeks,
                "classes": one.times,
                "most": [{"what": what, "times": times} for what, times in one.most],
            }
            for one in page.people
        ],
        "longer": page.longer,
    }
