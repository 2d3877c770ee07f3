"""Every key of a plan: what it takes, in words, with an example that can be copied.

What one format alone has stands with it (`formats/`).
"""

from typing import Literal, get_args, get_origin

from classclock.plan.file_key import COUNT, LINES, LOAD, TEXT, TIME, YES, FileKey
from classclock.plan.formats.counting import Count
from classclock.plan.model import FORMATS


def choices(form: str, key: str) -> tuple[str, ...]:
    """The words among which a key chooses in this format; none where the format hasn't it."""
    field = FORMATS[form].model_fields.get(key)
    if field is None:
        return ()
    parts = (field.annotation, *get_args(field.annotation))
    return next((get_args(part) for part in parts if get_origin(part) is Literal), ())


def _ways_to_score() -> str:
    ways = {form: choices(form, "score") for form in FORMATS}
    said = [f"{form}: {', '.join(words)}" for form, words in ways.items() if words]
    return "; ".join((*said, "empty: not scored"))


KEYS: dict[str, FileKey] = {
    "title": FileKey(TEXT, '"Tuesday"', "what the board calls this class"),
    "date": FileKey("a date", "2026-03-31", "year-month-day, as in 2026-03-31", "date"),
    "notes": FileKey(LINES, '["bring chalk"]', "for the coach; a semicolon between two", "lines"),
    "segment": FileKey("a list of segments", "[[segment]]"),
    "name": FileKey(TEXT, '"Turntable"', "what the board calls this part"),
    "format": FileKey(
        f"one of {', '.join(FORMATS)}",
        '"rounds-in-time"',
        ", ".join(FORMATS),
        choices=tuple(FORMATS),
    ),
    "benchmark": FileKey(
        TEXT, '"turntable"', "one name for a piece that comes back, to compare scores"
    ),
    "lines": FileKey(
        LINES,
        '["easy row", "arm circles"]',
        "what the room reads; a semicolon between two",
        "lines",
    ),
    "caution": FileKey(
        LINES,
        '["Step down from the box."]',
        "what to take care of, read out before the start; a semicolon between two",
        "lines",
    ),
    "count_in": FileKey("a time from 0:03 to 10:00", '"0:10"', "0:03 to 10:00; 0:10 unless set"),
    "cues": FileKey(
        "cues to switch off",
        "{ halfway = false }",
        "cues to switch off: halfway off; last_minute off",
        "cues",
    ),
    "station": FileKey("a list of stations", "[[segment.station]]"),
    "teams": FileKey("a whole number from 2 to 12", "2", "how many share a key: 2"),
    "separate": FileKey(YES, "true", "yes or no: rank as-written and modified apart"),
    "lift": FileKey(TEXT, '"front squat"', "whose maximum the percentages are of: front squat"),
    "sets": FileKey(
        "a list of sets",
        "[{ reps = 5, percent = 70 }]",
        "5 at 60%; 3 at 70%; 3 at 60 kg",
        "sets",
    ),
    "load": FileKey(
        LOAD, '"22.5 kg"', "22.5 kg, or several: heavier 22.5 kg; lighter 15 kg", "load"
    ),
    "time": FileKey(TIME, '"16:00"', "minutes:seconds, as in 16:00"),
    "score": FileKey("one of the format's ways to score", '"load"', _ways_to_score()),
    "count": FileKey(
        f"one of {', '.join(get_args(Count))}",
        '"station"',
        "what a key counts: round, station; finish in a capped piece",
        choices=get_args(Count),
    ),
    "movement": FileKey(TEXT, '"box step-over"', "the first letters propose movements"),
    "standard": FileKey(TEXT, '"both feet on the box"', "what makes a rep count"),
    "points": FileKey(LINES, '["chest up", "whole foot on the box"]'),
    "options": FileKey(
        "a list of options",
        '["lower box", { name = "step-up", reps = 4 }]',
        "easier or safer; a semicolon between two: lower box; step-up",
        "lines",
    ),
    "keep_load": FileKey(YES, "false"),
    "order": FileKey(COUNT, "1"),
    "from_library": FileKey(YES, "true"),
    "reps": FileKey(COUNT, "12"),
    "metres": FileKey(COUNT, "400"),
    "calories": FileKey(COUNT, "15"),
    "seconds": FileKey(COUNT, "30"),
    "climb": FileKey("its first reps and the step from round to round", "{ first = 4, step = 4 }"),
    "first": FileKey(COUNT, "4"),
    "step": FileKey(COUNT, "4"),
    "counts": FileKey(
        "a whole number from 0 to 100000",
        "10",
        "how many reps it counts for, where it has metres or seconds: 10",
    ),
    "percent": FileKey("a number above 0 and up to 120", "70"),
    **{key: words for form in FORMATS.values() for key, words in form.about.keys.items()},
}

CUE = FileKey(YES, "false")
"""The keys within `cues`; some of them have the name of another key elsewhere."""


def assignment(key: str, value: str | None = None) -> str:
    """Show how a key is written, with this value (TOML) or with its example."""
    example = value if value is not None else KEYS[key].example if key in KEYS else '"…"'
    return example if example.startswith("[[") else f"{key} = {example}"
