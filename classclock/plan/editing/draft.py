"""A plan being written: its text now, every text that it had before, and what they come to."""

from functools import cached_property

from classclock.plan.editing.parts import HEAD, Part, PartPlace, parts_of
from classclock.plan.findings import Finding
from classclock.plan.formats.timelines import timeline
from classclock.plan.model import Plan
from classclock.plan.movements.library import Library
from classclock.plan.outline import SegmentOutline, outline
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.reading.syntax import read_toml
from classclock.units.loads import Unit

_ALONE = "alone"


class DraftReading:
    """What a text says: its parts, its findings, its sums. Worked out when asked for."""

    def __init__(self, text: str, name: str, unit: Unit, library: Library | None) -> None:
        self.text, self._name, self._unit = text, name, unit
        self.plan, self.findings = parse_plan(text, name, unit, library)

    @cached_property
    def parts(self) -> tuple[Part, ...]:
        return parts_of(self.text)

    @cached_property
    def segments(self) -> tuple[SegmentOutline | None, ...]:
        """Each segment's sums; None where a fault in it leaves none."""
        if self.plan is not None:
            return outline(self.plan).segments
        listed = read_toml(self.text).values.get("segment")
        return tuple(map(self._outlined, listed if isinstance(listed, list) else []))

    def _outlined(self, values: object) -> SegmentOutline | None:
        try:
            plan = Plan.model_validate(
                {"title": _ALONE, "segment": [values]}, context={"unit": self._unit}
            )
            timeline(plan.segment[0])
            return outline(plan).segments[0]
        except (ValueError, TypeError):  # its findings say why
            return None

    @property
    def length_ms(self) -> int:
        """What all segments take with their count-ins, as far as it can be told."""
        return sum(one.length_ms + one.count_in_ms for one in self.segments if one is not None)

    @property
    def whole(self) -> bool:
        """Whether every segment's length is known."""
        return all(self.segments)

    def part(self, place: PartPlace) -> Part:
        return next((part for part in self.parts if part.place == place), self.parts[0])

    def findings_at(self, place: PartPlace) -> tuple[Finding, ...]:
        """The findings in the rows of that part; those of the file as a whole stand at its head."""
        part = self.part(place)
        return tuple(one for one in self.findings if part.start <= max(0, one.line - 1) < part.end)


class Draft:
    """The text that is edited. Every edit can be taken back, to the first text."""

    def __init__(
        self, text: str, *, name: str = "plan", unit: Unit = "kg", library: Library | None = None
    ) -> None:
        """`name` is what the findings call it."""
        self._name, self._unit, self._library = name, unit, library
        self._before: list[tuple[str, PartPlace]] = []
        self.place: PartPlace = HEAD
        self.reading = self._read(text)

    @property
    def text(self) -> str:
        return self.reading.text

    @property
    def changed(self) -> bool:
        """Whether there is an edit to take back."""
        return bool(self._before)

    def change(self, text: str, place: PartPlace | None = None) -> bool:
        """Set the text, and where the coach is then; whether anything changed."""
        if text == self.text:
            return False
        self._before.append((self.text, self.place))
        self.reading = self._read(text)
        self.go(self.place if place is None else place)
        return True

    def take_back(self) -> bool:
        """Go back to the text before the last edit, and to where the coach was."""
        if not self._before:
            return False
        text, place = self._before.pop()
        self.reading = self._read(text)
        self.go(place)
        return True

    def go(self, place: PartPlace) -> None:
        """Stand at that part, or at the nearest before it."""
        places = [part.place for part in self.reading.parts]
        self.place = max((one for one in places if one <= place), default=HEAD)

    def step(self, by: int) -> None:
        """Stand so many parts further on, or back."""
        places = [part.place for part in self.reading.parts]
        at = places.index(self.place) + by
        self.place = places[max(0, min(at, len(places) - 1))]

    def _read(self, text: str) -> DraftReading:
        return DraftReading(text, self._name, self._unit, self._library)
