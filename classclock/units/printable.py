"""Text from a file, made safe for a terminal."""

import unicodedata

# Controls, formats (bidi overrides among them), surrogates, private use, unassigned, separators.
_UNPRINTABLE = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}
# UAX #9, section 2: embeddings, overrides and isolates can turn the rest of a line round.
_BIDI = {*"\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"}


def printable(text: str, longest: int = 60) -> str:
    """Show every control, format or bidi character as an escape, and cut what is too long.

    Every kind of space is shown as a plain one.
    """
    cut = text if len(text) <= longest else text[: longest - 1] + "…"
    # Python's own word for it knows the same categories, and is quick for the usual text.
    return cut if cut.isprintable() else "".join(_safe(sign) for sign in cut)


def _safe(sign: str) -> str:
    category = unicodedata.category(sign)
    if category == "Zs":
        return " "
    return ascii(sign)[1:-1] if category in _UNPRINTABLE else sign


def can_be_shown(text: str) -> bool:
    """Whether a name or a line holds nothing that moves the cursor or turns the text round.

    The joiners that some scripts and picture signs need are let through.
    """
    return text.isprintable() or not any(
        sign in _BIDI or unicodedata.category(sign) in {"Cc", "Cs", "Zl", "Zp"} for sign in text
    )
