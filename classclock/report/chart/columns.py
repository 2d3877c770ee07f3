"""Which benchmarks a chart has, in what order, and what each is called on it."""

from collections.abc import Callable, Iterable, Sequence

from msgspec import Struct

from classclock.records.benchmark_headings import heading, latest_of_each
from classclock.records.class_entries import benchmark_key
from classclock.records.result import Result
from classclock.units.alike import NearNames
from classclock.units.spelling import plain_words


class ChartColumn(Struct, frozen=True):
    key: str
    """The benchmark as it is compared, in small letters."""
    heading: str
    """As the club writes it."""
    lift: bool = False
    """Whether it is scored in loads."""


def chart_columns(results: Iterable[Result]) -> tuple[ChartColumn, ...]:
    """A column for each benchmark, in their order; called as it was written last."""
    return tuple(
        ChartColumn(key, heading(one), one.kind == "load")
        for key, one in sorted(latest_of_each(results).items())
    )


def column_called(
    named: str, columns: Sequence[ChartColumn], instead: Callable[[str], str]
) -> ChartColumn:
    """The column of a benchmark, however it is spelled; `instead` says what to write, of all names.

    Raises:
        LookupError: there is none; `str` has the near names, or all of them.
    """
    key, plain = benchmark_key(named), plain_words(named)
    for column in columns:
        if column.key == key:
            return column
    for column in columns:
        if plain and plain in (plain_words(column.key), plain_words(column.heading)):
            return column
    headings = [column.heading for column in columns]
    near = NearNames(headings).of(named)
    what = f"did you mean {' or '.join(near)}?" if near else instead(", ".join(headings))
    raise LookupError(f'no benchmark is called "{named}": {what}')
