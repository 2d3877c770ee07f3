"""Names of people: how they are kept, which of them are one, and several typed in one line."""

import re
import unicodedata
from collections.abc import Iterable

_UNNAMED = re.compile(r"\?+|visitor( [0-9]+)?")
# The marks that Unicode's composed letters come apart into: Combining Diacritical Marks.
_MARKS = "\u0300-\u036f"


def tidy_name(written: str) -> str:
    """A name as it is kept: composed (NFC, UAX #15), one space between its words."""
    return " ".join(unicodedata.normalize("NFC", written).split())


def name_key(written: str) -> str:
    """What names have in common that are one person's: composition, case and spaces put aside.

    A canonical caseless match (Unicode Standard, 3.13, D145), composed again. Nothing else is put
    aside: Zoe and Zoë are two.
    """
    if written.isascii():
        return " ".join(written.casefold().split())
    apart = unicodedata.normalize("NFD", written).casefold()
    return " ".join(unicodedata.normalize("NFC", unicodedata.normalize("NFD", apart)).split())


def typed_names(written: str) -> tuple[str, ...]:
    """The names of a line with commas between, in their order, each as it is kept."""
    return tuple(name for part in written.split(",") if (name := tidy_name(part)))


def typed_twice(names: Iterable[str]) -> str | None:
    """The first name that an earlier one equals; several without a name are several people."""
    seen: set[str] = set()
    for name in names:
        key = name_key(name)
        if key in seen and not is_unnamed(name):
            return name
        seen.add(key)
    return None


def is_unnamed(name: str) -> bool:
    """Whether it stands for somebody whose name nobody knows yet: `?`, or `visitor 2`."""
    return _UNNAMED.fullmatch(name_key(name)) is not None


def names_pattern(names: Iterable[str]) -> re.Pattern[str] | None:
    """Finds these names as whole words, composed or not, the longest first; None for no name."""
    longest_first = sorted(filter(None, map(tidy_name, names)), key=len, reverse=True)
    if not longest_first:
        return None
    either = "|".join(map(_in_any_spelling, longest_first))
    return re.compile(rf"(?<!\w)(?:{either})(?![\w{_MARKS}])", re.IGNORECASE)


def _in_any_spelling(name: str) -> str:
    return "".join(map(_either_form, name))


def _either_form(sign: str) -> str:
    if sign == " ":
        return r"\s+"
    apart = unicodedata.normalize("NFD", sign)
    whole = re.escape(sign)
    return whole if apart == sign else f"(?:{whole}|{re.escape(apart)})"
