"""What stands before a lane's letter, and what it means with that letter.

Text is taken as it was typed and judged as a whole: what means nothing counts nothing, rather
than a part of it (`12,5n` must not become 125 where only whole reps are counted).
"""

import re
from collections.abc import Callable, Mapping
from decimal import Decimal

from classclock.tally.commands import (
    ChooseLoad,
    CountCommand,
    FinishNow,
    Miss,
    Move,
    PeopleCommand,
    SayBack,
    SayEffort,
    SayGone,
    SetNumber,
    StopLane,
    SwapPlaces,
    TakeBack,
    Tap,
)
from classclock.tally.effort.effort_scale import HARDEST

LONGEST = len("999+9999")
"""The most signs that mean something before a letter."""

_Build = Callable[[re.Match[str], str], CountCommand]
_Say = Callable[[re.Match[str], str], PeopleCommand]


def _number(written: str | None) -> Decimal | None:
    return Decimal(written.replace(",", ".")) if written else None


# A held digit repeats: four digits (2450 metres rowed) are a number, more are a key held down.
_EVERYWHERE: tuple[tuple[str, _Build], ...] = (
    ("", lambda _, lane: Tap(lane)),
    (r"\d{1,4}", lambda m, lane: SetNumber(lane, _number(m[0]))),
    (
        r"(\d{1,3})\+(\d{0,4})",
        lambda m, lane: SetNumber(lane, _number(m[2]), rounds=int(m[1])),
    ),
    (
        r"(\d{1,3}):(\d{1,4})",
        lambda m, lane: SetNumber(lane, _number(m[2]), interval=int(m[1])),
    ),
    (r"\*", lambda _, lane: FinishNow(lane)),
    (r"(\d{1,4})?/", lambda m, lane: Miss(lane, _number(m[1]))),
    (r"-", lambda _, lane: TakeBack(lane)),
    (r"\.", lambda _, lane: StopLane(lane)),
)
_LOADS_ONLY: tuple[tuple[str, _Build], ...] = (
    (r"\d{1,3}[.,]\d{1,2}", lambda m, lane: SetNumber(lane, _number(m[0]))),
    (r"(\d{1,3}[.,]\d{1,2})/", lambda m, lane: Miss(lane, _number(m[1]))),
    (
        r"(\d{1,2}):(\d{1,3}[.,]\d{1,2})",
        lambda m, lane: SetNumber(lane, _number(m[2]), interval=int(m[1])),
    ),
)
_UNFINISHED = r"\d{1,3}:|>[a-z]?|:([a-z]\d?)?|-[1-9]|\.[a-z]"
_UNFINISHED_LOAD = r"(\d{1,2}:)?\d{1,3}[.,]"


# `re` compiles them at the first key, so that the first paint need not wait for it.
_FORMS = {False: _EVERYWHERE, True: _EVERYWHERE + _LOADS_ONLY}
_MORE_TO_COME = {False: (_UNFINISHED,), True: (_UNFINISHED, _UNFINISHED_LOAD)}
_BEGINNINGS = {
    loads: "|".join(f"(?:{pattern})" for pattern in (*(p for p, _ in forms), *_MORE_TO_COME[loads]))
    for loads, forms in _FORMS.items()
}


NO_EFFORT = f"how hard it was is a whole number from 0 to {HARDEST}, then the letter"

# Between pieces letters mean people.
_OF_PEOPLE: tuple[tuple[str, _Say], ...] = (
    (r"\.", lambda _, person: SayGone(person)),
    (r"-", lambda _, person: SayBack(person)),
)
_EFFORT: tuple[tuple[str, _Say], ...] = (
    (r"\d|10", lambda m, person: SayEffort(person, int(m[0]))),
)
_LOADS_TO_COME: tuple[tuple[str, _Say], ...] = (
    (r"\d{1,4}", lambda m, person: ChooseLoad(person, Decimal(m[0]))),
    (
        r"(\d{1,2}):(\d{1,4})",
        lambda m, person: ChooseLoad(person, Decimal(m[2]), int(m[1])),
    ),
    (
        r"((\d{1,2}):)?(\d{1,3})[.,](\d{1,2})",
        lambda m, person: ChooseLoad(
            person, Decimal(f"{m[3]}.{m[4]}"), int(m[2]) if m[2] else None
        ),
    ),
)


