"""What pydantic can't see: rules between the keys of a plan.

They run over the values as the file has them, so that a fault in one key hides none in another.
"""

from collections.abc import Iterator
from typing import Any

from classclock.plan.amounts import AMOUNTS
from classclock.plan.findings import Fault, Path
from classclock.plan.keys import nearest
from classclock.plan.reading.wording import which_time
from classclock.units.printable import printable

Table = dict[str, Any]
_SCORED_ALWAYS = ("rounds-in-time", "capped-for-time")


def tables(value: object) -> list[tuple[int, Table]]:
    """List the tables of a list with their places in it, whatever else is there."""
    items = value if isinstance(value, list) else []
    return [(number, item) for number, item in enumerate(items) if isinstance(item, dict)]


def broken_rules(values: Table) -> Iterator[Fault]:
    """Find every rule that the plan breaks. Each segment must have a known format."""
    names: set[str] = set()
    for number, segment in tables(values.get("segment")):
        path: Path = ("segment", number)
        yield from _times(segment, path)
        yield from _stations(segment, path)
        yield from _sets(segment, path)
        if segment["format"] == "interval":
            yield from _steps(segment, path)
        if segment["format"] == "capped-for-time":
            yield from _work(segment, path)
        if segment["format"] in _SCORED_ALWAYS:
            yield from _counting(segment, path)
        name = segment.get("name")
        if isinstance(name, str) and ("score" in segment or segment["format"] in _SCORED_ALWAYS):
            if name.strip().casefold() in names:
                what = f'two scored segments are named "{printable(name)}"'
                yield Fault((*path, "name"), what, f'Write name = "{printable(name)} 2"')
            names.add(name.strip().casefold())


def _times(segment: Table, path: Path) -> Iterator[Fault]:
    for key in ("time", "cap"):
        number = segment.get(key)
        if isinstance(number, int) and not isinstance(number, bool) and 0 < number < 60:
            yield Fault((*path, key), *which_time(key, number))


def _stations(segment: Table, path: Path) -> Iterator[Fault]:
    counted = segment["format"] in _SCORED_ALWAYS
    for number, station in tables(segment.get("station")):
        here = (*path, "station", number)
        yield from _amount(station, here, counted=counted)
        if counted and "scheme" not in segment and not any(key in station for key in AMOUNTS):
            what = f"{_movement(station)} has no amount"
            yield Fault(here, what, "Write reps = 12, or another amount", missing=AMOUNTS)
        for place, option in tables(station.get("options")):
            yield from _amount(option, (*here, "options", place), counted=counted)


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


def _sets(segment: Table, path: Path) -> Iterator[Fault]:
    if "sets" in segment and "lift" not in segment:
        what = '"sets" without the lift they are of'
        yield Fault((*path, "sets"), what, 'Write lift = "front squat"', missing=("lift",))
    for number, one in tables(segment.get("sets")):
        if "percent" in one and "load" in one:
            yield Fault((*path, "sets", number), "a set with percent and load", "Keep one of them")


def _steps(segment: Table, path: Path) -> Iterator[Fault]:
    steps = tables(segment.get("steps"))
    for number, step in steps:
        here = (*path, "steps", number)
        if "work" in step and "rest" in step:
            yield Fault(here, "a step with both work and rest", "Make two steps of it")
        elif "work" not in step and "rest" not in step:
            what = "a step with neither work nor rest"
            yield Fault(
                here, what, 'Write work = "0:20" or rest = "0:10"', missing=("work", "rest")
            )
        yield from _step_stations(segment, step, here)
    if steps and all("rest" in step and "work" not in step for _, step in steps):
        yield Fault((*path, "steps"), "all steps are rest", 'Write { work = "0:20" } for one')
    sets, repeat = segment.get("sets"), segment.get("repeat")
    works = sum("work" in step for _, step in steps)
    if (
        isinstance(sets, list)
        and sets
        and type(repeat) is int
        and works * repeat not in {0, len(sets)}
    ):
        what = f"{works * repeat} work steps, but the number of sets is {len(sets)}"
        yield Fault((*path, "sets"), what, "Make the two numbers equal", "hint")


def _step_stations(segment: Table, step: Table, path: Path) -> Iterator[Fault]:
    there = tuple(
        station["movement"].strip()
        for _, station in tables(segment.get("station"))
        if isinstance(station.get("movement"), str)
    )
    named = step.get("stations")
    for number, movement in enumerate(named if isinstance(named, list) else []):
        if isinstance(movement, str) and movement.strip() and movement.strip() not in there:
            near = nearest(movement, there)
            here = (*path, "stations", number)
            what = f'no station of this segment has the movement "{printable(movement)}"'
            add = f'Add a [[segment.station]] with movement = "{printable(movement)}"'
            instead = f'Write "{printable(near)}"' if near else add
            yield Fault(here, what, instead, missing=("movement",))


def _work(segment: Table, path: Path) -> Iterator[Fault]:
    stations = tables(segment.get("station"))
    if "rounds" in segment and "scheme" in segment:
        what = 'both "rounds" and "scheme" say how much work it is'
        yield Fault((*path, "scheme"), what, "Keep one of them")
    elif "rounds" not in segment and "scheme" not in segment:
        what = 'neither "rounds" nor "scheme" says how much work it is'
        yield Fault(
            path, what, "Write rounds = 3, or scheme = [18, 12, 6]", missing=("rounds", "scheme")
        )
    elif "scheme" in segment and not stations:
        what = '"scheme" without a station that does these reps'
        instead = 'Add a [[segment.station]] with movement = "box step-over"'
        yield Fault((*path, "scheme"), what, instead, missing=("station",))
    elif "scheme" in segment and all(any(key in one for key in AMOUNTS) for _, one in stations):
        what = '"scheme" gives nothing: every station names its own amount'
        instead = "Take the amount out of a station, or write rounds in place of scheme"
        yield Fault((*path, "scheme"), what, instead)


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
