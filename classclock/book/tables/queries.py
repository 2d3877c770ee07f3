"""What the book is asked: who is in it, what they did, their bests. Values out, no rows."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from typing import Any

from msgspec import Struct
from msgspec.json import decode
from sqlalchemy import Connection, Row, Select, func, select

from classclock.book.people_ids import entry_said, is_of, said_in
from classclock.book.tables.applying import rules_in
from classclock.book.tables.opening import asking_room
from classclock.book.tables.schema import athletes, bests, classes, results, seen
from classclock.records.bests import outdone_by
from classclock.records.result import Result, Terms
from classclock.records.written_terms import options_key
from classclock.tally.lanes import Mark
from classclock.units.names import name_key
from classclock.units.searching import folded


class Athlete(Struct, frozen=True):
    """Somebody in the book. Days are as in 2026-11-24, empty before the first class."""

    id: str
    """Of one of the asking room's people; of somebody else `ROOM/ID`."""
    name: str
    key: str
    marks: tuple[Mark, ...]
    classes: int
    first_day: str
    last_day: str

    @property
    def off_the_wall(self) -> bool:
        """Whether they keep loads, rank and bests off the wall, and off what others see."""
        return "off the wall" in self.marks


class Best(Struct, frozen=True, gc=False):
    """An athlete's best on a benchmark under some terms."""

    result: Result
    times: int
    """How often they did it so."""
    last_moment: int
    """When they last did it so."""


def all_athletes(connection: Connection) -> tuple[Athlete, ...]:
    """Everybody, of all rooms, in the order of their names; of one name the room's own first."""
    room = asking_room(connection)
    found = (_athlete(room, row) for row in connection.execute(select(athletes)))
    return tuple(sorted(found, key=_in_a_list))


def _in_a_list(one: Athlete) -> tuple[str, str, bool, str]:
    """Accents decide only between names that are equal without: Łucja stands among the L."""
    return (folded(one.name), name_key(one.name), "/" in one.id, one.id)


def find(connection: Connection, who: str) -> tuple[Athlete, ...]:
    """Those called so, however it is spelled (`name_key`). An id finds its own.

    A name means the asking room's people; those of other rooms only where nobody here has it.
    """
    room, wanted = asking_room(connection), name_key(who)
    entry = entry_said(room, who)
    meant = [
        _athlete(room, row)
        for row in connection.execute(select(athletes)).all()
        if row.athlete == entry or name_key(row.name) == wanted
    ]
    if with_id := tuple(one for one in meant if one.id == who):
        return with_id
    called = tuple(sorted(meant, key=_in_a_list))
    own = {one.id for _, one in own_people(connection)} if len(called) > 1 else set()
    return tuple(one for one in called if one.id in own) or called


def recorded_names(connection: Connection, of: Collection[str]) -> dict[str, str]:
    """How those of these ids were last called who were ever recorded: merged entries apart."""
    room, rules = asking_room(connection), rules_in(connection)
    meant = {entry_said(room, one) for one in of}
    # There is an index of athletes, and none of whom classes recorded.
    theirs = seen.c.athlete.in_({rules.athlete(entry) for entry in meant})
    asked = select(seen.c.person, seen.c.name).where(theirs, seen.c.person.in_(meant))
    found = connection.execute(asked.order_by(seen.c.moment, seen.c.class_key))
    return {said_in(room, row.person): row.name for row in found}


def namesakes(connection: Connection, athlete: Athlete) -> tuple[Athlete, ...]:
    """Others of the same name, in whatever room: nothing says that they are the same person."""
    name = name_key(athlete.name)
    called = (one for one in all_athletes(connection) if name_key(one.name) == name)
    return tuple(one for one in called if one.id != athlete.id)


def recorded_twice(connection: Connection) -> tuple[tuple[Athlete, ...], ...]:
    """The asking room's people of one name, however it is spelled; who came most often first."""
    by_name: defaultdict[str, list[Athlete]] = defaultdict(list)
    for _, one in own_people(connection):
        by_name[name_key(one.name)].append(one)
    groups = (group for group in by_name.values() if len(group) > 1)
    return tuple(tuple(sorted(group, key=lambda one: (-one.classes, one.id))) for group in groups)


def own_people(connection: Connection) -> tuple[tuple[str, Athlete], ...]:
    """The athletes whom the asking room knows, each with the id by which its classes know them."""
    room, rules = asking_room(connection), rules_in(connection)
    merged = {kept for gone, kept in rules.aliases.items() if is_of(room, gone)}
    entries = ((entry_said(room, one.id), one) for one in all_athletes(connection))
    return tuple(
        (rules.known_in(room, entry), one)
        for entry, one in entries
        if is_of(room, entry) or entry in merged
    )


def own_names(connection: Connection, but: Collection[str]) -> frozenset[str]:
    """All names under which the asking room recorded somebody, of entries other than these."""
    ours = seen.c.person.startswith(f"{asking_room(connection)}/", autoescape=True)
    asked = select(seen.c.name).where(ours, seen.c.person.not_in(but)).distinct()
    return frozenset(connection.execute(asked).scalars())


def _athlete(room: str, row: Row[Any]) -> Athlete:
    entry, name, key, marks, *came = tuple(row)
    return Athlete(said_in(room, entry), name, key, tuple(decode(marks)), *came)


