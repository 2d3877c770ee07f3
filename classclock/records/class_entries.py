"""What a results document says of each athlete: who came, what they did, what they lifted."""

from collections.abc import Iterator, Sequence
from datetime import datetime
from decimal import Decimal

from msgspec import Struct
from msgspec.structs import replace

from classclock.plan.amounts import rep_words
from classclock.plan.model import FORMATS
from classclock.records.attempts import kilograms, reps_of_set, standing_attempts
from classclock.records.document import LaneResults, PieceResults, ResultsDocument, known
from classclock.records.result import (
    PROVISIONAL,
    Result,
    ScoreKind,
    Terms,
    finish_worth,
    load_worth,
    rounds_worth,
)
from classclock.records.written_terms import NOT_SAID
from classclock.tally.signs import SIGNS
from classclock.units.names import name_key, tidy_name
from classclock.units.times import show_time

_MOST_DIGITS = 9
"""Of the reps of a piece."""


class PersonSeen(Struct, frozen=True):
    """Somebody as they were called in one class."""

    id: str
    name: str
    key: str
    effort: int | None = None
    """How hard the class was, 0 to 10, where they said so."""
    here_s: int | None = None
    """How long it lasted for them, where that is known."""


class Lift(Struct, frozen=True):
    """A load tried in a set, as the settled score leaves it."""

    athlete: str
    lift: str
    reps: int | None
    """How many the set had; None where the plan doesn't say."""
    load: str
    load_kg: Decimal
    made: bool
    settled: bool
    """Whether it is in the book for good: a provisional one may still be a slip of the fingers."""
    counts: bool
    """Whether loads to come may be reckoned from it: made alone, as written, and settled."""
    written: str
    """The lift as the plan has it; empty where it names none."""


class PieceEntry(Struct, frozen=True):
    """One athlete in one piece. Piece and lane count from 0 in the document."""

    piece: int
    lane: int
    result: Result
    called: str
    """What the athlete's options in this piece are remembered by."""
    rank: int | None
    status: str
    note: str
    options: tuple[str | None, ...]
    own_options: tuple[str | None, ...]
    """What they are remembered by: without those taken only for want of equipment."""
    start_station: int
    lifts: tuple[Lift, ...]


class ClassEntry(Struct, frozen=True):
    """One class. `journal` tells it from every other of the same club's folder."""

    journal: str
    title: str
    started: str
    day: str
    moment: int
    people: tuple[PersonSeen, ...]
    entries: tuple[PieceEntry, ...]
    visitors: int
    """How many came without a name."""


def read_class(document: ResultsDocument) -> ClassEntry:
    """What a results document says of everybody who has a name and hasn't been erased."""
    started = document.started
    moment = int(datetime.fromisoformat(started).timestamp() * 1000)
    people = tuple(
        PersonSeen(
            person.id,
            person.name,
            person.key,
            known(person.effort, None),
            known(person.here_s, None),
        )
        for person in document.people
        if person.in_the_book
    )
    here = {person.id for person in people}
    entries = tuple(
        entry
        for number, piece in enumerate(document.pieces)
        for entry in _piece_entries(number, piece, started[:10], moment + number, here)
    )
    visitors = sum(1 for person in document.people if known(person.visitor, otherwise=False))
    return ClassEntry(
        document.journal, document.title, started, started[:10], moment, people, entries, visitors
    )


def benchmark_key(name: str | None) -> str:
    """A benchmark's name as it is compared: as names are, case and spaces make no difference."""
    return name_key(name or "")


