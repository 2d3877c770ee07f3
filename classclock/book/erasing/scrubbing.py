"""Taking one person out of journals and results, so that everybody else's stay as they were.

Pure: values in, values out. What is rewritten is fields that hold people; a plan stays as it is,
and so does text that happens to be the same. A lane stays where it was, as nobody's, so that a
journal still replays to the ranks that the others had.
"""

import json
from collections.abc import Collection, Iterator, Sequence
from typing import Any, Literal, NamedTuple

from msgspec import UNSET, Struct
from msgspec.structs import replace

from classclock.book.erasing.name_finding import NOBODY, NameFinder
from classclock.book.erasing.plan_without import lines_naming, plan_without
from classclock.records.document import LaneResults, PieceResults, ResultsDocument
from classclock.tally import events as ev
from classclock.tally.signs import SIGNS

_IDS = ("id", "lane", "members", "person_id", "groups", "partners")
"""Whose values in a journal are people's ids; a lane's is its first member's."""
_CORRECTED = f"{SIGNS['corrected'].word}: "
"""Behind it stands the reason in a score's note; all else in it is ours."""

TextKind = Literal["note", "emergency", "reason", "flag", "plan", "file name"]
_KINDS: dict[str, TextKind] = {
    ev.Noted.__name__: "note",
    ev.EmergencyNoted.__name__: "emergency",
    ev.FlagAcknowledged.__name__: "flag",
}
"""What the text of an event is, by its name; of any other that has some it is a reason."""


class FreeText(NamedTuple):
    """Words that somebody wrote, in which a name stands: nobody can know whether it is theirs."""

    kind: TextKind
    text: str
    """All of a note; of a plan the line."""


def texts_in_note(note: str, named: NameFinder) -> Iterator[FreeText]:
    """The reason in a score's note, if a name stands in it."""
    _, _, reason = note.partition(_CORRECTED)
    if named.stands_in(reason):
        yield FreeText("reason", reason)


def note_without(note: str, named: NameFinder, stays: Collection[str] = ()) -> str:
    """A score's note without the name in its reason."""
    ours, sign, reason = note.partition(_CORRECTED)
    return f"{ours}{sign}{words_without(reason, named, stays)}"


def words_without(text: str, named: NameFinder, stays: Collection[str]) -> str:
    """What somebody wrote, unless the coach keeps it; in results more may stand behind it."""
    return text if any(map(text.startswith, stays)) else named.without(text)


