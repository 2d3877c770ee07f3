"""Taking one person out of journals and results, so that everybody else's stay as they were.

Pure: values in, values out. A lane stays where it was, as nobody's, so that a journal still replays
to the ranks that the others had.
"""

import json
import re
import tomllib
from collections.abc import Sequence
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from classclock.records.document import LaneResults, ResultsDocument

_FREE_TEXT = ("reason", "text")
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

    def named_in(self, text: str) -> bool:
        named = self._pattern()
        return named is not None and named.search(text) is not None

    def results(self, document: ResultsDocument) -> ResultsDocument:
        """A results document without them."""
        people = tuple(person for person in document.people if person.id not in self.ids)
        pieces = tuple(
            replace(piece, lanes=tuple(self._lane(lane) for lane in piece.lanes))
            for piece in document.pieces
        )
        return replace(document, people=people, pieces=pieces)

    def event(self, line: dict[str, Any]) -> dict[str, Any]:
        """A journal's line without them."""
        return {key: self._field(key, value) for key, value in line.items()}

    # -- inside ------------------------------------------------------------------

    def _field(self, key: str, value: Any) -> Any:
        match value:
            case dict() if "members" in value:
                return self._drawn_lane(value)
            case dict() if value.get("id") in self.ids:
                kept = {name: part for name, part in value.items() if name != "marks"}
                return {**kept, "id": self.token, "name": NOBODY}
            case dict():
                return {name: self._field(name, part) for name, part in value.items()}
            case list():
                return [self._field(key, part) for part in value]
            case str() if key in ("lane", "person_id"):
                return self._id(value)
            case str() if key in _FREE_TEXT:
                return self._words(value)
            case str() if key == "plan_text":
                return self._plan(value)
        return value

    def _drawn_lane(self, lane: dict[str, Any]) -> dict[str, Any]:
        """A lane as it stood at the start, in a journal."""
        name = self._lane_name(lane["name"], lane["members"])
        members = [self._id(member) for member in lane["members"]]
        return {**lane, "id": self._id(lane["id"]), "name": name, "members": members}

    def _lane(self, lane: LaneResults) -> LaneResults:
        return replace(
            lane,
            athlete=self._lane_name(lane.athlete, lane.members),
            members=tuple(self._id(member) for member in lane.members),
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

    def _plan(self, text: str) -> str:
        """The plan's own words, unless it couldn't be read any more."""
        changed = self._words(text)
        try:
            tomllib.loads(changed)
        except tomllib.TOMLDecodeError:
            return text
        return changed

    def _words(self, text: str) -> str:
        named = self._pattern()
        return named.sub(NOBODY, text) if named is not None else text

    def _pattern(self) -> re.Pattern[str] | None:
        """Their names as whole words, the longest first: `Noor B` before `Noor`."""
        names = sorted((name for name in self.names if name.strip()), key=len, reverse=True)
        if not names:
            return None
        either = "|".join(re.escape(name) for name in names)
        return re.compile(rf"(?<!\w)(?:{either})(?!\w)", re.IGNORECASE)
