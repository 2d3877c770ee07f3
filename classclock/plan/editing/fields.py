"""What a coach can set on each part of a plan, in the order in which a person writes it."""

from msgspec import Struct

from classclock.plan.amounts import AMOUNTS
from classclock.plan.editing.parts import Part
from classclock.plan.editing.values import amount_typed, as_typed
from classclock.plan.keys import FORMATS


class Field(Struct, frozen=True):
    key: str
    typed: str
    """Its value as it would be typed; empty where the plan doesn't set it."""
    hint: str


_HINTS = {
    "title": "what the board calls this class",
    "date": "year-month-day, as in 2026-03-31",
    "notes": "for the coach; a semicolon between two",
    "name": "what the board calls this part",
    "format": ", ".join(FORMATS),
    "time": "minutes:seconds, as in 16:00",
    "cap": "minutes:seconds, as in 12:00",
    "repeat": "how often the steps are gone through: 8",
    "steps": "work 0:20; rest 0:10   (words behind the time are its label)",
    "keep_last_rest": "yes or no: whether the last rest is waited for",
    "score": "countdown: load, reps; interval: total, lowest, best, load; empty: not scored",
    "direction": "down or up",
    "count": "what a key counts: round, station; finish in a capped piece",
    "tie_break": "yes or no: of equal totals, who did the last full round first is ahead",
    "rounds": "how many rounds: 3",
    "scheme": "reps from round to round: 18-12-6",
    "benchmark": "one name for a piece that comes back, to compare scores",
    "lines": "what the room reads; a semicolon between two",
    "caution": "what to take care of, read out before the start; a semicolon between two",
    "lift": "whose maximum the percentages are of: front squat",
    "sets": "5 at 60%; 3 at 70%; 3 at 60 kg",
    "load": "22.5 kg, or several: heavier 22.5 kg; lighter 15 kg",
    "count_in": "0:03 to 10:00; 0:10 unless set",
    "teams": "how many share a key: 2",
    "separate": "yes or no: rank as-written and modified apart",
    "cues": "cues to switch off: halfway off; last_minute off",
    "movement": "the first letters propose movements",
    "amount": "12, 400 m, 15 cal, 0:30, or from round to round 4, 8, 12",
    "standard": "what makes a rep count",
    "options": "easier or safer; a semicolon between two: lower box; step-up",
    "counts": "how many reps it counts for, where it has metres or seconds: 10",
}
_CLOCK = {
    "countdown": ("time", "score"),
    "interval": ("repeat", "steps", "score", "keep_last_rest"),
    "rounds-in-time": ("time", "direction", "count", "tie_break"),
    "capped-for-time": ("cap", "rounds", "scheme", "count"),
}
_REST = (
    "lines",
    "caution",
    "benchmark",
    "lift",
    "sets",
    "load",
    "count_in",
    "teams",
    "separate",
    "notes",
    "cues",
)
_LATE = ("benchmark", "caution")
_PLAN = ("title", "date", "notes")
_STATION = ("movement", "amount", "load", "standard", "options", "counts")
ORDER: dict[str, tuple[str, ...]] = {
    "plan": _PLAN,
    "segment": (
        "name",
        "benchmark",
        "format",
        *dict.fromkeys(key for keys in _CLOCK.values() for key in keys if key != "score"),
        *(key for key in _REST if key not in _LATE),
        "score",
        "caution",
    ),
    "station": ("movement", *AMOUNTS, "counts", "load", "standard", "options"),
}
"""The keys of each kind of part as they follow each other in a file."""


def fields_of(part: Part) -> tuple[Field, ...]:
    """What can be set on the part, and last whatever else stands in it."""
    keys = _keys(part)
    listed = {*keys, *(AMOUNTS if part.kind == "station" else ())}
    more = (pair.key for pair in part.pairs if pair.key not in listed)
    return tuple(Field(key, typed_at(part, key), _HINTS.get(key, "")) for key in (*keys, *more))


def typed_at(part: Part, key: str) -> str:
    """The value of a key as it would be typed."""
    if key == "amount":
        given = [pair for pair in part.pairs if pair.key in AMOUNTS]
        return amount_typed(given[0].key, given[0].source) if given else ""
    pair = part.pair(key)
    return "" if pair is None else as_typed(key, pair.source)


def _keys(part: Part) -> tuple[str, ...]:
    if part.kind == "plan":
        return _PLAN
    if part.kind == "station":
        return _STATION
    return ("name", "format", *_CLOCK.get(typed_at(part, "format"), ("time",)), *_REST)
