"""A clock without a plan, from one line as a coach says it: `rounds 12`, `8 x 20/10`.

A bare number is minutes, but for an interval's, which is seconds. What is read is a segment of one
of the plan's formats; its name is a line that reads as the same clock again.
"""

import re
from collections.abc import Callable, Mapping, Sequence

from msgspec import Struct
from pydantic import ValidationError

from classclock.plan.file_key import nearest
from classclock.plan.formats.capped_for_time import CappedForTime
from classclock.plan.formats.countdown import Countdown
from classclock.plan.formats.interval import Interval
from classclock.plan.formats.rounds_in_time import RoundsInTime
from classclock.plan.model import Segment
from classclock.plan.reading.clock_forms import FORMS
from classclock.units.printable import printable
from classclock.units.times import Milliseconds, parse_time, show_time

_INTERVALS = FORMS[2]
NOT_SCORED = "not scored"
LONGEST = 3 * 60 * 60 * 1000
"""Milliseconds: what is longer was meant otherwise, as 1230 for 12:30."""
SHORTEST_WORK = 5_000
"""Milliseconds: steps of work that are shorter were meant as minutes."""


class ClockWay(Struct, frozen=True):
    """One way to score a clock: what the coach calls it, and the segment that is counted so."""

    scored: str
    segment: Segment


class NoClock(Struct, frozen=True):
    """The line says no clock."""

    why: str
    """With what to write."""
    instead: str | None
    """The line that was likely meant, if one is near: it can be read."""


def read_clock_line(line: str) -> tuple[ClockWay, ...] | NoClock:
    """The clock that the line says, in every way to score it, the likeliest first."""
    words = " ".join(line.casefold().translate(_SIGNS).split())
    ways = _read(words)
    if ways:
        return ways
    if not words:
        return NoClock(f"write which clock: {', '.join(FORMS)}", None)
    instead = _near(words)
    shown = f'"{printable(line.strip(), 40)}" is no clock: write'
    return NoClock(f'{shown} "{instead}"' if instead else f"{shown} {', '.join(FORMS)}", instead)


def _read(words: str) -> tuple[ClockWay, ...]:
    """None, where no form is this one or what it says is out of bounds."""
    for form, ways in _READ:
        if match := form.fullmatch(words):
            try:
                return ways(*match.groups())
            except (ValidationError, ValueError):
                return ()
    return ()


# -- the forms -----------------------------------------------------------------------


def _rounds(time: str) -> tuple[ClockWay, ...]:
    length = _minutes(time)
    name = f"Rounds {show_time(length)}"
    rounds = RoundsInTime(name=name, format="rounds-in-time", time=length)
    unscored, *scored = _counting_down(name, length)
    return (ClockWay("rounds", rounds), *scored, unscored)


def _down(time: str) -> tuple[ClockWay, ...]:
    length = _minutes(time)
    return _counting_down(f"Down {show_time(length)}", length)


def _counting_down(name: str, length: Milliseconds) -> tuple[ClockWay, ...]:
    def scored(score: str | None) -> Segment:
        values = {"name": name, "format": "countdown", "time": length, "score": score}
        return Countdown.model_validate(values)

    return (
        ClockWay(NOT_SCORED, scored(None)),
        ClockWay("reps", scored("reps")),
        ClockWay("load", scored("load")),
    )


def _for_time(cap: str) -> tuple[ClockWay, ...]:
    """Nothing is known of the work but that it can be finished."""
    length = _minutes(cap)
    name = f"For time {show_time(length)}"
    segment = CappedForTime(
        name=name, format="capped-for-time", cap=length, rounds=1, count="finish"
    )
    return (ClockWay("time", segment),)


def _intervals(repeat: str, work: str, rest: str | None) -> tuple[ClockWay, ...]:
    lengths = {"work": _time(work, "s")} | ({"rest": _time(rest, "s")} if rest else {})
    if lengths["work"] < SHORTEST_WORK or int(repeat) * sum(lengths.values()) > LONGEST:
        raise ValueError
    name = f"{int(repeat)} x {'/'.join(map(show_time, lengths.values()))}"
    steps = [{kind: length} for kind, length in lengths.items()]

    def scored(score: str | None) -> Segment:
        values = {"name": name, "format": "interval", "repeat": int(repeat), "steps": steps}
        return Interval.model_validate({**values, "score": score})

    return (
        ClockWay(NOT_SCORED, scored(None)),
        ClockWay("reps in all", scored("total")),
        ClockWay("lowest reps", scored("lowest")),
        ClockWay("load", scored("load")),
    )


def _minutes(written: str) -> Milliseconds:
    length = _time(written, "min")
    if length > LONGEST:
        raise ValueError
    return length


def _time(written: str, unit: str) -> Milliseconds:
    """The time; `unit` is that of a bare number. Raises ValueError."""
    number = written.rstrip("minsec ")
    if ":" in number:
        return parse_time(number)
    seconds = 60 if (written[len(number) :].strip() or unit) == "min" else 1
    return Milliseconds(int(number) * seconds * 1000)


_TIME = r"(\d{1,4}(?: ?(?:min|sec|s))?|\d{1,3}(?::\d\d){1,2})"
_SIGNS = str.maketrans({",": " ", "*": "x", "\N{MULTIPLICATION SIGN}": "x"})
_READ: Sequence[tuple[re.Pattern[str], Callable[..., tuple[ClockWay, ...]]]] = tuple(
    (re.compile(form, re.ASCII), ways)
    for form, ways in (
        (rf"rounds?(?: in)? {_TIME}", _rounds),
        (rf"for time(?: cap)? {_TIME}", _for_time),
        (rf"(\d{{1,3}}) ?x ?{_TIME}(?: ?/ ?{_TIME})?", _intervals),
        (rf"(?:count ?)?down {_TIME}", _down),
    )
)


# -- what was likely meant -------------------------------------------------------------

_BY_WORDS: Mapping[str, str] = {
    "rounds": "rounds {}",
    "for time": "for time {}",
    "time": "for time {}",
    "down": "down {}",
}


def _near(words: str) -> str | None:
    """The line that is nearest to these words, with their own numbers where it reads so."""
    numbers = re.findall(r"\d+(?:[:.]\d+)*", words, re.ASCII)
    if re.match(r"\d+ ?x", words, re.ASCII):
        count, *lengths = numbers
        minutes = (f"{one}:00" for one in lengths)
        seconds, meant = ("/".join(times) for times in (lengths, minutes))
        return _first_read(f"{count} x {seconds}", f"{count} x {meant}", _INTERVALS)
    said = " ".join(re.findall(r"[^\W\d_]+", words))
    near = nearest(said, tuple(_BY_WORDS)) if said else None
    if near is None:
        return None
    form, last = _BY_WORDS[near], numbers[-1].replace(".", ":") if numbers else ""
    with_a_colon = re.sub(r"(\d\d)$", r":\1", last)
    return _first_read(form.format(last), form.format(with_a_colon), form.format(12))


def _first_read(*lines: str) -> str | None:
    return next((line for line in lines if _read(line)), None)
