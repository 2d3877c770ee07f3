"""The heaviest sets of each number of reps, as the book keeps them."""

from collections import defaultdict
from collections.abc import Collection

from sqlalchemy import Connection, select

from classclock.book.people_ids import entry_said, said_in
from classclock.book.tables.opening import asking_room
from classclock.book.tables.schema import set_bests
from classclock.plan.amounts import rep_words
from classclock.records.result import Result, Terms


def heaviest_sets(
    connection: Connection, of: Collection[str] | None = None
) -> dict[tuple[str, str], tuple[Result, ...]]:
    """By athlete's id and benchmark the heaviest of each number of reps; of some, or everybody."""
    room = asking_room(connection)
    asked = select(*(set_bests.c[name] for name in _SET))
    if of is not None:
        asked = asked.where(set_bests.c.athlete.in_([entry_said(room, one) for one in of]))
    found: defaultdict[tuple[str, str], list[Result]] = defaultdict(list)
    for athlete, benchmark, name, written, load, worth, day, moment, *rest in connection.execute(
        asked
    ):
        reps, modification, loads, team = rest
        who, terms = said_in(room, athlete), Terms(modification, loads, rep_words(reps), team)
        made = Result(
            *(who, name, benchmark, day, moment, load, "load", worth, None, terms), written=written
        )
        found[who, benchmark].append(made)
    return {key: tuple(sets) for key, sets in found.items()}


_SET = (
    *("athlete", "benchmark", "name", "written", "load", "worth", "day", "moment"),
    *("reps", "modification", "loads", "team"),
)
