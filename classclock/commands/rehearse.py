"""`rehearse`: play a file of keys through one piece of a plan; no screen, no waiting."""

import argparse
from pathlib import Path

from classclock.book.asking.lift_reading import LiftReading, loads_reader
from classclock.club.movements import filled_in
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import FINDINGS, OK, BadUseError, FindingsError
from classclock.commands.shared.options import add_club, add_json, names_that_differ
from classclock.commands.shared.plan import asked_plan
from classclock.commands.shared.printing import say_wrong
from classclock.commands.shared.results import print_results
from classclock.live.rehearsal import piece_called, rehearse
from classclock.machine.plain_file import read_file_or_pipe
from classclock.records.class_document import results_document
from classclock.tally.keys.taps_file import TapRow, read_taps


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.description = (
        "Play a file of keys through one piece of a plan: at once, with no screen, no "
        "sound and nobody there, to try a plan out or to check a count. Prints the scores."
    )
    add_club(parser)
    add_json(parser)
    parser.add_argument("plan", help="a plan file, or the name of a sample plan")
    parser.add_argument(
        "--athletes",
        type=names_that_differ,
        required=True,
        metavar='"ILSE, BRAM"',
        help="whose keys these are",
    )
    parser.add_argument(
        "--taps", required=True, metavar="FILE", help="the file of keys, CSV: seconds,keys"
    )
    parser.add_argument("--segment", metavar="NAME", help="the piece; the first unless named")


def do(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    plan_file = asked_plan(asked.plan, club.unit)
    taps = _taps(asked.taps)
    if plan_file is None:
        return FINDINGS
    plan_file, trouble = filled_in(plan_file, folder)
    if trouble:
        say_wrong(trouble)
    plan = plan_file.plan
    try:
        rehearsed = rehearse(
            plan,
            asked.athletes,
            taps,
            segment=piece_called(plan, asked.segment),
            unit=club.unit,
            stop=club.care.stop,
            # percentages are of what each has lifted in the club
            read_loads=loads_reader(plan, club, LiftReading(folder)),
        )
    except (LookupError, ValueError) as error:
        raise BadUseError(error.args[0]) from None
    for flag in rehearsed.flags:
        say_wrong(f"before the start, {flag.name}: {flag.text}")
    for refused in rehearsed.refused:
        say_wrong(f"{asked.taps}:{refused.line}  {refused.keys}: {refused.why}")
    started = rehearsed.started.isoformat(timespec="seconds")
    document = results_document(rehearsed.record, started=started, journal="")
    print_results(document, as_json=asked.json)
    return OK


def _taps(path: str) -> tuple[TapRow, ...]:
    try:
        raw = read_file_or_pipe(Path(path))
    except OSError as error:
        raise FindingsError(
            f"{path}: this file can't be read ({error.strerror}). Check its name."
        ) from None
    taps, findings = read_taps(raw, path)
    if findings:
        raise FindingsError(*findings)
    return taps
