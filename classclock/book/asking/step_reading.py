"""Reading from the book how people's scores with their options stood beside the others'."""

import json
from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from functools import partial
from pathlib import Path
from typing import Any

from msgspec import Struct, field
from sqlalchemy import ColumnElement, Connection, Row, String, and_, cast, func, or_, select

from classclock.book.asking.known_people import piece_name
from classclock.book.files.changes_file import ChangesDamagedError
from classclock.book.people_ids import entry_said
from classclock.book.tables.applying import athletes_now
from classclock.book.tables.book_error import BookError
from classclock.book.tables.keeping import caught_up
from classclock.book.tables.opening import OpensBook, asking_room
from classclock.book.tables.schema import results
from classclock.plan.model import Plan, Segment
from classclock.planning.next_steps import Used
from classclock.records.result import finish_of
from classclock.units.spelling import fold
from classclock.units.times import parse_time

_HALF_A_YEAR = 182 * 24 * 60 * 60 * 1000
"""Milliseconds: options that were used before that tell nothing of today."""
_WHERE = ("class_key", "piece", "lane")
_OWN = ("athlete", "moment", "called", "own_options", "kind", "worth", "total_reps", "work")


class StepQuestion(Struct, frozen=True):
    people: Collection[str]
    """Their ids, as the class knows them."""
    plan: Plan
    began: int
    """When the class begins, in milliseconds since 1970."""
    enough: int
    """After so many scores like the others' somebody is named; 0 names nobody."""

    @property
    def most(self) -> int:
        """So many scores of each person are looked at, the latest: two options may have enough."""
        return 2 * self.enough


class OwnUse(Struct, frozen=True):
    """One of somebody's scores, with what they modified."""

    called: str
    """What its piece is remembered by."""
    options: tuple[str | None, ...]
    """For each station the option's name, folded; None is as written."""
    used: Used


class Uses(Struct, frozen=True):
    """What these people did with options lately, the latest first, by their ids."""

    own: Mapping[str, tuple[OwnUse, ...]] = field(default_factory=dict)

    def of(self, ident: str, segment: Segment, place: int, option: int) -> tuple[Used, ...]:
        """Somebody's scores with an option, in whatever piece; as written, in this one alone.

        The book knows an option by its name, and not which movement it stood in for.
        """
        own = self.own.get(ident, ())
        if option:
            name = fold(segment.station[place].options[option - 1].name)
            return tuple(one.used for one in own if name in one.options)
        called, stations = piece_name(segment), len(segment.station)
        same = (one for one in own if one.called == called and len(one.options) == stations)
        return tuple(one.used for one in same if one.options[place] is None)


def uses_for(folder: Path, asked: StepQuestion, opened: OpensBook = caught_up) -> Uses:
    """What the club's book says; nothing where it can't be asked, or nothing can be modified.

    Loads sqlalchemy, and takes its time: for a thread.
    """
    offers = any(one.options for one in _stations(asked.plan))
    if not (asked.people and asked.enough and offers):
        return Uses()
    try:
        with opened(folder) as book, book.reading() as connection:
            return read_uses(connection, asked)
    except (BookError, ChangesDamagedError, OSError):
        return Uses()  # whoever asks the book for anything else says what is wrong


def read_uses(connection: Connection, asked: StepQuestion) -> Uses:
    """The same of a book that is open: in one query, each score beside all others of its piece."""
    room = asking_room(connection)
    now = athletes_now(connection, asked.people)
    entry_of = {person: entry_said(room, athlete) for person, athlete in now.items()}
    own = (
        select(
            *(results.c[name] for name in (*_WHERE, *_OWN)),
            func.row_number()
            .over(partition_by=results.c.athlete, order_by=results.c.moment.desc())
            .label("latest"),
        )
        .where(
            results.c.athlete.in_(set(entry_of.values())),
            results.c.moment < asked.began,
            results.c.moment >= asked.began - _HALF_A_YEAR,
            _tells(),
            _of_the_plan(asked.plan),
        )
        .subquery()
    )
    others = and_(
        results.c.class_key == own.c.class_key,
        results.c.piece == own.c.piece,
        results.c.lane != own.c.lane,
        _tells(),
    )
    # One row for each score, and not for each pair: a row costs more than what is in it.
    done = _text(results.c.total_reps) + ":" + _text(results.c.worth)
    columns: list[Any] = [own.c[name] for name in (*_WHERE, *_OWN)]
    rows = connection.execute(
        select(*(*columns, func.aggregate_strings(done, ",").label("others")))
        .select_from(own.outerjoin(results, others))
        .where(own.c.latest <= asked.most)
        .group_by(*columns)
        .order_by(own.c.moment.desc())
    )
    found: defaultdict[str, list[OwnUse]] = defaultdict(list)
    for row in rows.all():
        if (use := _use(row)) is not None:
            found[row.athlete].append(use)
    return Uses({person: tuple(found.get(entry, ())) for person, entry in entry_of.items()})


def _use(row: Row[Any]) -> OwnUse | None:
    """None where the score tells no pace."""
    pace = partial(_pace, kind=row.kind, work=row.work)
    own = pace(row.total_reps, row.worth)
    if own is None:
        return None
    pairs = (pair.partition(":") for pair in (row.others or "").split(",") if pair)
    every = (pace(_number(total), _number(worth)) for total, _, worth in pairs)
    others = tuple(sorted(one for one in every if one is not None))
    options = tuple(name and fold(name) for name in json.loads(row.own_options))
    return OwnUse(row.called, options, Used(own, others))


def _text(column: ColumnElement[Any]) -> ColumnElement[str]:
    return func.coalesce(cast(column, String), "")


def _number(text: str) -> int | None:
    return int(text) if text else None


def _tells() -> ColumnElement[bool]:
    """A score that stands, of one athlete who did all of the piece; no lift."""
    kinds = results.c.kind.in_(("rounds", "time", "reps"))
    return and_(kinds, results.c.why_not == "", results.c.team == 1)


def _of_the_plan(plan: Plan) -> ColumnElement[bool]:
    """Scores with an option that the plan offers, or on one of its pieces."""
    names = {option.name for station in _stations(plan) for option in station.options}
    used = func.lower(results.c.own_options)  # JSON in ASCII, as `dumps` writes it
    quoted = (json.dumps(name).lower() for name in sorted(names))
    pieces = {piece_name(segment) for segment in plan.segment}
    has = (used.contains(one, autoescape=True) for one in quoted)
    return or_(results.c.called.in_(pieces), *has)


def _stations(plan: Plan) -> Iterable[Any]:
    return (station for segment in plan.segment for station in segment.station)


def _pace(total: int | None, worth: int | None, *, kind: str, work: str) -> float | None:
    """Reps a second, or so much of one piece a second where it counts none."""
    reps = total if total is not None else worth
    if kind != "time":
        return None if reps is None else float(reps)  # all of a class had the same time
    seconds = finish_of(worth) if worth is not None else None
    if seconds is not None:
        return (total or 1) / seconds if seconds else None
    try:
        cap = parse_time(work) / 1000
    except ValueError:
        return None
    return total / cap if total and cap else None
