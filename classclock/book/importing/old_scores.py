"""A score as a club's older records have it: `7+12 reps`, `12'03`, `723 s`, `85 kg`, `185 lb`.

A number that may mean several things has several readings: which is meant is asked.
"""

import re
from collections.abc import Mapping
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from classclock.plan.amounts import rep_words
from classclock.records.result import ScoreKind, finish_worth, load_worth, rounds_worth
from classclock.records.written_terms import read_load
from classclock.tally.scores.score_parts import whole_seconds
from classclock.units.loads import Unit
from classclock.units.times import parse_time, show_time

_ROUNDS = re.compile(
    r"(\d{1,3})\s*(?:rounds?|rds?|r)?\s*(?:\+|and)\s*(\d{1,4})\s*(?:reps?)?"
    r"|(\d{1,3})\s*(?:rounds?|rds?)(?:[\s,]*(\d{1,4})\s*(?:reps?)?)?",
    re.ASCII | re.IGNORECASE,
)
_REPS = re.compile(r"(\d{1,6})\s*(?:reps?|x)", re.ASCII | re.IGNORECASE)
_OF_A_SECOND = r"([0-5]?\d)(?:[.,](\d{1,3}))?\s*(?:\"|''|\u2033|\u201d|s|secs?|seconds?)?"
# An m alone is metres as likely: it is minutes only where seconds follow.
_MINUTES = re.compile(
    r"(?:(\d{1,2})\s*(?:h|hours?|hrs?)\s*)?(\d{1,3})\s*"
    rf"(?:m\s*(?=\d)|'|\u2032|\u2019|mins?|minutes?)\s*(?:{_OF_A_SECOND})?",
    re.ASCII | re.IGNORECASE,
)
_SECONDS = re.compile(
    r"(\d{1,5})(?:[.,](\d{1,3}))?\s*(?:\"|''|\u2033|\u201d|s|secs?|seconds?)",
    re.ASCII | re.IGNORECASE,
)
TIME_OF_DAY = re.compile(r"(\d{1,3}):([0-5]\d):00", re.ASCII)
ISO_OF_DAY = re.compile(r"PT(\d{1,3})H(\d{1,2})M0*S", re.ASCII)
"""What a sheet makes of `12:03` where it takes it for hours and minutes."""
_BARE = re.compile(r"(\d{1,6})(?:[.,](\d{1,3}))?", re.ASCII)
_SET = re.compile(
    r"(\d\S*\s*(?:kg|kilo|lb|pound)[a-z]*)\s*(?:[x\u00d7*]|for)\s*([1-9]\d?)\s*(?:reps?)?",
    re.ASCII | re.IGNORECASE,
)
"""A load, with its unit, and for how many reps, as a chart has it: `70 kg x 3`."""
_WRITE = {
    "rounds": "rounds and odd reps, as in 7+12",
    "time": "a time, as in 8:31, or the reps at the cap, as in 112 reps",
    "reps": "the reps, as in 112 reps",
    "load": "the load, as in 85 kg or 185 lb, or with its reps, as in 70 kg x 3",
}

Sense = Literal["said", "rounds", "reps", "load", "seconds", "minutes", "hours"]
"""What a number is taken for; `said` where it says so itself."""


class OldScore(Struct, frozen=True):
    """What was written, as this project writes it, and what it is worth."""

    kind: ScoreKind
    worth: int
    score: str
    work: str = ""
    """The reps of the set, where they stand with its load: `3 reps` of `70 kg x 3`."""


Readings = Mapping[Sense, OldScore]


