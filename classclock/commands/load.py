"""`load`: a maximum and percentages of it, as text or JSON."""

import argparse
import re
from collections.abc import Sequence
from decimal import Decimal
from pathlib import Path
from typing import Any

from msgspec import Struct

from classclock.book.asking.lift_records import LiftRecord
from classclock.book.files.any_records import has_records
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import FINDINGS, OK, BadUseError
from classclock.commands.shared.load_values import lighter_values, load_values, loading_values
from classclock.commands.shared.options import add_club, add_json, add_unit, whole_number
from classclock.commands.shared.printing import print_json
from classclock.machine.standard_streams import say
from classclock.records.class_entries import benchmark_key
from classclock.strength.bar_picture import lighter_words, side_words
from classclock.strength.flags import NO_RECORD
from classclock.strength.maxima import FORMULAS, Formula, Maximum, maximum, percent_of
from classclock.strength.working_loads import WorkingLoad, bar_for, warm_ups, working_load
from classclock.units.bars_and_plates import Equipment
from classclock.units.digits import has_other_digits
from classclock.units.loads import Load, Unit, both_units, in_unit, parse_load, plain, to_hundredths
from classclock.units.printable import printable

TABLE = tuple(Decimal(percent) for percent in (40, 50, 60, 65, 70, 75, 80, 85, 90, 95, 100))
"""The percentages shown unless others are asked for."""
_MOST_OF_AN_ESTIMATE = Decimal(90)
"""Percent. Nearer to a maximum that nobody has lifted an error of the estimate is a load too heavy.

Common practice, no source.
"""


_UNIT = re.compile(r"\s*(?:kg|lbs?)\s*$", re.IGNORECASE)
_PERCENT = re.compile(r"\s*(\d{1,3}(?:\.\d{1,3})?)\s*%?\s*", re.ASCII)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    add_unit(parser)
    parser.add_argument("of", metavar="LOAD|ATHLETE", help="a load lifted, or who lifted")
    parser.add_argument(
        "--reps", type=whole_number, default=1, help="for how many reps it was lifted (1)"
    )
    parser.add_argument("--lift", help="an athlete's lift, as the plan calls it")
    parser.add_argument(
        "--formula",
        choices=FORMULAS,
        default="brzycki",
        help="how a maximum is estimated (brzycki)",
    )
    parser.add_argument(
        "--percent", type=_percents, metavar="65,70,75", help="the working sets, in percent"
    )


def _percents(text: str) -> tuple[Decimal, ...]:
    parts = text.split(",")
    found = [_PERCENT.fullmatch(part) for part in parts]
    # A decimal comma, or the one between two: 82,5 may be either.
    if any(part.rstrip("%").isdigit() and len(part.rstrip("%")) == 1 for part in parts[1:]):
        raise argparse.ArgumentTypeError(
            f'"{text}": is that a decimal comma? Write 82.5 with a point, or 82, 5 with a space'
        )
    percents = tuple(Decimal(match[1]) for match in found if match)
    if len(percents) == len(parts) and all(0 < one <= 120 for one in percents):
        return percents
    raise argparse.ArgumentTypeError(
        f'"{text}": write percentages above 0 and up to 120 with commas between, as in 65,70,75'
    )


class _Shown(Struct, frozen=True):
    """How a maximum is worked out and shown."""

    equipment: Equipment
    formula: Formula
    percents: tuple[Decimal, ...] | None
    """Of the working sets that were asked for; None for a table."""
    named_unit: Unit | None
    """The unit asked for: of a bare load, and of what is said besides."""

    def unit(self, entered: Load) -> Unit:
        """The unit to show everything in that follows from this load."""
        return self.named_unit or entered.unit


def do(asked: argparse.Namespace) -> int:
    """A maximum and percentages of it, from a load lifted or from an athlete's records."""
    folder, club = asked_club(asked)
    how = _Shown(club.equipment, asked.formula, asked.percent, asked.unit)
    try:
        lifted = parse_load(asked.of, asked.unit or club.unit)
    except ValueError:
        return _of_athlete(asked, folder, how)
    try:
        best = maximum(lifted, asked.reps, asked.formula)
    except ValueError as error:
        raise BadUseError(error) from None
    if asked.json:
        print_json(_maximum_values(best, how))
    else:
        say(*_maximum_lines(best, how))
    return OK


def _of_athlete(asked: argparse.Namespace, folder: Path, how: _Shown) -> int:
    who = asked.of
    records = _records(folder, who, how.formula)
    if records is None and _is_number(who):
        raise BadUseError(f'"{who}" is no load: write what was lifted, as in 85 or 185lb')
    records = records or {}
    if asked.lift is not None:
        records = {lift: one for lift, one in records.items() if lift == benchmark_key(asked.lift)}
    if asked.json:
        found = [_record_values(one, how) for one in records.values()]
        print_json({"athlete": who, "lifts": found, "note": "" if found else NO_RECORD})
    elif not records:
        lift = f", {asked.lift}" if asked.lift is not None else ""
        say(printable(f"{who}{lift}: {NO_RECORD}", longest=200))
    else:
        blocks = [["", *_record_lines(who, one, how)] for one in records.values()]
        say(*[line for block in blocks for line in block][1:])
    return OK if records else FINDINGS


