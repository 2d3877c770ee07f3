"""Taking one person out of journals and results, so that everybody else's stay as they were.

Pure: values in, values out. A lane stays where it was, as nobody's, so that a journal still replays
to the ranks that the others had.
"""

import json
import re
from collections.abc import Sequence
from typing import Any

from msgspec import UNSET, Struct
from msgspec.structs import replace

from classclock.book.erasing.plan_without import plan_without
from classclock.records.document import LaneResults, PieceResults, ResultsDocument
from classclock.tally.events import Noted
from classclock.units.names import names_pattern

_IDS = ("id", "lane", "members", "person_id", "groups", "partners")
"""Whose values in a journal are people's ids; a lane's is its first member's."""
_FREE_TEXT = ("reason", "stop", "text")
NOBODY = "erased"


class Scrub(Struct, frozen=True):
    """Who is to be taken out: every id and name they were recorded under."""

    ids: frozenset[str]
    names: frozenset[str]
    token: str
    """The id that stands in their place; it begins as `changes.ERASED` says."""

    def recorded_in(self, text: str) -> bool:
        """Whether journals or results, as JSON without escapes, hold one of their ids."""
        return any(json.dumps(ident, ensure_ascii=False) in text for ident in self.ids)

    def may_be_in(self, text: str) -> bool:
        """Whether a text that nobody can take apart may speak of them."""
        return self.recorded_in(text) or self.named_in(text)

    def named_in(self, text: str) -> bool:
        named = self._pattern()
        return named is not None and named.search(text) is not None

    def results(self, document: ResultsDocument) -> ResultsDocument:
        """A results document without them; keys that no version knows are left out too."""
        return replace(
            document,
            title=self._words(document.title),
            people=tuple(person for person in document.people if person.id not in self.ids),
            pieces=tuple(self._piece(piece) for piece in document.pieces),
        )

    def event(self, line: dict[str, Any]) -> dict[str, Any]:
        """A journal's line without them; of a note about them nothing stays."""
        kept = {key: self._field(key, value) for key, value in line.items()}
        if line.get("event") == Noted.__name__ and line.get("person_id") in self.ids:
            kept["text"] = NOBODY
        return kept

    # -- inside ------------------------------------------------------------------

    def _field(self, key: str, value: Any) -> Any:
        match value:
            case dict():
                return self._record(value)
            case list():
                return [self._field(key, part) for part in value]
            case str() if key in _IDS:
                return self._id(value)
            case str() if key in _FREE_TEXT:
                return self._words(value)
            case str() if key == "plan_text":
                named = self._pattern()
                return plan_without(value, named, NOBODY) if named is not None else value
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
            caution = tuple(self._words(line) for line in caution)
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
            note=self._words(lane.note),
            best_before=None if lane.best_before is None else self._words(lane.best_before),
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

    def _words(self, text: str) -> str:
        named = self._pattern()
        return named.sub(NOBODY, text) if named is not None else text

    def _pattern(self) -> re.Pattern[str] | None:
        """Their names as whole words, the longest first: `Noor B` before `Noor`."""
        return names_pattern(self.names)
