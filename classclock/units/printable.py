"""What a terminal would obey, or a reader not see: refused where it is typed, else an escape.

All text that comes out, on a screen, a line, a page or a table, goes through `escaped`.
"""

import re
import unicodedata

# UAX #9, section 2: embeddings, overrides and isolates can turn the rest of a line round.
_BIDI = {*"\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"}
_OBEYED = {"Cc", "Cs", "Zl", "Zp"}
"""Controls, halves of a pair, separators of lines: none of them is shown."""
_UNSEEN = {"Cf", "Co", "Cn"}
"""Formats, private use, unassigned."""
# Unicode Standard, 23.2 and 23.9: without them some scripts, joined picture signs and flags of
# regions come apart.
_JOINERS = {"\u200c", "\u200d", *map(chr, range(0xE0020, 0xE0080))}
# The controls that JSON may hold as they are (RFC 8259, 7), and what else a terminal obeys.
_OBEYED_IN_JSON = re.compile("[\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ud800-\udfff]")


def escaped(text: str) -> str:
    r"""Every sign that would steer the terminal or can't be seen as its escape, such as `\x1b`.

    The joiners that some scripts and picture signs need are left.
    """
    # Python's own word for it knows the same categories, and is quick for the usual text.
    return text if text.isprintable() else "".join(map(_seen, text))


def joined(text: str) -> str:
    r"""The joiners again that Python escaped (`\u200d`), as it does where it quotes a text."""
    for sign in _JOINERS if "\\" in text else ():
        text = text.replace(ascii(sign)[1:-1], sign)
    return text


def printable(text: str, longest: int = 60) -> str:
    """The same, cut where it is longer than so many signs; every kind of space is a plain one."""
    cut = text if len(text) <= longest else text[: longest - 1] + "…"
    return cut if cut.isprintable() else "".join(map(_plain, cut))


def can_be_shown(text: str) -> bool:
    """Whether a name or a line holds nothing that steers the terminal or turns the text round."""
    return text.isprintable() or not any(map(_is_obeyed, text))


def escaped_json(document: str) -> str:
    r"""The same document, where what a terminal obeys stands as JSON's own escape (`\u0085`)."""
    return _OBEYED_IN_JSON.sub(lambda found: f"\\u{ord(found[0]):04x}", document)


def _plain(sign: str) -> str:
    return " " if unicodedata.category(sign) == "Zs" else _seen(sign)


def _seen(sign: str) -> str:
    unseen = unicodedata.category(sign) in _UNSEEN and sign not in _JOINERS
    return ascii(sign)[1:-1] if unseen or _is_obeyed(sign) else sign


def _is_obeyed(sign: str) -> bool:
    return sign in _BIDI or unicodedata.category(sign) in _OBEYED
