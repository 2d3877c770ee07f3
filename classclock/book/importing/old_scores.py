"""A score as a club's older records have it: `7+12`, `8:31`, `112 reps`, `85 kg`, `185 lb`."""

import re

from msgspec import Struct

from classclock.records.result import ScoreKind, finish_worth, load_worth, rounds_worth
from classclock.tally.scores.score_parts import whole_seconds
from classclock.units.loads import Unit, parse_load
from classclock.units.times import parse_time, show_time

_ROUNDS = re.compile(r"(\d{1,3})\s*(?:\+\s*(\d{1,4})|rounds?)", re.ASCII | re.IGNORECASE)
_REPS = re.compile(r"(\d{1,6})\s*reps?", re.ASCII | re.IGNORECASE)
_BARE = re.compile(r"\d{1,6}(?:[.,]\d{1,3})?", re.ASCII)
_WRITE = {
    "rounds": "rounds and odd reps, as in 7+12",
    "time": "a time, as in 8:31, or the reps at the cap, as in 112 reps",
    "reps": "the reps, as in 112 reps",
    "load": "the load, as in 85 kg or 185 lb",
}


class OldScore(Struct, frozen=True):
    """What was written, as this project writes it, and what it is worth."""

    kind: ScoreKind
    worth: int
    score: str


def read_old_score(written: str, unit: Unit, kind: ScoreKind | None) -> OldScore:
    """Read a score. `kind` is how the benchmark is scored, where that is known.

    A bare number is reps or a load only if the benchmark says which; a load is then in the club's
    `unit`.

    Raises:
        ValueError: it is no score, or none of this kind; `str` says what to write.
    """
    text = written.strip()
    read = _any(text, unit, kind)
    if read is None:
        wanted = _WRITE[kind] if kind else "a score, as in 7+12, 8:31, 112 reps or 85 kg"
        raise ValueError(f"Write {wanted}")
    if kind == "time" and read.kind == "reps":
        return OldScore("time", read.worth, read.score)
    if kind is not None and read.kind != kind:
        raise ValueError(f"This benchmark has other scores: write {_WRITE[kind]}")
    return read


def _any(text: str, unit: Unit, kind: ScoreKind | None) -> OldScore | None:
    if match := _ROUNDS.fullmatch(text):
        rounds, odd = int(match[1]), int(match[2] or 0)
        return OldScore("rounds", rounds_worth(rounds, odd), f"{rounds}+{odd}")
    if match := _REPS.fullmatch(text):
        return OldScore("reps", int(match[1]), f"{int(match[1])} reps")
    if ":" in text:
        return _time(text)
    if _BARE.fullmatch(text):
        if kind == "load":
            return _load(text, unit)
        whole = text.isdecimal() and kind in ("reps", "time")
        return OldScore("reps", int(text), f"{int(text)} reps") if whole else None
    return _load(text, unit)


def _time(text: str) -> OldScore | None:
    try:
        seconds = whole_seconds(parse_time(text))
    except ValueError:
        return None
    return OldScore("time", finish_worth(seconds), show_time(seconds * 1000)) if seconds else None


def _load(text: str, unit: Unit) -> OldScore | None:
    try:
        load = parse_load(text, unit)
    except ValueError:
        return None
    return OldScore("load", load_worth(load.kg), str(load))
