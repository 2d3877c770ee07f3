"""What stands for a sign that letters lack: its likeness, or what Unicode makes it of."""

import unicodedata
from collections.abc import Callable, Iterator

LIKE = (
    dict.fromkeys("\u2010\u2011\u2012\u2212", "-")  # hyphens, the figure's dash, minus
    | {"\u2015": "\N{EM DASH}"}
    # Quotes of all kinds but those on the line; the apostrophes of names; minutes and seconds.
    | dict.fromkeys("\u2018\u2019\u201b\u2032\u02b9\u02bb\u02bc\u02c8", "'")
    | dict.fromkeys("\u201c\u201d\u201f\u2033", '"')
    | {"\u201a": ",", "\u201e": ",,"}
    | {"\u2044": "/", "\u2264": "<=", "\u2265": ">=", "\u2194": "<->"}
    | {"\u00d0": "\u0110"}  # two letters, of one shape in every type
    | {"\u1e9e": "SS"}
)
"""Signs that are read alike, by what may stand for them."""


def clusters(text: str) -> list[str]:
    """The letters of a text, each with what stands over and under it, composed where it can be."""
    if text.isascii():
        return list(text)
    found: list[str] = []
    for sign in unicodedata.normalize("NFC", text):
        if found and unicodedata.combining(sign):
            found[-1] += sign
        else:
            found.append(sign)
    return found


def spelled(text: str, has: Callable[[str], bool]) -> list[str]:
    """The letters of a text; for those that aren't had what stands for them, if that is had.

    A fraction is spelled with its stroke, and apart from a whole number before it: 1 1/2.
    """
    signs = clusters(text)
    if all(map(has, signs)):
        return signs
    found: list[str] = []
    for sign in signs:
        parts = list(_parts(sign, has))
        apart = parts != [sign] and unicodedata.category(sign[0]) == "No"
        if apart and found and found[-1].isdigit():
            found.append(" ")
        found += parts
    return found


def _parts(sign: str, has: Callable[[str], bool]) -> Iterator[str]:
    if has(sign):
        yield sign
        return
    # Compatibility decomposition (Unicode Standard Annex 15): ¾ is 3, a stroke and 4.
    made_of = LIKE.get(sign) or unicodedata.normalize("NFKD", sign)
    parts = [LIKE.get(part, part) for part in clusters(made_of)]
    yield from parts if all(map(has, parts)) else [sign]
