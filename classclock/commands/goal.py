"""`goal`: what somebody works towards: set, listed, dropped."""

import argparse
from collections.abc import Sequence

from classclock.book.entering import put_in
from classclock.book.files.goal_lines import GoalDropped
from classclock.book.goals.reading import GoalAsked, GoalRead, GoalRefusedError, read_goal
from classclock.book.goals.standing import goals_now
from classclock.book.tables.opening import Book
from classclock.book.tables.queries import Athlete
from classclock.clock.source import local_now
from classclock.commands.shared.asking import can_ask, choose
from classclock.commands.shared.book import asked_book, say_if_not_yet, the_one
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import OK, BadUseError, FindingsError
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.printing import print_answer, print_json
from classclock.machine.standard_streams import say
from classclock.records.goals import GoalStands
from classclock.report.goal_words import asked_words, goal_values, none_better_words
from classclock.units.printable import printable
from classclock.units.spelling import plain_words

_EXAMPLE = "14, 7+12, 8:31, 112 reps, 85 kg, 70 kg x 3"
_UNDO = "classclock book undo takes it back."


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    parser.add_argument("name", help="who, by the name in the book; alone it lists their goals")
    parser.add_argument("benchmark", nargs="?", help="on which benchmark or lift")
    parser.add_argument("score", nargs="*", help=f"what they work towards: {_EXAMPLE}")
    parser.add_argument("--by", metavar="DATE", help="until when, as in 2027-03-01")
    parser.add_argument("--option", metavar='"STEP-UP"', help="with this; else as written")
    parser.add_argument("--load", metavar='"15 KG"', help="with this; else as they last did it")
    parser.add_argument("--length", metavar="16:00", help="in this time; else as they last did it")
    parser.add_argument("--anyway", action="store_true", help="though their best is as good")
    parser.add_argument("--drop", action="store_true", help="end the goal on that benchmark")


def do(asked: argparse.Namespace) -> int:
    folder, _ = asked_club(asked)
    _look_at_use(asked)
    with asked_book(folder, whole=asked.benchmark is not None) as book:
        with book.reading() as connection:
            athlete = the_one(connection, asked.name)
            now = goals_now(connection, local_now().date(), [athlete.id]).get(athlete.id, ())
        stands = [one.stands for one in now]
        if asked.benchmark is None:
            return _tell(athlete, stands, as_json=asked.json)
        if asked.drop:
            return _drop(book, athlete, stands, asked)
        return _set(book, athlete, stands, asked)


def _look_at_use(asked: argparse.Namespace) -> None:
    """Raises BadUseError: what is typed doesn't go together."""
    terms = (asked.by, asked.option, asked.load, asked.length)
    said = any(one is not None for one in terms) or asked.anyway
    if asked.benchmark is None and (said or asked.drop):
        raise BadUseError(f"say on which benchmark: classclock goal {asked.name!r} turntable 14")
    if asked.drop and (said or asked.score):
        raise BadUseError("--drop needs the benchmark alone: leave the rest out")
    if asked.benchmark is not None and not asked.drop and not asked.score:
        raise BadUseError(f"write the score behind {printable(asked.benchmark)}, as in {_EXAMPLE}")


def _tell(athlete: Athlete, stands: Sequence[GoalStands], *, as_json: bool) -> int:
    if as_json:
        print_json([goal_values(one) for one in stands])
        return OK
    lines = [printable(f"{asked_words(one.goal)}: {one.far_words()}", 300) for one in stands]
    none = f"{athlete.name} has no goal yet: classclock goal {athlete.name!r} turntable 14 sets one"
    say(*lines or [none])
    return OK


def _drop(
    book: Book, athlete: Athlete, stands: Sequence[GoalStands], asked: argparse.Namespace
) -> int:
    plain = plain_words(asked.benchmark)
    meant = next((one.goal for one in stands if plain_words(one.goal.benchmark) == plain), None)
    if meant is None:
        has = ", ".join(one.goal.written for one in stands) or "none"
        raise BadUseError(
            f"{athlete.name} has no goal on {printable(asked.benchmark)}: there is "
            f"{printable(has, 200)}"
        )
    day = local_now().date().isoformat()
    done = put_in(
        book,
        [GoalDropped(athlete=athlete.id, benchmark=meant.written, day=day)],
        local_now(),
    )
    print_answer(
        {"athlete": athlete.id, "benchmark": meant.benchmark, "dropped": True},
        printable(f"{athlete.name}: {meant.written} {meant.score} is dropped; {_UNDO}", 300),
        as_json=asked.json,
    )
    say_if_not_yet(done.why_not_yet)
    return OK


def _set(
    book: Book, athlete: Athlete, stands: Sequence[GoalStands], asked: argparse.Namespace
) -> int:
    read = _read(book, athlete, asked)
    if read.best is not None and not asked.anyway:
        _ask(none_better_words(athlete.name, read.goal, read.best), asked)
    done = put_in(book, [read.line], local_now())
    former = next((one.goal for one in stands if one.goal.benchmark == read.goal.benchmark), None)
    instead = "" if former is None else f", in place of {former.score}"
    words = f"{athlete.name}: {asked_words(read.goal)}{instead}; {_UNDO}"
    print_answer(
        {"athlete": athlete.id, **goal_values(read.stands)},
        printable(words, 300),
        as_json=asked.json,
    )
    say_if_not_yet(done.why_not_yet)
    return OK


def _read(book: Book, athlete: Athlete, asked: argparse.Namespace) -> GoalRead:
    folder, club = asked_club(asked)
    goal = GoalAsked(
        benchmark=asked.benchmark,
        score=" ".join(asked.score),
        by=asked.by,
        option=asked.option,
        loads=asked.load,
        length=asked.length,
    )
    today = local_now().date()
    try:
        with book.reading() as connection:
            return read_goal(connection, folder, athlete, goal, unit=club.unit, today=today)
    except GoalRefusedError as error:
        raise BadUseError(str(error)) from None


def _ask(words: str, asked: argparse.Namespace) -> None:
    """Raises FindingsError: it isn't to be set, or nobody can be asked."""
    if asked.json or not can_ask():
        raise FindingsError(f"{words}: --anyway sets it all the same")
    if choose(f"{words}. Set it all the same?", ("set it", "leave it")):
        raise FindingsError("Left: nothing was changed.")
