"""`check`: what is wrong with plans, how long they are, what is short, what can be read."""

import argparse
import os
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any

from msgspec import to_builtins

from classclock.club.letters_file import dots_for
from classclock.club.plan_files import plan_path, read_plan
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import FINDINGS, OK
from classclock.commands.shared.movements import known_movements
from classclock.commands.shared.options import add_club, add_json, names_that_differ
from classclock.commands.shared.printing import print_json, say_wrong
from classclock.machine.standard_streams import say
from classclock.machine.terminal_kinds import kind_from
from classclock.plan.checked import check_lines, check_values
from classclock.plan.model import Plan
from classclock.plan.movements.completing import complete
from classclock.plan.settings.club import Club
from classclock.planning.cap_fit import PieceFit
from classclock.planning.equipment_check import Room, equipment_lines, equipment_values, room_for
from classclock.report.fit_words import fit_line, fit_values
from classclock.tally.lineup import MOST_LANES
from classclock.tally.load_flags import LoadFlag
from classclock.units.digits import is_whole
from classclock.units.loads import Unit
from classclock.units.printable import printable

_Fits = Callable[[Plan], Sequence[PieceFit]]
_Lifts = Callable[[Plan], Sequence[LoadFlag]]
_USUAL_LANES = 8
"""By which the wall is judged where nobody says how many come."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    parser.add_argument("plans", nargs="+", metavar="PLAN", help="plan files, or folders of them")
    parser.add_argument(
        "--lanes", type=_lanes, help="how many lanes to judge the wall by (who comes, or 8)"
    )
    parser.add_argument(
        "--window", type=_window, default=(120, 36), metavar="120x36", help="the terminal's size"
    )
    parser.add_argument(
        "--athletes",
        type=_how_many,
        metavar='12|"ILSE, BRAM"',
        help="how many come, or who: what equipment is short, whether the cap fits, whose loads "
        "are to be looked at",
    )


def _lanes(text: str) -> int:
    if is_whole(text) and 1 <= int(text) <= 26:
        return int(text)
    raise argparse.ArgumentTypeError(f'"{text}": write how many lanes there are, 1 to 26')


def _window(text: str) -> tuple[int, int]:
    columns, by, rows = text.partition("x")
    if by and is_whole(columns) and is_whole(rows) and int(columns) >= 60 and int(rows) >= 18:
        return int(columns), int(rows)
    raise argparse.ArgumentTypeError(
        f'"{text}" is no size of a window: write columns and rows, 60x18 or more, as in 120x36'
    )


def _how_many(written: str) -> int | tuple[str, ...]:
    number = written.strip(" ,")
    if is_whole(number) and 1 <= int(number) <= 200:
        return int(number)
    names = names_that_differ(written) if number else ()
    if names and all(any(map(str.isalpha, name)) for name in names):
        return names
    raise argparse.ArgumentTypeError(
        f'"{written}": write how many come, 1 to 200, or their names with commas between'
    )


def do(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    library = known_movements(folder)
    room = None if asked.athletes is None else room_for(asked.athletes, club, library)
    fits = _fits(room, folder, club.unit)
    lifts = _lifts(room, folder, club)
    status = OK
    documents = []
    for path in (path for named in asked.plans for path in _plans_at(named)):
        read, findings = read_plan(path, club.unit, library)
        plan = None if read is None else complete(read, library)
        if any(finding.level == "error" for finding in findings):
            status = FINDINGS  # a hint is said, but the plan can be run
        if asked.json:
            said = [to_builtins(finding) for finding in findings]
            values = {} if plan is None else _values(plan, room, fits, lifts)
            documents.append({"file": str(path), "findings": said, **values})
            continue
        for finding in findings:
            say_wrong(str(finding))
        if plan is not None:
            say(*_lines(plan, room, fits, lifts))
    if asked.json:
        print_json(documents)
    else:
        from classclock.screens.live.wall.reading_words import reading_lines  # noqa: PLC0415  letters are loaded where they are measured

        columns, rows = asked.window
        lanes = asked.lanes or (_USUAL_LANES if room is None else min(room.people, MOST_LANES))
        dots = dots_for(club, folder, kind_from(os.environ))
        say(*reading_lines(club.tv, columns, rows, lanes, dots=dots))
    return status


def _plans_at(named: str) -> tuple[Path, ...]:
    path = plan_path(named)
    with suppress(OSError):
        if path.is_dir():
            return tuple(sorted(path.glob("*.toml")))
    return (path,)


def _fits(room: Room | None, folder: Path, unit: Unit) -> _Fits | None:
    """What tells how a plan's pieces would go for those who were named."""
    if room is None or not room.names:
        return None
    from classclock.book.asking.plan_fits import piece_fits  # noqa: PLC0415  sqlalchemy, for names only

    return lambda plan: piece_fits(plan, room.names, folder, room.library, unit)


def _lifts(room: Room | None, folder: Path, club: Club) -> _Lifts | None:
    """What tells which loads of a plan are to be looked at for those who were named."""
    if room is None or not room.names:
        return None
    from classclock.book.asking.plan_loads import loads_to_look_at  # noqa: PLC0415  for names only

    return lambda plan: loads_to_look_at(plan, room.names, club, folder)


def _lines(
    plan: Plan, room: Room | None, fits: _Fits | None, lifts: _Lifts | None
) -> tuple[str, ...]:
    short = () if room is None else equipment_lines(plan, room)
    told = () if fits is None else [f"  {fit_line(fit)}" for fit in fits(plan)]
    loads = () if lifts is None else _load_lines(lifts(plan))
    return (*check_lines(plan), *short, *told, *loads, "")


def _load_lines(flags: Sequence[LoadFlag]) -> Iterator[str]:
    """A line for everybody of whom the same is said."""
    said = dict.fromkeys((flag.segment, flag.piece, flag.text) for flag in flags)
    for segment, piece, text in said:
        who = [flag.name for flag in flags if (flag.segment, flag.text) == (segment, text)]
        yield printable(f"  {piece}, {', '.join(who)}: {text}", longest=1000)


def _values(
    plan: Plan, room: Room | None, fits: _Fits | None, lifts: _Lifts | None
) -> dict[str, Any]:
    values: dict[str, Any] = {**check_values(plan)}
    if room is not None:
        values["equipment"] = equipment_values(plan, room)
    if fits is not None:
        values["cap_fit"] = [fit_values(fit) for fit in fits(plan)]
    if lifts is not None:
        values["loads"] = [
            {"segment": flag.piece, "athlete": flag.name, "text": flag.text} for flag in lifts(plan)
        ]
    return values
