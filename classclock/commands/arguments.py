"""What a command line may say."""

import argparse
from collections.abc import Sequence
from decimal import Decimal, InvalidOperation
from typing import Any

from classclock import __version__
from classclock.commands.arguments_asked import OnlyAsked
from classclock.commands.arguments_book import add_book
from classclock.strength.maxima import FORMULAS


def parser(asked: str | None = None) -> argparse.ArgumentParser:
    """Read command lines; `command` of what it gives is the command's name, `home` without.

    Where it is known which command is asked for, no other is made ready to be read.
    """
    # Named before the command or behind it: only where it is named does it say anything.
    club = _club_option(argparse.SUPPRESS)
    as_json = argparse.ArgumentParser(add_help=False)
    as_json.add_argument("--json", action="store_true", help="print JSON")
    top = argparse.ArgumentParser(
        prog="classclock",
        description="A class timer and tally board for the wall of a small gym.",
        epilog="Without a command: choose a plan, say who is here, run the class.",
        parents=[_club_option(None)],
    )
    top.add_argument("--version", action="version", version=__version__)
    top.set_defaults(command="home")
    commands = OnlyAsked(top.add_subparsers(title="commands", metavar="COMMAND"), asked)

    demo = commands.add_parser("demo", help="a sample class, its athletes calling by themselves")
    demo.add_argument(
        "--speed", type=_speed, default=10, help="how many times as fast as life (10)"
    )
    demo.add_argument("--seed", type=int, default=1, help="another number, another class (1)")
    demo.set_defaults(command="demo")

    run = commands.add_parser("run", help="run a class", parents=[club])
    run.add_argument("plan", help="a plan file, or the name of a sample plan")
    run.add_argument(
        "--athletes", type=_names, metavar='"ILSE, BRAM"', help="who is here, with commas between"
    )
    run.add_argument(
        "--speed",
        type=_speed,
        default=1,
        help="how many times as fast as life, to try things out (1)",
    )
    run.set_defaults(command="run")

    new = commands.add_parser("new", help="write a new plan", parents=[club])
    new.add_argument(
        "source",
        nargs="?",
        metavar="FORMAT|PLAN|RESULTS",
        help="begin with a format, a copy of a plan, or the plan of a class that was held",
    )
    new.set_defaults(command="new")

    edit = commands.add_parser("edit", help="change a plan", parents=[club])
    edit.add_argument("plan", help="a plan file; a sample plan is edited as a copy")
    edit.set_defaults(command="edit")

    resume = commands.add_parser("resume", help="rejoin a class that was cut off", parents=[club])
    resume.add_argument("journal", nargs="?", help="its journal; the latest unless named")
    resume.set_defaults(command="resume")

    check = commands.add_parser(
        "check", help="what is wrong with a plan, and how long it is", parents=[club, as_json]
    )
    check.add_argument("plans", nargs="+", metavar="PLAN", help="plan files, or folders of them")
    check.add_argument(
        "--lanes", type=_lanes, help="how many lanes to judge the wall by (who comes, or 8)"
    )
    check.add_argument(
        "--window", type=_window, default=(120, 36), metavar="120x36", help="the terminal's size"
    )
    check.add_argument(
        "--athletes",
        type=_how_many,
        metavar='12|"ILSE, BRAM"',
        help="how many come, or who: what equipment is short, and whether the cap fits them",
    )
    check.set_defaults(command="check")

    rehearse = commands.add_parser(
        "rehearse",
        help="play a file of keys through one piece, at once, no screen",
        description="Play a file of keys through one piece of a plan: at once, with no screen, no "
        "sound and nobody there, to try a plan out or to check a count. Prints the scores.",
        parents=[club, as_json],
    )
    rehearse.add_argument("plan", help="a plan file, or the name of a sample plan")
    rehearse.add_argument(
        "--athletes",
        type=_names,
        required=True,
        metavar='"ILSE, BRAM"',
        help="whose keys these are",
    )
    rehearse.add_argument(
        "--taps", required=True, metavar="FILE", help="the file of keys, CSV: seconds,keys"
    )
    rehearse.add_argument("--segment", metavar="NAME", help="the piece; the first unless named")
    rehearse.set_defaults(command="rehearse")

    replay = commands.add_parser(
        "replay", help="work the scores out again from a journal", parents=[as_json]
    )
    replay.add_argument("journal", help="a file from the club's journals folder")
    replay.set_defaults(command="replay")

    results_of = commands.add_parser(
        "results", help="the scores of the latest class", parents=[club, as_json]
    )
    results_of.set_defaults(command="results")

    _add_strength(commands, parents=[club, as_json])
    add_book(commands, parents=[club, as_json])

    schema = commands.add_parser("schema", help="the plan file's JSON Schema")
    schema.set_defaults(command="schema")
    return top