def best_rows(
    connection: Connection, of: Collection[str] | None = None
) -> dict[tuple[str, str], tuple[Best, ...]]:
    """Bests by athlete's id and benchmark, the terms used last first; of some, or everybody."""
    room = asking_room(connection)
    asked = select(*(bests.c[name] for name in _BEST))
    if of is not None:
        asked = asked.where(bests.c.athlete.in_(_entries(room, of)))
    found: defaultdict[tuple[str, str], list[Best]] = defaultdict(list)
    known: dict[str, str] = {}
    # Taken apart by place, and fetched at once: a club's chart has thousands of these.
    for (
        athlete,
        benchmark,
        piece,
        day,
        moment,
        score,
        kind,
        worth,
        reps,
        written,
        modification,
        loads,
        work,
        team,
        times,
        last,
    ) in connection.execute(asked).all():
        who = known.get(athlete) or known.setdefault(athlete, said_in(room, athlete))
        result = Result(
            who,
            piece,
            benchmark,
            day,
            moment,
            score,
            kind,
            worth,
            reps,
            Terms(modification, loads, work, team),
            written=written,
        )
        found[who, benchmark].append(Best(result, times, last))
    return {
        key: tuple(sorted(_in_one_line(group), key=last_used_first)) for key, group in found.items()
    }


def _in_one_line(group: list[Best]) -> Iterable[Best]:
    """The bests under lengths apart, what a time for finished work outdoes counted to that one."""
    if len(group) == 1 or group[0].result.kind != "time":
        return group
    kept = {best.result: best for best in group}
    for best in group:
        if (better := outdone_by(best.result, kept)) is not None:
            del kept[best.result]
            onto = kept[better]
            last = max(onto.last_moment, best.last_moment)
            kept[better] = Best(better, onto.times + best.times, last)
    return kept.values()


_BEST = (
    *("athlete", "benchmark", "name", "day", "moment", "score", "kind", "worth", "total_reps"),
    *("written", "modification", "loads", "work", "team", "times", "last_moment"),
)


def last_used_first(best: Best) -> tuple[Any, ...]:
    """By what bests of one benchmark are put in order."""
    terms = best.result.terms
    return (-best.last_moment, terms.modification, terms.loads, terms.work, terms.team)


def history(
    connection: Connection, of: Collection[str], benchmarks: Collection[str]
) -> dict[tuple[str, str], tuple[Result, ...]]:
    """All results by athlete's id and benchmark, the earliest first."""
    room = asking_room(connection)
    theirs = results.c.athlete.in_(_entries(room, of))
    asked = select(results).where(theirs, results.c.benchmark.in_(benchmarks))
    found: dict[tuple[str, str], list[Result]] = {}
    for row in connection.execute(_in_order(asked)):
        result = result_of(room, row)
        found.setdefault((result.athlete, result.benchmark), []).append(result)
    return {key: tuple(group) for key, group in found.items()}


def _in_order(asked: Select[Any]) -> Select[Any]:
    place = (results.c.class_key, results.c.piece, results.c.lane, results.c.person)
    return asked.order_by(results.c.moment, *place)


def _entries(room: str, of: Collection[str]) -> list[str]:
    return [entry_said(room, one) for one in of]


def result_of(room: str, row: Row[Any]) -> Result:
    """A row of the results as a value, for who asks in this room."""
    return Result(
        athlete=said_in(room, row.athlete),
        piece=row.name,
        benchmark=row.benchmark,
        day=row.day,
        moment=row.moment,
        score=row.score,
        kind=row.kind,
        worth=row.worth,
        total_reps=row.total_reps,
        terms=Terms(row.modification, row.loads, row.work, row.team),
        why_not=row.why_not,
        splits=tuple(decode(row.splits)),
        round_reps=tuple(decode(row.round_reps)),
        written=row.written,
    )


def days_attended(connection: Connection, athlete: str, since: str) -> tuple[str, ...]:
    """The day of each class that somebody came to, from this day on."""
    theirs = seen.c.athlete == entry_said(asking_room(connection), athlete)
    asked = select(seen.c.day).where(theirs, seen.c.came, seen.c.day >= since)
    return tuple(row.day for row in connection.execute(asked.order_by(seen.c.day)))


def usual_modifications(
    connection: Connection, athlete: str, since: str
) -> tuple[tuple[str, int], ...]:
    """What somebody modified since that day, and how often: the most usual first."""
    asked = (
        select(results.c.modification, func.count().label("times"))
        .where(results.c.athlete == entry_said(asking_room(connection), athlete))
        .where(results.c.day >= since)
        .where(results.c.modification != "")
        .group_by(results.c.modification)
    )
    spelled: defaultdict[str, list[tuple[int, str]]] = defaultdict(list)
    for row in connection.execute(asked):
        spelled[options_key(row.modification)].append((row.times, row.modification))
    # Of several spellings the one used most.
    found = [(max(each)[1], sum(times for times, _ in each)) for each in spelled.values()]
    return tuple(sorted(found, key=lambda one: (-one[1], one[0])))


def last_options(
    connection: Connection, since: int
) -> dict[str, Mapping[str, tuple[str | None, ...]]]:
    """By athlete's id and piece, for each station their own option used last; None is as written.

    `since` is the moment from which classes are looked at, in milliseconds since 1970.
    """
    recent = select(classes.c.class_key).where(classes.c.moment >= since)
    asked = (
        select(results.c.athlete, results.c.called, results.c.own_options)
        .where(results.c.class_key.in_(recent))
        .order_by(results.c.moment.desc(), results.c.lane)
    )
    latest: dict[tuple[str, str], str] = {}
    for athlete, called, options in connection.execute(asked):
        latest.setdefault((athlete, called), options)
    found: defaultdict[str, dict[str, tuple[str | None, ...]]] = defaultdict(dict)
    room = asking_room(connection)
    for (athlete, called), options in latest.items():
        found[said_in(room, athlete)][called] = tuple(decode(options))
    return dict(found)
