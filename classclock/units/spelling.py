"""One name however it is spelled: case, hyphens, accents and plurals folded."""

import functools
import re
import unicodedata

_APOSTROPHES = re.compile("['\u2019]")
_BETWEEN = re.compile(r"[\W_]+")


@functools.lru_cache(maxsize=16384)
def plain_words(written: str) -> str:
    """Lower case, no accents, one space between words: `Farmer's Walk` is `farmers walk`.

    An i without its dot is an i: both have the same capital.
    """
    apart = unicodedata.normalize("NFKD", _APOSTROPHES.sub("", written).casefold())
    bare = "".join(sign for sign in apart if not unicodedata.combining(sign))
    return _BETWEEN.sub(" ", bare).replace("\u0131", "i").strip()


@functools.lru_cache(maxsize=16384)
def fold(written: str) -> str:
    """Bring every spelling of a name to one: `Box Step-overs` and `box step over` are equal."""
    return " ".join(_singular(word) for word in plain_words(written).split())


def _singular(word: str) -> str:
    if len(word) < 3:
        return word
    if word.endswith(("sses", "shes", "ches", "xes", "zes")):
        return word[:-2]
    if word.endswith("ies"):
        return word[:-3] + "y"
    return word[:-1] if word.endswith("s") and not word.endswith(("ss", "us", "is")) else word


def plural(folded: str) -> str:
    """Name several of a thing: `box` is `boxes`, `bar` is `bars`."""
    return folded + ("es" if folded.endswith(("s", "x", "z", "ch", "sh")) else "s")