def _add_strength(commands: Any, parents: Sequence[argparse.ArgumentParser]) -> None:
    in_unit = argparse.ArgumentParser(add_help=False)
    units = in_unit.add_mutually_exclusive_group()
    units.add_argument("--kg", dest="unit", action="store_const", const="kg", help="in kilograms")
    units.add_argument("--lb", dest="unit", action="store_const", const="lb", help="in pounds")

    bar = commands.add_parser("bar", help="which plates go on the bar", parents=[*parents, in_unit])
    bar.add_argument("total", help="what the bar is to weigh in all: 82.5, or 185lb")
    bar.add_argument("--bar", metavar="NAME", help="on this bar; the nearest fit unless named")
    bar.set_defaults(command="bar")

    load = commands.add_parser(
        "load", help="an estimated maximum, and working sets from it", parents=[*parents, in_unit]
    )
    load.add_argument("of", metavar="LOAD|ATHLETE", help="a load lifted, or who lifted")
    load.add_argument("--reps", type=int, default=1, help="for how many reps it was lifted (1)")
    load.add_argument("--lift", help="an athlete's lift, as the plan calls it")
    load.add_argument(
        "--formula",
        choices=FORMULAS,
        default="brzycki",
        help="how a maximum is estimated (brzycki)",
    )
    load.add_argument(
        "--percent", type=_percents, metavar="65,70,75", help="the working sets, in percent"
    )
    load.set_defaults(command="load")


def _club_option(default: str | None) -> argparse.ArgumentParser:
    option = argparse.ArgumentParser(add_help=False)
    option.add_argument("--club", metavar="DIR", default=default, help="the club's folder")
    return option


def _speed(text: str) -> int:
    try:
        speed = int(text)
    except ValueError:
        speed = 0
    if not 1 <= speed <= 1000:
        raise argparse.ArgumentTypeError(
            f'"{text}" is no speed: write a whole number from 1 to 1000'
        )
    return speed


def _lanes(text: str) -> int:
    if text.isdecimal() and 1 <= int(text) <= 26:
        return int(text)
    raise argparse.ArgumentTypeError(f'"{text}": write how many lanes there are, 1 to 26')


def _window(text: str) -> tuple[int, int]:
    columns, by, rows = text.partition("x")
    if by and columns.isdecimal() and rows.isdecimal() and int(columns) >= 60 and int(rows) >= 18:
        return int(columns), int(rows)
    raise argparse.ArgumentTypeError(
        f'"{text}" is no size of a window: write columns and rows, 60x18 or more, as in 120x36'
    )


def _percents(text: str) -> tuple[Decimal, ...]:
    try:
        percents = tuple(Decimal(part.strip().rstrip("%")) for part in text.split(","))
    except InvalidOperation:
        percents = ()
    if percents and all(one.is_finite() and 0 < one <= 120 for one in percents):
        return percents
    raise argparse.ArgumentTypeError(
        f'"{text}": write percentages above 0 and up to 120 with commas between, as in 65,70,75'
    )


def _how_many(written: str) -> int | tuple[str, ...]:
    number, names = written.strip(), _names(written)
    if number.isdecimal() and 1 <= int(number) <= 200:
        return int(number)
    if names and all(any(map(str.isalpha, name)) for name in names):
        return names
    raise argparse.ArgumentTypeError(
        f'"{written}": write how many come, 1 to 200, or their names with commas between'
    )


def _names(written: str) -> tuple[str, ...]:
    """Names that differ: two people of one name can't be told apart on the wall."""
    names = tuple(name.strip() for name in written.split(",") if name.strip())
    seen: set[str] = set()
    for name in names:
        if name.casefold() in seen:
            raise argparse.ArgumentTypeError(f'"{name}" is there twice: give one an initial')
        seen.add(name.casefold())
    return names
