"""What a value that can't be taken was likely meant to be, as it can be copied into the file."""

import re
from decimal import Decimal
from itertools import pairwise

from classclock.plan.file_key import LOAD, TEXT, YES, FileKey
from classclock.plan.model import FORMATS

_NUMBERS = re.compile(r"\d{1,6}(?:\s*[-\u2013,;/ ]\s*\d{1,6}){1,59}", re.ASCII)
_MEASURE = re.compile(r"(\d{1,6})\s*([a-z]*)", re.ASCII)
_MINUTES = re.compile(r"(\d{1,3}):(\d\d)", re.ASCII)
_LOAD = r"(\d{1,4}(?:[.,]\d{1,3})?)\s*(kg|lb)?"
_TWO_LOADS = re.compile(rf"{_LOAD}\s*/\s*{_LOAD}", re.ASCII | re.IGNORECASE)
_MEASURES = {
    "reps": {"": 1, "x": 1, "rep": 1, "reps": 1},
    "metres": {"": 1, "m": 1, "metres": 1, "meters": 1, "km": 1000},
    "calories": {"": 1, "cal": 1, "cals": 1, "kcal": 1, "calories": 1},
    "seconds": {"": 1, "s": 1, "sec": 1, "seconds": 1, "min": 60},
}
"""How people write an amount, and how much of the key's own that is."""
_SAID = {
    "true": "true",
    "yes": "true",
    "on": "true",
    "false": "false",
    "no": "false",
    "off": "false",
}


def meant(key: str, known: FileKey, value: object) -> str | None:
    """What to write in place of this value: what follows "Write". None where nobody can tell."""
    if (key == "reps" or known.form == "numbers") and (numbers := _numbers(value)):
        return _by_rounds(numbers) if key == "reps" else f"{key} = {list(numbers)}"
    if known.takes == TEXT and isinstance(value, int | float) and not isinstance(value, bool):
        return f'{key} = "{value}"'
    if not isinstance(value, str):
        return None
    said = value.strip().lower()
    if known.takes == LOAD:
        return _two_loads(key, said)
    if known.takes.startswith("pieces"):
        return f'{key} = {{ "{value.strip()}" = 1 }}' if '"' not in value else None
    if "whole number" in known.takes and "list" not in known.takes:
        number = _measured(key, said)
        return f"{key} = {number}" if number else None
    if known.takes == YES and said in _SAID:
        return f"{key} = {_SAID[said]}"
    return None


def _numbers(value: object) -> tuple[int, ...] | None:
    """Several whole numbers, `3 6 9`, `21-15-9`, or a list of them."""
    if isinstance(value, str) and _NUMBERS.fullmatch(value.strip()):
        return tuple(int(number) for number in re.findall(r"\d+", value))
    if isinstance(value, list) and 1 < len(value) <= 60 and all(type(n) is int for n in value):
        return tuple(value) if min(value) > 0 else None
    return None


def _by_rounds(numbers: tuple[int, ...]) -> str:
    forms = " or ".join(
        f'"{form}"' for form, one in FORMATS.items() if "scheme" in one.model_fields
    )
    scheme = f"scheme = {list(numbers)} in the segment, with format = {forms}"
    steps = {after - before for before, after in pairwise(numbers)}
    step = min(steps)
    if len(steps) > 1 or step < 1:
        return scheme
    climb = f"climb = {{ first = {numbers[0]}, step = {step} }} in place of reps"
    return f"{climb} if it goes on growing; {scheme}, if that is all"


def _two_loads(key: str, said: str) -> str | None:
    match = _TWO_LOADS.fullmatch(said)
    if match is None:
        return None
    amounts = [Decimal(written.replace(",", ".")) for written in (match[1], match[3])]
    unit = match[4] or match[2]
    light, heavy = (f'"{n} {unit}"' if unit else str(n) for n in sorted(amounts))
    return f"{key} = {{ heavier = {heavy}, lighter = {light} }}"


def _measured(key: str, said: str) -> int | None:
    if key == "seconds" and (clock := _MINUTES.fullmatch(said)):
        return int(clock[1]) * 60 + int(clock[2])
    match = _MEASURE.fullmatch(said)
    worth = _MEASURES.get(key, {"": 1}).get(match[2]) if match else None
    return int(match[1]) * worth if match and worth else None
