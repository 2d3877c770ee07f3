"""The command `load`: a maximum and percentages of it, as text or JSON."""

from collections.abc import Sequence
from decimal import Decimal
from pathlib import Path
from typing import Any

from msgspec import Struct

from classclock.book.asking.club_lifts import club_lifts
from classclock.book.asking.lift_records import LiftRecord, lift_records, person_called
from classclock.book.files.saved_results import LaterResultsError
from classclock.commands.bar import lighter_document, load_document, loading_document
from classclock.commands.headless import BAD_USE, FINDINGS, OK, print_json, say_wrong
from classclock.strength.bar_picture import lighter_words, side_words
from classclock.strength.flags import NO_RECORD
from classclock.strength.maxima import Formula, Maximum, maximum, percent_of
from classclock.strength.working_loads import WorkingLoad, bar_for, warm_ups, working_load
from classclock.units.bars_and_plates import Equipment
from classclock.units.loads import Load, Unit, both_units, in_unit, parse_load, plain, shown
from classclock.units.printable import printable

TABLE = tuple(Decimal(percent) for percent in (40, 50, 60, 65, 70, 75, 80, 85, 90, 95, 100))
"""The percentages shown unless others are asked for."""
_MOST_OF_AN_ESTIMATE = Decimal(90)
"""Percent. Nearer to a maximum that nobody has lifted an error of the estimate is a load too heavy.

Common practice, no source.
"""


class Asked(Struct, frozen=True):
    """What the `load` command was asked besides the load or the name."""

    club_unit: Unit
    show_in: Unit | None
    """The unit asked for: of a bare load, and of what is said besides."""
    reps: int
    formula: Formula
    percents: tuple[Decimal, ...] | None
    lift: str | None

    def unit(self, entered: Load) -> Unit:
        """The unit to show everything in that follows from this load."""
        return self.show_in or entered.unit


def load(of: str, folder: Path, equipment: Equipment, asked: Asked, *, as_json: bool) -> int:
    """A maximum and percentages of it, from a load lifted or from an athlete's records."""
    try:
        lifted = parse_load(of, asked.show_in or asked.club_unit)
    except ValueError:
        return _of_athlete(of, folder, equipment, asked, as_json=as_json)
    try:
        best = maximum(lifted, asked.reps, asked.formula)
    except ValueError as error:
        say_wrong(str(error))
        return BAD_USE
    if as_json:
        print_json(_maximum_document(best, equipment, asked))
    else:
        print("\n".join(_maximum_lines(best, equipment, asked)))
    return OK


def _of_athlete(
    who: str, folder: Path, equipment: Equipment, asked: Asked, *, as_json: bool
) -> int:
    classes, unread = club_lifts(folder)
    for error in unread:
        later = isinstance(error, LaterResultsError)
        why = error.why if later else "not a results file that can be read: it is left out"
        say_wrong(f"{error.path}: {why}")
    try:
        person = person_called(classes, who)
    except LookupError as error:
        say_wrong(str(error.args[0]))
        return BAD_USE
    records = lift_records(classes, person, asked.formula) if person is not None else {}
    if asked.lift is not None:
        records = {lift: one for lift, one in records.items() if lift == asked.lift.casefold()}
    if as_json:
        found = [_record_document(one, equipment, asked) for one in records.values()]
        print_json({"athlete": who, "lifts": found, "note": "" if found else NO_RECORD})
    elif not records:
        lift = f", {asked.lift}" if asked.lift is not None else ""
        print(printable(f"{who}{lift}: {NO_RECORD}", longest=200))
    else:
        blocks = ["\n".join(_record_lines(who, one, equipment, asked)) for one in records.values()]
        print("\n\n".join(blocks))
    return OK if records else FINDINGS


def _record_lines(who: str, record: LiftRecord, equipment: Equipment, asked: Asked) -> list[str]:
    heaviest = record.heaviest
    unit = asked.unit(heaviest.load)
    return [
        printable(f"{who}, {record.lift}", longest=200),
        f"heaviest so far: {both_units(heaviest.load, unit)} x {heaviest.reps}, {heaviest.on}",
        *_maximum_lines(record.best, equipment, asked),
    ]


def _maximum_lines(best: Maximum, equipment: Equipment, asked: Asked) -> list[str]:
    unit = asked.unit(best.load)
    other = f", {in_unit(best.load, unit)}" if best.load.unit != unit else ""
    lines = [f"maximum: {best}{other}", best.words, ""]
    rows: list[tuple[Decimal | None, WorkingLoad]] = list(
        _working(best.load, equipment, asked.percents or _table_of(best))
    )
    if asked.percents:
        steps = warm_ups(rows[0][1], equipment)
        rows = [*((None, step) for step in steps), *rows]
    width = max((len(both_units(one.load, unit)) for _, one in rows if one.load), default=0)
    lines += [_row(percent, working, unit, width) for percent, working in rows]
    if not best.measured and not asked.percents:
        lines += ["", f"above {_MOST_OF_AN_ESTIMATE} %: only of a load that was lifted once"]
    return lines


def _table_of(best: Maximum) -> tuple[Decimal, ...]:
    """The percentages of a maximum: all only where it was lifted."""
    if best.measured:
        return TABLE
    return tuple(percent for percent in TABLE if percent <= _MOST_OF_AN_ESTIMATE)


def _working(
    best: Load, equipment: Equipment, percents: Sequence[Decimal]
) -> list[tuple[Decimal, WorkingLoad]]:
    targets = [percent_of(best, percent) for percent in percents]
    bar_for_all = bar_for(targets, equipment)
    return [
        (percent, working_load(target, equipment, bar_for_all))
        for percent, target in zip(percents, targets, strict=True)
    ]


def _row(percent: Decimal | None, working: WorkingLoad, unit: Unit, width: int) -> str:
    label = f"{plain(percent)} %" if percent is not None else "warm-up"
    if working.loading is None or working.load is None:
        words = lighter_words(working.target, working.lighter) if working.lighter else ""
        return f"{label:>7}  {words}"
    short = working.shortfall
    missing = f"  ({shown(short)} short)" if short is not None and short.amount else ""
    made = both_units(working.load, unit)
    return f"{label:>7}  {made:<{width}}  {side_words(working.loading)}{missing}"


def _maximum_document(best: Maximum, equipment: Equipment, asked: Asked) -> dict[str, Any]:
    rows = _working(best.load, equipment, asked.percents or _table_of(best))
    steps = warm_ups(rows[0][1], equipment) if asked.percents else ()
    return {
        "maximum": load_document(best.load),
        "lifted": {**load_document(best.lifted), "reps": best.reps},
        "formula": None if best.measured else best.formula,
        "unreliable": best.unreliable,
        "note": best.words,
        "warm_ups": [_working_document(step) for step in steps],
        "sets": [
            {"percent": float(percent), **_working_document(working)} for percent, working in rows
        ],
    }


def _working_document(working: WorkingLoad) -> dict[str, Any]:
    short = working.shortfall
    return {
        "target": load_document(working.target),
        "loading": loading_document(working.loading),
        "short": shown(short) if short is not None else None,
        "lighter": lighter_document(working.lighter),
    }


def _record_document(record: LiftRecord, equipment: Equipment, asked: Asked) -> dict[str, Any]:
    heaviest = record.heaviest
    return {
        "lift": record.lift,
        "heaviest": {
            **load_document(heaviest.load),
            "reps": heaviest.reps,
            "on": heaviest.on.isoformat(),
        },
        "maximum_on": record.best_on.isoformat(),
        **_maximum_document(record.best, equipment, asked),
    }
