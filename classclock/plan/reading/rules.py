"""What pydantic can't see: rules between the keys of a plan.

They run over the values as the file has them, so that a fault in one key hides none in another.
"""

from collections.abc import Iterator

from classclock.plan.amounts import AMOUNTS
from classclock.plan.findings import Fault, Path
from classclock.plan.model import FORMATS, LENGTH_KEYS
from classclock.plan.written_values import Table, tables
from classclock.units.printable import printable
from classclock.units.times import show_time


def broken_rules(values: Table) -> Iterator[Fault]:
    """Find every rule that the plan breaks. Each segment must have a known format."""
    names: set[str] = set()
    for number, segment in tables(values.get("segment")):
        path: Path = ("segment", number)
        form = FORMATS[segment["format"]]
        has_rounds = form.about.has_rounds
        yield from _times(segment, path)
        yield from _stations(segment, path, counted=has_rounds)
        yield from _sets(segment, path)
        yield from form.faults(segment, path)
        if has_rounds:
            yield from _counting(segment, path)
        name = segment.get("name")
        if isinstance(name, str) and ("score" in segment or has_rounds):
            if name.strip().casefold() in names:
                what = f'two scored segments are named "{printable(name)}"'
                yield Fault((*path, "name"), what, f'Write name = "{printable(name)} 2"')
            names.add(name.strip().casefold())


def _times(segment: Table, path: Path) -> Iterator[Fault]:
    for key in LENGTH_KEYS:
        number = segment.get(key)
        if isinstance(number, int) and not isinstance(number, bool) and 0 < number < 60:
            yield Fault((*path, key), *which_time(key, number))


def which_time(key: str, number: int) -> tuple[str, str]:
    """Ask what a number without a colon meant."""
    if number >= 60:
        return f'{key} = "{number}" has no colon', f'Write {key} = "{show_time(number * 1000)}"'
    return (
        f"{key} = {number}: {number} seconds or {number} minutes?",
        f'{number} seconds: write "0:{number:02}"; {number} minutes: write "{number}:00"',
    )


def _stations(segment: Table, path: Path, *, counted: bool) -> Iterator[Fault]:
    for number, station in tables(segment.get("station")):
        here = (*path, "station", number)
        yield from _amount(station, here, counted=counted)
        if counted and "scheme" not in segment and not any(key in station for key in AMOUNTS):
            what = f"{_movement(station)} has no amount"
            yield Fault(here, what, "Write reps = 12, or another amount", missing=AMOUNTS)
        for place, option in tables(station.get("options")):
            there = (*here, "options", place)
            yield from _amount(option, there, counted=counted)
            if counted:
                yield from _own_amount(station, option, there)


def _movement(station: Table) -> str:
    movement = station.get("movement", station.get("name"))
    return f'"{printable(movement)}"' if isinstance(movement, str) else "this station"


def _amount(written: Table, path: Path, *, counted: bool) -> Iterator[Fault]:
    given = [key for key in AMOUNTS if key in written]
    if len(given) > 1:
        what = f"{_movement(written)} has {' and '.join(given)}"
        yield Fault((*path, given[1]), what, "Keep one of them")
    elif given == ["climb"] and not counted:
        what = f"{_movement(written)} climbs, but this format has no rounds to climb by"
        yield Fault((*path, "climb"), what, "Write reps = 12, or another amount")


def _own_amount(station: Table, option: Table, path: Path) -> Iterator[Fault]:
    """Ask whether an option is to be worth less, or more, than a station that says its worth."""
    counts = station.get("counts")
    own = next((key for key in ("reps", "calories", "climb") if key in option), None)
    if type(counts) is not int or own is None or "counts" in option or option[own] == counts:
        return
    number = "climb" if own == "climb" else f"{option[own]} {own}"
    what = f"{_movement(option)} counts its own {number}, its station {counts}"
    instead = f"Write counts = {counts} in the option if it is worth as much"
    if own != "climb":
        instead += f", counts = {option[own]} if this is meant"
    yield Fault(path, what, instead, "hint")


def _sets(segment: Table, path: Path) -> Iterator[Fault]:
    if "sets" in segment and "lift" not in segment:
        what = '"sets" without the lift they are of'
        yield Fault((*path, "sets"), what, 'Write lift = "front squat"', missing=("lift",))
    for number, one in tables(segment.get("sets")):
        if "percent" in one and "load" in one:
            yield Fault((*path, "sets", number), "a set with percent and load", "Keep one of them")


def _counting(segment: Table, path: Path) -> Iterator[Fault]:
    stations = [station for _, station in tables(segment.get("station"))]
    count = segment.get("count", "round")
    if count == "station" and not stations:
        what = 'count = "station" without a station'
        yield Fault((*path, "count"), what, "Add a [[segment.station]]", missing=("station",))
    elif count == "round" and not any(_counts_something(one, segment) for one in stations):
        what = "a round is worth no reps, so odd reps can't be counted"
        instead = (
            "Give a station reps or calories, or counts = 10 beside its metres or seconds"
            if stations
            else "Add what is done in a round: a [[segment.station]], each with its movement"
        )
        yield Fault(path, what, instead, "hint")


def _counts_something(station: Table, segment: Table) -> bool:
    if "counts" in station:
        return bool(station["counts"])
    if "metres" in station or "seconds" in station:
        return False
    return "scheme" in segment or any(key in station for key in AMOUNTS)