def _piece_entries(
    number: int, piece: PieceResults, day: str, moment: int, here: set[str]
) -> Iterator[PieceEntry]:
    lift = known(piece.lift, None)
    written = tidy_name(piece.benchmark or lift or "")
    benchmark = benchmark_key(written)
    called = benchmark_key(piece.benchmark or piece.name)
    settled, length = piece.status == "settled", length_words(known(piece.length_s, None))
    for place, lane in enumerate(piece.lanes):
        if lane.status == "absent":
            continue
        kind, worth = _worth(piece, lane)
        work = _set_words(piece, lane) if kind == "load" else length
        terms = Terms(lane.modification, load_words(known(lane.loads, ())), work, len(lane.members))
        why_not = _why_not(lane, settled=settled)
        for member in lane.members:
            if member not in here:
                continue
            result = Result(
                athlete=member,
                piece=piece.name,
                benchmark=benchmark,
                day=day,
                moment=moment,
                score=lane.score,
                kind=kind,
                worth=worth,
                total_reps=lane.total_reps,
                terms=terms,
                why_not=why_not,
                splits=lane.splits,
                round_reps=known(lane.round_reps, ()),
                written=written,
            )
            yield PieceEntry(
                number,
                place,
                result,
                called,
                lane.rank,
                lane.status,
                lane.note,
                lane.options,
                lane.remembered_options,
                lane.start_station,
                tuple(_lifts(piece, lane, member)) if kind == "load" else (),
            )


def _why_not(lane: LaneResults, *, settled: bool) -> str:
    if not settled:
        return PROVISIONAL
    if lane.late:
        return "came late"
    if lane.status == "stopped":
        return SIGNS["stopped"].word
    if known(lane.option_changed_s, None) is not None:
        return "option changed in the middle"
    if known(lane.portion, ""):
        return "less than the whole piece"
    return "" if lane.rank is not None else "no score"


def _worth(piece: PieceResults, lane: LaneResults) -> tuple[ScoreKind, int | None]:
    form, load = FORMATS.get(piece.format), lane.load_kg
    rounds_are = "none" if form is None else form.about.rounds
    if rounds_are == "set":
        seconds = lane.time_s
        return "time", lane.total_reps if seconds is None else finish_worth(seconds)
    if rounds_are == "open":
        rounds, odd = lane.rounds, lane.reps
        return "rounds", None if rounds is None or odd is None else rounds_worth(rounds, odd)
    if load is not None or lane.attempts or known(piece.lift, None):
        return "load", None if load is None else load_worth(Decimal(str(load)))
    # What an interval piece is scored by stands in the score alone: `14 reps` by any rule.
    reps = lane.score.partition(" ")[0]
    return "reps", int(reps) if reps.isdecimal() and len(reps) <= _MOST_DIGITS else None


def load_words(loads: Sequence[str]) -> str:
    """The loads used, station by station; one that wasn't said leaves the whole unsaid."""
    return NOT_SAID if NOT_SAID in loads else " / ".join(loads)


def length_words(seconds: int | None) -> str:
    return NOT_SAID if seconds is None else show_time(seconds * 1000)


def _set_words(piece: PieceResults, lane: LaneResults) -> str:
    """How many reps the set had in which the heaviest load was made."""
    for attempt in lane.attempts:
        if attempt.made and attempt.load_kg == lane.load_kg:
            reps = reps_of_set(known(piece.sets, ()), attempt.set)
            return NOT_SAID if reps is None else rep_words(reps)
    return NOT_SAID


def _lifts(piece: PieceResults, lane: LaneResults, member: str) -> Iterator[Lift]:
    written = known(piece.lift, None) or ""
    lift = benchmark_key(written or piece.benchmark or piece.name)
    settled = piece.status == "settled"
    alone = len(lane.members) == 1 and not lane.modification
    counts = settled and alone and bool(written) and bool(lane.load_kg)
    for attempt in standing_attempts(lane):
        if attempt.load_kg is not None:
            yield Lift(
                member,
                lift,
                reps_of_set(known(piece.sets, ()), attempt.set),
                attempt.load or "",
                kilograms(attempt),
                attempt.made,
                settled,
                counts and attempt.made and attempt.load is not None,
                written,
            )


def sets_of(entry: PieceEntry) -> tuple[Result, ...]:
    """Of a lift every set that was made, as a result of its own: the score is one of them."""
    result = entry.result
    return tuple(
        replace(
            result,
            score=one.load,
            worth=load_worth(one.load_kg),
            terms=replace(result.terms, work=rep_words(one.reps)),
        )
        for one in entry.lifts
        if one.made and one.settled and one.reps is not None
    )
