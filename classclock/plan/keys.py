"""Every key of a plan: what it takes, in words, with an example that can be copied."""

from difflib import get_close_matches
from typing import get_args

from msgspec import Struct

from classclock.plan.model import Format


class Key(Struct, frozen=True):
    """A key; `example` is TOML."""

    takes: str
    example: str

    @property
    def is_text(self) -> bool:
        """Whether any words in quotes would do, so that a value can be kept as it was meant."""
        return self.takes == _TEXT or self.takes.startswith("one of")


FORMATS: tuple[str, ...] = get_args(Format)

_TEXT = "text"
_TIME = "a time above 0:00"
_LINES = "text, or a list of texts"
_COUNT = "a whole number from 1 to 100000"
_YES = "true or false"
_LOAD = "a load"
_STATIONS = "a list of stations"

KEYS: dict[str, Key] = {
    "title": Key(_TEXT, '"Tuesday"'),
    "date": Key("a date", "2026-03-31"),
    "notes": Key(_LINES, '["bring chalk"]'),
    "segment": Key("a list of segments", "[[segment]]"),
    "name": Key(_TEXT, '"Turntable"'),
    "format": Key(f"one of {', '.join(FORMATS)}", '"rounds-in-time"'),
    "benchmark": Key(_TEXT, '"turntable"'),
    "lines": Key(_LINES, '["easy row", "arm circles"]'),
    "caution": Key(_LINES, '["Step down from the box."]'),
    "count_in": Key("a time from 0:03 to 10:00", '"0:10"'),
    "cues": Key("cues to switch off", "{ halfway = false }"),
    "station": Key(_STATIONS, "[[segment.station]]"),
    "teams": Key("a whole number from 2 to 12", "2"),
    "separate": Key(_YES, "true"),
    "lift": Key(_TEXT, '"front squat"'),
    "sets": Key("a list of sets", "[{ reps = 5, percent = 70 }]"),
    "load": Key(_LOAD, '"22.5 kg"'),
    "time": Key(_TIME, '"16:00"'),
    "score": Key("one of the format's ways to score", '"load"'),
    "repeat": Key("a whole number from 1 to 200", "8"),
    "steps": Key("a list of 1 to 60 steps", '[{ work = "0:20" }, { rest = "0:10" }]'),
    "keep_last_rest": Key(_YES, "true"),
    "direction": Key("one of down, up", '"up"'),
    "count": Key("one of round, station, finish", '"station"'),
    "tie_break": Key(_YES, "true"),
    "cap": Key(_TIME, '"12:00"'),
    "rounds": Key("a whole number from 1 to 200", "3"),
    "scheme": Key("a list of 1 to 60 whole numbers", "[18, 12, 6]"),
    "movement": Key(_TEXT, '"box step-over"'),
    "standard": Key(_TEXT, '"both feet on the box"'),
    "points": Key(_LINES, '["chest up", "whole foot on the box"]'),
    "options": Key("a list of options", '["lower box", { name = "step-up", reps = 4 }]'),
    "keep_load": Key(_YES, "false"),
    "reps": Key(_COUNT, "12"),
    "metres": Key(_COUNT, "400"),
    "calories": Key(_COUNT, "15"),
    "seconds": Key(_COUNT, "30"),
    "climb": Key("its first reps and the step from round to round", "{ first = 4, step = 4 }"),
    "first": Key(_COUNT, "4"),
    "step": Key(_COUNT, "4"),
    "counts": Key("a whole number from 0 to 100000", "10"),
    "work": Key(_TIME, '"0:20"'),
    "rest": Key(_TIME, '"0:10"'),
    "label": Key(_TEXT, '"hard"'),
    "stations": Key("a list of movements", '["plank hold"]'),
    "percent": Key("a number above 0 and up to 120", "70"),
}

CUE = Key(_YES, "false")
"""The keys within `cues`; some of them have the name of another key elsewhere."""


def nearest(written: str, known: tuple[str, ...]) -> str | None:
    """Find what was meant, if anything is near enough."""
    matches = get_close_matches(written.lower(), known, n=1, cutoff=0.6)
    return matches[0] if matches else None


def assignment(key: str, value: str | None = None) -> str:
    """Show how a key is written, with this value (TOML) or with its example."""
    example = value if value is not None else KEYS[key].example if key in KEYS else '"…"'
    return example if example.startswith("[[") else f"{key} = {example}"
