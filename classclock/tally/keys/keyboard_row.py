"""A map for keyboards on which digits, `.` or `-` need shift, from what its keys type without."""

from collections.abc import Sequence

from classclock.tally.keys.strokes import LONE_SIGNS, MARKS

DIGIT_KEYS = "1234567890"
"""The keys of the digit row, from the left."""


def can_be_mapped(sign: str) -> bool:
    """Whether a key that types this may mean something else: letters are people's keys."""
    return len(sign) == 1 and sign.isprintable() and not (sign.isascii() and sign.isalpha())


def keyboard_map(row: Sequence[str], point: str, minus: str) -> dict[str, str]:
    """What each sign shall mean, where it isn't what it types.

    `row` is what the ten digit keys type without shift, empty where they type digits; `point` and
    `minus` are what is to mean these. A sign of the key language that a digit's key types changes
    places with that digit, so that shift and the key still gives it.
    """
    wanted = {**dict(zip(row, DIGIT_KEYS, strict=False)), point: ".", minus: "-"}
    mapped = {sign: meant for sign, meant in wanted.items() if sign != meant}
    lost = [sign for sign in mapped if sign in MARKS | LONE_SIGNS]
    meant = set(mapped.values()) | ({".", "-"} & {point, minus})
    for sign in lost:
        if sign not in meant:
            mapped.setdefault(mapped[sign], sign)
    return mapped