def score_readings(written: str, unit: Unit, kind: ScoreKind | None) -> Readings:
    """What a score may mean. `kind` is how the benchmark is scored, where that is known.

    A bare number is reps or a load where the benchmark is scored so; a load is then in the club's
    `unit`. Several readings, or one that nothing says, are to be asked about.

    Raises:
        ValueError: it is no score, or none of this kind; `str` says what to write.
    """
    every = _every(written.strip(), unit)
    if not every:
        wanted = _WRITE[kind] if kind else "a score, as in 7+12, 8:31, 112 reps or 85 kg"
        raise ValueError(f"Write {wanted}")
    if kind is None:
        return every
    fitting = {sense: one for sense, one in every.items() if _fits(one, kind)}
    if not fitting:
        raise ValueError(f"This benchmark has other scores: write {_WRITE[kind]}")
    if kind == "time":
        return {sense: OldScore("time", one.worth, one.score) for sense, one in fitting.items()}
    if kind in ("reps", "load") and len(fitting) == 1:
        return {"said": next(iter(fitting.values()))}
    return fitting


def _fits(score: OldScore, kind: ScoreKind) -> bool:
    return score.kind == kind or (kind == "time" and score.kind == "reps")


def _every(text: str, unit: Unit) -> Readings:
    if match := _ROUNDS.fullmatch(text):
        rounds, odd = match[1] or match[3], match[2] or match[4]
        return {"said": _rounds(int(rounds), int(odd or 0))}
    if match := _REPS.fullmatch(text):
        return {"said": _reps(int(match[1]))}
    if match := TIME_OF_DAY.fullmatch(text) or ISO_OF_DAY.fullmatch(text):
        return _time_of_day(int(match[1]), int(match[2]))
    if (seconds := _seconds(text)) is not None:
        return {"said": _time(seconds)} if seconds else {}
    if match := _BARE.fullmatch(text):
        return _bare(match, unit)
    if match := _SET.fullmatch(text):
        load = _load(match[1], unit)
        return {"said": replace(load, work=rep_words(int(match[2])))} if load else {}
    load = _load(text, unit)
    return {"said": load} if load else {}


def _time_of_day(hours: int, minutes: int) -> Readings:
    """`12:03:00` is twelve minutes in a sheet that took `12:03` for a time of day."""
    short, long = hours * 60 + minutes, hours * 3600 + minutes * 60
    if not hours:
        return {"said": _time(long)} if long else {}
    return {"minutes": _time(short), "hours": _time(long)}


def _bare(match: re.Match[str], unit: Unit) -> Readings:
    number, decimals = int(match[1]), match[2]
    readings: dict[Sense, OldScore] = {}
    if load := _load(match[0], unit):
        readings["load"] = load
    if decimals is None:
        readings["reps"] = _reps(number)
        if number < 1000:
            readings["rounds"] = _rounds(number, 0)
        if number:
            readings["seconds"] = _time(number)
        return readings
    readings["seconds"] = _time(whole_seconds(number * 1000 + int(decimals.ljust(3, "0"))))
    if len(decimals) == 2 and int(decimals) < 60 and number:
        readings["minutes"] = _time(number * 60 + int(decimals))
    return readings


def _seconds(text: str) -> int | None:
    """A time in whole seconds, rounded up; None where it isn't written as one."""
    if match := _SECONDS.fullmatch(text):
        return whole_seconds(_ms(match[1], match[2]))
    if match := _MINUTES.fullmatch(text):
        hours, minutes = int(match[1] or 0), int(match[2])
        return hours * 3600 + minutes * 60 + whole_seconds(_ms(match[3] or "0", match[4]))
    try:
        return whole_seconds(parse_time(text.replace(",", "."))) if _clocklike(text) else None
    except ValueError:
        return None


def _clocklike(text: str) -> bool:
    return ":" in text or text.startswith("PT")


def _ms(seconds: str, decimals: str | None) -> int:
    return int(seconds) * 1000 + int((decimals or "0").ljust(3, "0"))


def _rounds(rounds: int, odd: int) -> OldScore:
    return OldScore("rounds", rounds_worth(rounds, odd), f"{rounds}+{odd}")


def _reps(reps: int) -> OldScore:
    return OldScore("reps", reps, f"{reps} reps")


def _time(seconds: int) -> OldScore:
    return OldScore("time", finish_worth(seconds), show_time(seconds * 1000))


def _load(text: str, unit: Unit) -> OldScore | None:
    try:
        load = read_load(text, unit)
    except ValueError:
        return None
    return OldScore("load", load_worth(load.kg), str(load))