def read_about(
    text: str, key: str, people: Mapping[str, str], *, to_come: bool, over: bool = False
) -> PeopleCommand | str | None:
    """What `text` and then somebody's key say of them between pieces; in words why it doesn't.

    None: it only means something once a piece runs. `people` are ids by key; `key` must be in it.
    `to_come`: a segment is, so that loads and places can be said for it. `over`: the class is, so
    that a number is how hard it was.
    """
    person = people[key]
    if to_come and len(text) == 2 and text[0] == ">":
        other = people.get(text[1])
        if other is None or other == person:
            return "> and the letters of two people: these two swap their places"
        return SwapPlaces(other, person)
    numbers = _LOADS_TO_COME if to_come else _EFFORT if over else ()
    for pattern, say in (*_OF_PEOPLE, *numbers):
        if match := re.fullmatch(pattern, text, re.ASCII):
            return say(match, person)
    if over and text[:1].isdigit():
        return NO_EFFORT  # without what was typed: the room reads it
    if text.startswith(":"):
        return f"the number of the option comes after the letter, as in {text[:2]}2"
    if re.fullmatch(f"{_UNFINISHED}|{_UNFINISHED_LOAD}", text, re.ASCII):
        return f"{text}{key} lacks a digit: the load whole, as in 82.5{key} or 3:82.5{key}"
    return None


def fits(text: str, *, loads: bool) -> bool:
    """Whether this can stand before a letter, or begins what can. `loads`: scored by load."""
    return re.fullmatch(_BEGINNINGS[loads], text, re.ASCII) is not None


def read_form(text: str, key: str, keys: Mapping[str, str], *, loads: bool) -> CountCommand | str:
    """What `text` and then the key of a lane mean, or, in words, why they mean nothing.

    `keys` are the lanes' ids by key; `key` must be in it.
    """
    lane = keys[key]
    if len(text) == 2 and text[0] == ">":
        return _read_move(text[1], key, keys)
    for pattern, build in _FORMS[loads]:
        if match := re.fullmatch(pattern, text, re.ASCII):
            return build(match, lane)
    return _why_not(text, key, loads=loads)


def _read_move(first: str, key: str, keys: Mapping[str, str]) -> CountCommand | str:
    lane, to = keys.get(first), keys[key]
    if lane is None:
        return f"nobody has the key {first} any more: escape drops it"
    if lane == to:
        return f"{first} and {key} are one lane: type the key of the one whose entry it was"
    return Move(lane, to)


def _why_not(text: str, key: str, *, loads: bool) -> str:
    if not fits(text, loads=loads):
        return f"{text}{key} means nothing: escape drops it, then type it again"
    if text.startswith(":"):
        return f"{text} waits for the number of the option, as in {text}2"
    if text.startswith("."):
        return f"{text} waits for 1, stopped in it, or 2, leaves now"
    if text.startswith("-"):
        return (
            f"{text} waits for enter: it takes back that one, from the newest; "
            f"-{key} is {key.upper()}'s last one"
        )
    if text.endswith(":"):
        return f"{text} waits for the reps of that interval, as in {text}12{key}"
    return f"{text} waits for a digit, as in {text}5{key}"


def why_not_so_far(text: str, *, loads: bool) -> str:
    """Why this text, which doesn't fit, can't go before a letter, and what to do."""
    if not loads and re.fullmatch(r"\d+[.,]", text, re.ASCII):
        return f"{text} is for loads: this is counted in whole reps, so backspace takes it off"
    return f"{text} means nothing: backspace takes off the last sign, escape drops it"
