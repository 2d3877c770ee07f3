"""`effort`: how hard a class was for somebody, said or put right after it; or what they said."""

import argparse
from collections.abc import Sequence
from datetime import date

from classclock.book.changing import write_down
from classclock.book.files.changes import EffortGiven
from classclock.book.people_ids import is_of, said_in
from classclock.book.tables.efforts_said import classes_felt
from classclock.book.tables.opening import asking_room
from classclock.book.tables.queries import Athlete
from classclock.clock.source import local_now
from classclock.commands.shared.book import asked_book, the_one
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import OK, BadUseError
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.printing import print_answer, print_json
from classclock.machine.standard_streams import say
from classclock.records.bests import long_day
from classclock.records.effort_weeks import ClassFelt
from classclock.tally.effort.effort_scale import HARDEST, scale_words
from classclock.units.printable import printable

_EFFORTS = {str(number): number for number in range(HARDEST + 1)}
_NONE_GIVEN = "nothing said yet"
_LATEST = 10
"""So many classes are listed, the newest first."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    parser.add_argument("name", help="who, by the name in the book")
    said = parser.add_mutually_exclusive_group()
    said.add_argument("effort", nargs="?", help=f"their own word for it: {scale_words()}")
    said.add_argument("--drop", action="store_true", help="what they said isn't kept any more")
    parser.add_argument(
        "--day", metavar="DATE", help="the class of that day, as in 2026-11-24; else their latest"
    )


def do(asked: argparse.Namespace) -> int:
    folder, _ = asked_club(asked)
    effort, day = _effort(asked.effort), _day(asked.day)
    with asked_book(folder) as book:
        with book.reading() as connection:
            athlete, room = the_one(connection, asked.name), asking_room(connection)
            came = [
                one
                for one in classes_felt(connection, athlete.id, day or "")
                if day in (None, one.day)
            ]
        if effort is None and not asked.drop:
            return _tell(athlete, came, as_json=asked.json)
        meant = _meant(athlete, room, came, day)
        _, _, journal = meant.class_key.partition("/")
        given = EffortGiven(journal=journal, athlete=said_in(room, meant.person), effort=effort)
        write_down(folder, [given], local_now())
    values = {"athlete": athlete.id, "day": meant.day, "class": meant.title, "effort": effort}
    print_answer(values, _words(athlete, meant, effort), as_json=asked.json)
    return OK


def _effort(written: str | None) -> int | None:
    if written is not None and written not in _EFFORTS:
        raise BadUseError(f"how hard it was is a whole number from 0 to {HARDEST}: {scale_words()}")
    return None if written is None else _EFFORTS[written]


def _day(written: str | None) -> str | None:
    try:
        return None if written is None else date.fromisoformat(written).isoformat()
    except ValueError:
        raise BadUseError("a day is written as in 2026-11-24") from None


def _meant(athlete: Athlete, room: str, came: Sequence[ClassFelt], day: str | None) -> ClassFelt:
    """The latest of these classes that this room held; what was imported stays as it came."""
    ours = [one for one in came if is_of(room, one.class_key) and one.class_key.count("/") == 1]
    if not ours:
        when = f"on {long_day(day)}" if day else "yet"
        raise BadUseError(
            f"{athlete.name} was in no class here {when}: classclock effort {athlete.name!r} lists "
            "theirs"
        )
    return ours[-1]


def _words(athlete: Athlete, meant: ClassFelt, effort: int | None) -> str:
    which = f"{printable(meant.title)}, {long_day(meant.day)}"
    undo = "classclock book undo takes it back."
    if effort is None:
        return f"{athlete.name}, {which}: not kept any more; {undo}"
    minutes = "" if meant.here_s is not None else "; that class's minutes aren't known"
    return f"{athlete.name}, {which}: {effort}{minutes}; {undo}"


def _tell(athlete: Athlete, came: Sequence[ClassFelt], *, as_json: bool) -> int:
    latest = came[: -_LATEST - 1 : -1]
    if as_json:
        print_json([_values(one) for one in latest])
    else:
        lines = [_line(one) for one in latest]
        say(*lines or [f"{athlete.name} was in no class yet"])
    return OK


def _values(one: ClassFelt) -> dict[str, object]:
    return {
        "day": one.day,
        "class": one.title,
        "effort": one.effort,
        "here_s": one.here_s,
        "effort_minutes": one.effort_minutes,
    }


def _line(one: ClassFelt) -> str:
    felt = _NONE_GIVEN if one.effort is None else f"{one.effort} of {HARDEST}"
    minutes = "" if one.effort_minutes is None else f", {one.effort_minutes} effort minutes"
    return f"{one.day}  {printable(one.title) or 'imported'}: {felt}{minutes}"
