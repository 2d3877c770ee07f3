"""Who is here between two pieces, as the room may see it: what each does in the piece to come.

Of marks there is a neutral sign, and no more: the TV may mirror the screen.
"""

from collections.abc import Iterator

from msgspec import Struct
from msgspec.structs import replace

from classclock.live.live_class import LiveClass
from classclock.planning.modifiable import Modifiable, piece_to_come
from classclock.tally.class_lineup import all_heats, partners_now
from classclock.tally.counting.portion_words import portion_in
from classclock.tally.lanes import Mark, Person
from classclock.tally.piece import Piece
from classclock.tally.record import ClassRecord, RunKey
from classclock.units.loads import shown
from classclock.units.printable import printable
from classclock.units.times import show_time
from classclock.wall.kept_off import DASH, MARKED

_LONGEST = 80


class HerePerson(Struct, frozen=True):
    id: str
    name: str
    key: str
    gone: bool = False
    marks: tuple[Mark, ...] = ()
    """For the coach's own screen alone."""
    words: str = ""
    """What stands behind the name."""


class HereContent(Struct, frozen=True):
    people: tuple[HerePerson, ...]
    piece: Modifiable | None
    """In which the options and the loads are chosen; None where nothing is left to choose."""
    clock: str
    """That it is held, and where; empty where no clock is held."""

    @property
    def count(self) -> str:
        """`12 here, 1 has left`."""
        gone = sum(person.gone for person in self.people)
        left = f", {gone} {'has' if gone == 1 else 'have'} left" if gone else ""
        return f"{len(self.people) - gone} here{left}"


def here_content(live: LiveClass) -> HereContent:
    """Everybody who came, in the order in which they did."""
    piece = piece_to_come(live.record)
    to_come = _ToCome(live, piece) if piece is not None else None
    people = tuple(_person(live.record, one, to_come) for one in live.record.people)
    return HereContent(people, piece, _clock(live))


def _clock(live: LiveClass) -> str:
    sheet, now = live.record.sheet, live.clock.now()
    if sheet is None or live.record.phase(now) != "held":
        return ""
    return f"held at {show_time(sheet.elapsed(now))}"


def _person(record: ClassRecord, person: Person, to_come: "_ToCome | None") -> HerePerson:
    gone = person.id in record.left
    words = ["has left"] if gone else [*to_come.words(person)] if to_come is not None else []
    sign = MARKED if person.marks else ""
    said = printable(", ".join(words), _LONGEST)
    return HerePerson(
        person.id,
        person.name,
        person.key,
        gone=gone,
        marks=person.marks,
        words=" ".join(filter(None, (sign, said))),
    )


class _ToCome:
    """What each would do in the piece to come, as things stand."""

    def __init__(self, live: LiveClass, piece: Modifiable) -> None:
        record = live.record
        attempt = record.attempts.get(piece.index, 1)
        board = replace(record, chosen=RunKey(piece.index, attempt))
        lanes = all_heats(board, live.loads)
        bars = partners_now(board, lanes)
        self._piece, self._record = piece, board
        self._lanes = {member: lane for lane in lanes for member in lane.members}
        self._together = {one: lane.members for one, lane in self._lanes.items()}
        self._together |= {one: bar for bar in bars for one in bar}

    def words(self, person: Person) -> Iterator[str]:
        """Options, loads, and who it is done with."""
        choice = self._record.choice(person.id, self._piece.index)
        yield from self._piece.option_names(choice)
        yield from portion_in(self._piece.segment, choice)
        if choice.load:
            yield DASH if person.off_the_wall else choice.load
        if self._piece.by_load:
            yield self._load(person)
        names = {one.id: one.name for one in self._record.people}
        together = self._together.get(person.id, ())
        if others := [names[one] for one in together if one != person.id]:
            yield f"with {' and '.join(others)}"

    def _load(self, person: Person) -> str:
        """That of the first set."""
        lane = self._lanes.get(person.id)
        piece = Piece.of(self._piece.segment, self._record.unit)
        planned = piece.planned_load(lane, 1) if lane is not None else None
        if planned is None:
            return "no load yet"
        return DASH if person.off_the_wall else shown(planned)