def _records(folder: Path, who: str, formula: Formula) -> dict[str, LiftRecord] | None:
    """What they have on record, by lift; None where nobody is called so."""
    if not has_records(folder):
        return None
    # A load needs no book.
    from classclock.book.asking.recorded_loads import recorded_loads  # noqa: PLC0415
    from classclock.book.tables.queries import find  # noqa: PLC0415
    from classclock.commands.shared.book import asked_book  # noqa: PLC0415

    with asked_book(folder) as book, book.reading() as connection:
        found = find(connection, who)
        if len(found) > 1:
            ids = " or ".join(one.id for one in found)
            raise BadUseError(f"several athletes are called {who}: write which, {ids}")
        return recorded_loads(connection, found[0].id, formula) if found else None


def _is_number(text: str) -> bool:
    """Whether a number was meant, one that is no load: `0`, `-5`, `1e309`, `NaN`."""
    try:
        float(_UNIT.sub("", text).replace(",", "."))
    except ValueError:
        return has_other_digits(text)
    return True


def _record_lines(who: str, record: LiftRecord, how: _Shown) -> list[str]:
    heaviest = record.heaviest
    unit = how.unit(heaviest.load)
    return [
        printable(f"{who}, {record.lift}", longest=200),
        f"heaviest so far: {both_units(heaviest.load, unit)} x {heaviest.reps}, {heaviest.on}",
        *_maximum_lines(record.best, how),
    ]


def _maximum_lines(best: Maximum, how: _Shown) -> list[str]:
    unit = how.unit(best.load)
    other = f", {in_unit(best.load, unit)}" if best.load.unit != unit else ""
    steps, sets = _warm_ups_and_sets(best, how)
    rows = [*((None, step) for step in steps), *sets]
    width = max((len(both_units(one.load, unit)) for _, one in rows if one.load), default=0)
    lines = [f"maximum: {best}{other}", best.words, ""]
    lines += [_row(percent, working, unit, width) for percent, working in rows]
    if not best.measured and not how.percents:
        lines += ["", f"above {_MOST_OF_AN_ESTIMATE} %: only of a load that was lifted once"]
    return lines


def _warm_ups_and_sets(
    best: Maximum, how: _Shown
) -> tuple[Sequence[WorkingLoad], list[tuple[Decimal, WorkingLoad]]]:
    """The sets that were asked for and their warm-ups, or a table's rows without; by percentage."""
    percents = how.percents or _table_of(best)
    targets = [percent_of(best.load, percent) for percent in percents]
    bar = bar_for(targets, how.equipment)
    sets = [working_load(target, how.equipment, bar) for target in targets]
    steps = warm_ups(sets[0], how.equipment) if how.percents else ()
    return steps, list(zip(percents, sets, strict=True))


def _table_of(best: Maximum) -> tuple[Decimal, ...]:
    """The percentages of a maximum: all only where it was lifted."""
    if best.measured:
        return TABLE
    return tuple(percent for percent in TABLE if percent <= _MOST_OF_AN_ESTIMATE)


def _row(percent: Decimal | None, working: WorkingLoad, unit: Unit, width: int) -> str:
    label = f"{plain(percent)} %" if percent is not None else "warm-up"
    if working.loading is None or working.load is None:
        words = lighter_words(working.target, working.lighter) if working.lighter else ""
        return f"{label:>7}  {words}"
    short = None if working.shortfall is None else to_hundredths(working.shortfall)
    missing = f"  ({short} short)" if short is not None and short.amount else ""
    made = both_units(working.load, unit)
    return f"{label:>7}  {made:<{width}}  {side_words(working.loading)}{missing}"


def _maximum_values(best: Maximum, how: _Shown) -> dict[str, Any]:
    steps, sets = _warm_ups_and_sets(best, how)
    return {
        "maximum": load_values(best.load),
        "lifted": {**load_values(best.lifted), "reps": best.reps},
        "formula": None if best.measured else best.formula,
        "unreliable": best.unreliable,
        "note": best.words,
        "warm_ups": [_working_values(step) for step in steps],
        "sets": [{"percent": float(percent), **_working_values(one)} for percent, one in sets],
    }


def _working_values(working: WorkingLoad) -> dict[str, Any]:
    short = working.shortfall
    return {
        "target": load_values(working.target),
        "loading": loading_values(working.loading),
        "short": str(to_hundredths(short)) if short is not None else None,
        "lighter": lighter_values(working.lighter),
    }


def _record_values(record: LiftRecord, how: _Shown) -> dict[str, Any]:
    heaviest = record.heaviest
    return {
        "lift": record.lift,
        "heaviest": {
            **load_values(heaviest.load),
            "reps": heaviest.reps,
            "on": heaviest.on.isoformat(),
        },
        "maximum_on": record.best_on.isoformat(),
        **_maximum_values(record.best, how),
    }
