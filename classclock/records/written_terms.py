"""Terms as they are compared, however they are written: loads, lengths, reps of a set, options.

`15`, `15kg` and `15,0 kg` are one load, `600` and `10:00` one length, and options are one as names
of people are (`units/names.py`): capitals, composition and spaces make no difference, nor does a
hyphen for a space. This is the one place that knows.
"""

import re
from functools import lru_cache

from classclock.plan.amounts import rep_words
from classclock.units.digits import is_whole
from classclock.units.loads import Load, Unit, parse_load
from classclock.units.names import name_key
from classclock.units.times import parse_time, show_time

NOT_SAID = "?"
"""What stands where nobody said."""
_BETWEEN = " / "
_DECIMALS = {"\u00bc": ".25", "\u00bd": ".5", "\u00be": ".75"}
_FRACTION = re.compile(f"(?<=[0-9])[{''.join(_DECIMALS)}]")
_UNIT_WORDS = re.compile(r"(\S+?)\s*(?:(kgs?|kilos?|kilograms?)|(lbs?|pounds?|#))", re.IGNORECASE)
_REPS = re.compile(r"(\d{1,4})\s*(?:reps?|x)", re.ASCII | re.IGNORECASE)
_MINUTES = re.compile(r"(\d{1,3})\s*(?:'|mins?|minutes?)", re.ASCII | re.IGNORECASE)
_SECONDS = re.compile(r"(\d{1,5})\s*(?:s|secs?|seconds?)?", re.ASCII | re.IGNORECASE)


@lru_cache(maxsize=4096)
def tidy_loads(written: str, unit: Unit) -> str:
    """The loads of the stations as classes keep them: `22.5 kg / 15 kg`; bare ones in `unit`.

    Raises:
        ValueError: one can't be read; `str` says what to write.
    """
    text = written.strip()
    if text in ("", NOT_SAID):
        return text
    return _BETWEEN.join(str(read_load(part, unit)) for part in text.split("/"))


def read_load(written: str, unit: Unit) -> Load:
    """A load as people write it, whatever word it has for its unit: `33 lbs` is 33 lb.

    Raises:
        ValueError: it is none; `str` says what to write.
    """
    written = _FRACTION.sub(lambda sign: _DECIMALS[sign[0]], written.strip())
    match = _UNIT_WORDS.fullmatch(written)
    return parse_load(
        written if match is None else f"{match[1]} {'kg' if match[2] else 'lb'}", unit
    )


@lru_cache(maxsize=4096)
def tidy_work(written: str, *, of_a_set: bool) -> str:
    """How long a piece was, as classes keep it (`10:00`), or the reps of a set (`3 reps`).

    Raises:
        ValueError: it can't be read; `str` says what to write.
    """
    text = written.strip()
    if text in ("", NOT_SAID):
        return text
    if match := _REPS.fullmatch(text):
        return rep_words(int(match[1]))
    if of_a_set and is_whole(text):
        return rep_words(int(text))
    if match := _MINUTES.fullmatch(text):
        return show_time(int(match[1]) * 60_000)
    if match := _SECONDS.fullmatch(text):
        return show_time(int(match[1]) * 1000)
    try:
        return show_time(parse_time(text))
    except ValueError:
        what = "the reps of the set" if of_a_set else "how long it was"
        instead = "3 reps" if of_a_set else "16:00"
        raise ValueError(f"Write {what}, as in {instead}") from None


@lru_cache(maxsize=4096)
def set_reps(written: str) -> int | None:
    """How many reps a set had; None where nobody said, or it was no set."""
    try:
        match = _REPS.fullmatch(tidy_work(written, of_a_set=True))
    except ValueError:
        return None
    return int(match[1]) if match else None


@lru_cache(maxsize=4096)
def terms_key(modification: str, loads: str, work: str, team: int) -> str:
    """What terms have in common that are the same, however they are written."""
    return "\n".join((options_key(modification), _loads_key(loads), _work_key(work), str(team)))


def same_loads(one: str, other: str) -> bool:
    """Whether they are the same; what was not said on one side is taken to be the same."""
    return one == other or NOT_SAID in (one, other) or _loads_key(one) == _loads_key(other)


def same_work(one: str, other: str) -> bool:
    """The same of lengths, and of the reps of sets."""
    return one == other or NOT_SAID in (one, other) or _work_key(one) == _work_key(other)


def same_options(one: str, other: str) -> bool:
    return one == other or options_key(one) == options_key(other)


def options_key(modification: str) -> str:
    """What options have in common that are one: also with a space where another has a hyphen."""
    return name_key(modification.replace("-", " "))


@lru_cache(maxsize=4096)
def _loads_key(loads: str) -> str:
    """A load without a unit, in older files, says the same as another such one only."""
    parts = []
    for part in loads.split("/"):
        try:
            load = parse_load(part, "kg")
        except ValueError:
            parts.append(name_key(part))
        else:
            bare = not part.strip()[-1:].isalpha()
            parts.append(str(load).removesuffix(" kg") if bare else str(load))
    return _BETWEEN.join(parts)


@lru_cache(maxsize=4096)
def _work_key(work: str) -> str:
    try:
        return tidy_work(work, of_a_set=False)
    except ValueError:
        return name_key(work)
