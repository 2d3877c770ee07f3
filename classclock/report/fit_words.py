"""Whether the cap fits, in words: for the coach, and shorter for the room."""

from typing import Any

from classclock.planning.cap_fit import PieceFit
from classclock.units.printable import printable
from classclock.units.times import show_time

LEAST_FOR_THE_ROOM = 4
"""The room sees no number that rests on fewer people: it would be somebody's own."""


def fit_line(fit: PieceFit) -> str:
    """For the coach: how it would go, how many results that rests on, and who is left out."""
    name, within = printable(fit.name, 28), show_time(fit.limit)
    if not fit.told:
        return f"{name}: nothing tells how it would go: {_none(fit.here)}"
    if fit.capped:
        would = f"of {fit.here} here {fit.finish} would finish within {within}"
    else:
        would = f"{len(fit.told)} of {fit.here} here would get {_spread(fit)} in {within}"
    line = f"{name}: {would} (rests on {_results(fit)})"
    if fit.without:
        line += f"; {_none(fit.without)}"
    if fit.by_movements:
        line += f"; {fit.by_movements} by other pieces with the same movements"
    if fit.otherwise:
        line += f"; {fit.otherwise} by results with other options or loads"
    return line


def room_words(fit: PieceFit) -> str:
    """For the room: most of them, nobody's own number; empty where too few can be told of."""
    count = len(fit.told)
    if count < LEAST_FOR_THE_ROOM:
        return ""
    if fit.capped:
        known = "here" if not fit.without else "who have done the like"
        within = show_time(fit.limit)
        return f"{fit.finish} of {count} {known} would finish within {within}"
    quarter = count // 4
    least, most = fit.told[quarter].rounds, fit.told[-1 - quarter].rounds
    if least == most:
        return f"most here would get about {_rounds(least)}"
    return f"most here would get {least} to {_rounds(most)}"


def fit_values(fit: PieceFit) -> dict[str, Any]:
    """The same as plain values; lengths in whole seconds."""
    scores = [one.score for one in fit.told]
    middle = fit.middle
    return {
        "name": fit.name,
        "seconds": fit.limit // 1000,
        "here": fit.here,
        "told": len(fit.told),
        "would_finish": fit.finish if fit.capped else None,
        "lowest": scores[0] if scores else None,
        "middle": None if middle is None else middle.score,
        "highest": scores[-1] if scores else None,
        "results": fit.results,
        "people": fit.people,
        "without_records": fit.without,
        "by_movements": fit.by_movements,
        "by_other_options_or_loads": fit.otherwise,
    }


def _spread(fit: PieceFit) -> str:
    lowest, highest = fit.told[0].score, fit.told[-1].score
    if lowest == highest or fit.middle is None:
        return lowest
    return f"{lowest} to {highest}, the middle {fit.middle.score},"


def _results(fit: PieceFit) -> str:
    results = "1 result" if fit.results == 1 else f"{fit.results} results"
    return f"{results} of {'1 person' if fit.people == 1 else f'{fit.people} people'}"


def _none(count: int) -> str:
    return "1 has no records" if count == 1 else f"{count} have no records"


def _rounds(count: int) -> str:
    return "1 round" if count == 1 else f"{count} rounds"