class Scrub(Struct, frozen=True):
    """Who is to be taken out: every id and name they were recorded under."""

    ids: frozenset[str]
    named: NameFinder
    token: str
    """The id that stands in their place; it begins as `records.erased.ERASED` says."""
    stays: frozenset[str] = frozenset()
    """Texts that keep the name."""
    goes: frozenset[str] = frozenset()
    """Lines of plans that lose it."""

    def recorded_in(self, text: str) -> bool:
        """Whether journals or results, as JSON without escapes, hold one of their ids."""
        return any(json.dumps(ident, ensure_ascii=False) in text for ident in self.ids)

    def may_be_in(self, text: str) -> bool:
        """Whether a text that nobody can take apart may speak of them."""
        return self.recorded_in(text) or self.named.stands_in(text)

    def results(self, document: ResultsDocument) -> ResultsDocument:
        """A results document without them; keys that no version knows are left out too."""
        return replace(
            document,
            title=self._planned(document.title),
            people=tuple(person for person in document.people if person.id not in self.ids),
            pieces=tuple(self._piece(piece) for piece in document.pieces),
        )

    def event(self, line: dict[str, Any]) -> dict[str, Any]:
        """A journal's line without them; of a note about them nothing stays."""
        kept = {key: self._field(key, value) for key, value in line.items()}
        if _is_note_about(line, self.ids):
            kept["text"] = NOBODY
        if line.get("event") == ev.EffortSaid.__name__ and line.get("person_id") in self.ids:
            kept["effort"] = None
        return kept

    # -- what is only found ----------------------------------------------------------

    def texts_in_event(self, line: dict[str, Any]) -> Iterator[FreeText]:
        """The free texts of a journal's line in which a name stands; not of what is about them."""
        if line.get("person_id") in self.ids:
            return
        kind = _KINDS.get(str(line.get("event")), "reason")
        for key in ("text", "reason"):
            if isinstance(text := line.get(key), str) and self.named.stands_in(text):
                yield FreeText(kind, text)
        for key in ("plan_text", "stop"):
            if isinstance(text := line.get(key), str):
                yield from self._plan_lines(text)

    def texts_in_results(self, document: ResultsDocument) -> Iterator[FreeText]:
        """The same of results."""
        for piece in document.pieces:
            for lane in piece.lanes:
                yield from texts_in_note(lane.note, self.named)

    def texts_in_plan(self, text: str) -> Iterator[FreeText]:
        return self._plan_lines(text)

    def names_in_event(self, line: dict[str, Any]) -> Iterator[str]:
        """How they are called in a journal's line."""
        for value in line.values():
            yield from self._names_in(value)

    # -- inside ------------------------------------------------------------------

    def _plan_lines(self, text: str) -> Iterator[FreeText]:
        return (FreeText("plan", line) for line in lines_naming(text, self.named))

    def _names_in(self, value: Any) -> Iterator[str]:
        match value:
            case {"id": str(ident), "name": str(name)} if ident in self.ids:
                if "members" not in value:
                    yield name
            case dict():
                for part in value.values():
                    yield from self._names_in(part)
            case list():
                for part in value:
                    yield from self._names_in(part)

    def _field(self, key: str, value: Any) -> Any:
        match value:
            case dict():
                return self._record(value)
            case list():
                return [self._field(key, part) for part in value]
            case str() if key in _IDS:
                return self._id(value)
            case str() if key in ("reason", "text"):
                return words_without(value, self.named, self.stays)
            case str() if key == "stop":
                return self._planned(value)
            case str() if key == "plan_text":
                return plan_without(value, self.named, self.goes) if self.goes else value
        return value

    def _record(self, record: dict[str, Any]) -> dict[str, Any]:
        """A person, a lane or a place in a journal: some have an id, some a name, some members."""
        kept = {key: self._field(key, part) for key, part in record.items()}
        if "name" in record and "members" in record:
            kept["name"] = self._lane_name(record["name"], record["members"])
        elif record.get("id") in self.ids:
            kept["name"] = NOBODY
            kept.pop("marks", None)
        return kept

    def _piece(self, piece: PieceResults) -> PieceResults:
        caution = piece.caution
        if caution is not UNSET:
            caution = tuple(self._planned(line) for line in caution)
        lanes = tuple(self._lane(lane) for lane in piece.lanes)
        return replace(piece, caution=caution, lanes=lanes)

    def _lane(self, lane: LaneResults) -> LaneResults:
        partners = lane.partners
        if partners is not UNSET:
            partners = tuple(self._id(partner) for partner in partners)
        return replace(
            lane,
            athlete=self._lane_name(lane.athlete, lane.members),
            members=tuple(self._id(member) for member in lane.members),
            partners=partners,
            note=note_without(lane.note, self.named, self.stays),
        )

    def _lane_name(self, name: str, members: Sequence[str]) -> str:
        if not self.ids & set(members):
            return name
        parts = name.split(" + ")
        if len(parts) != len(members):
            return NOBODY
        pairs = zip(parts, members, strict=True)
        return " + ".join(NOBODY if member in self.ids else part for part, member in pairs)

    def _id(self, ident: str) -> str:
        return self.token if ident in self.ids else ident

    def _planned(self, text: str) -> str:
        """Words of a plan outside it: they go with the line in which they stand there."""
        return self.named.without(text) if any(text in line for line in self.goes) else text


def _is_note_about(line: dict[str, Any], ids: frozenset[str]) -> bool:
    return line.get("event") == ev.Noted.__name__ and line.get("person_id") in ids
