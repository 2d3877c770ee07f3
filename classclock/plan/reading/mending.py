"""One line that isn't TOML: what is wrong with it, and the line as it was likely meant.

The mended line only serves to read on and find the rest of the faults; the plan isn't used.
"""

import re
from collections.abc import Mapping

from msgspec import Struct

from classclock.plan.file_key import FileKey
from classclock.plan.keys import KEYS, assignment
from classclock.plan.reading.meant import meant

_KEY = r"([A-Za-z0-9_-]+)"
_CURLY = re.compile("[\u201c\u201d\u201e\u201f\u00ab\u00bb]")
_BARE_TIME = re.compile(_KEY + r"\s*=\s*(\d{1,3}:\d\d(?::\d\d)?)(?![\d:\"])")
_COLON = re.compile(r"\s*" + _KEY + r"\s*:\s*(\S.*)")
_BARE_VALUE = re.compile(r"\s*" + _KEY + r"""\s*=\s*([^"'\[\]{}=,#]*[^"'\[\]{}=,#\s])\s*(#.*)?""")
_NO_EQUALS = re.compile(r"\s*" + _KEY + r"""\s+("[^"]*"|'[^']*'|\d+|\[.*\])\s*""")
_NO_VALUE = re.compile(r"\s*" + _KEY + r"\s*=\s*(#.*)?")
_HEADER = re.compile(r"\s*\[+\s*([A-Za-z.]+)[\s\]]*(#.*)?")
_OPEN_QUOTE = re.compile(r"\s*" + _KEY + r"""\s*=\s*"([^"]*)""")
_CONTROL = re.compile("[\x00-\x08\x0b-\x1f\x7f]")

_COMMA_LAST = re.compile(r",\s*}")
_SPACED = r"[\w.-]+(?: [\w.-]+)+"
_SPACED_NAME = re.compile(rf"\s*({_SPACED})\s*=\s*(\S.*)")
_SPACED_WITHIN = re.compile(rf"([{{,]\s*)({_SPACED})(\s*=)")

_REMARK = 'Write key = value, with its quotes, commas and brackets, or put "#" before a remark'


class Mend(Struct, frozen=True):
    what: str
    instead: str
    line: str = ""
    """What to read instead; nothing where the meaning can't be guessed."""


def mend(line: str, keys: Mapping[str, FileKey] | None = None) -> tuple[Mend, ...]:
    """Name the faults of a line that TOML can't read; the last one holds the mended line.

    `keys` are those of the file; a plan's unless they are given.
    """
    if _CONTROL.search(line):
        return (Mend("a character that can't be typed stands here", "Type the line again"),)
    if _CURLY.search(line):
        straight = _CURLY.sub('"', line).strip()
        return (Mend("curly quotes", f"Write straight ones: {straight}", straight),)
    if times := _BARE_TIME.findall(line):
        mended = _BARE_TIME.sub(r'\1 = "\2"', line)
        return tuple(
            Mend(f"the time {time} has no quotes", f'Write {key} = "{time}"', mended)
            for key, time in times
        )
    if _COMMA_LAST.search(line):
        mended = _COMMA_LAST.sub(" }", line).strip()
        return (Mend("a comma before }", f"Write {mended}", mended),)
    if names := _SPACED_WITHIN.findall(line):
        mended = _SPACED_WITHIN.sub(r'\1"\2"\3', line).strip()
        what = f"{names[0][1]} has spaces and no quotes"
        return (Mend(what, f"Write {mended}", mended),)
    return (_mend_form(line, KEYS if keys is None else keys),)


def _mend_form(line: str, keys: Mapping[str, FileKey]) -> Mend:
    if match := _HEADER.fullmatch(line):
        header = f"[[{match[1]}]]"
        return Mend(f"the heading {line.strip()} isn't closed", f"Write {header}", header)
    if match := _COLON.fullmatch(line):
        mended = f"{match[1]} = {match[2]}"
        return Mend('":" in place of "="', f"Write {mended}", mended)
    if match := _NO_EQUALS.fullmatch(line):
        mended = f"{match[1]} = {match[2]}"
        return Mend('"=" is missing', f"Write {mended}", mended)
    if match := _NO_VALUE.fullmatch(line):
        instead = _as_in_the_example(match[1], keys)
        return Mend(f'"{match[1]}" has no value', f"Write {instead}")
    if match := _OPEN_QUOTE.fullmatch(line):
        mended = f'{match[1]} = "{match[2].rstrip()}"'
        return Mend("the closing quote is missing", f"Write {mended}", mended)
    if match := _BARE_VALUE.fullmatch(line):
        return _mend_value(match[1], match[2], keys)
    if match := _SPACED_NAME.fullmatch(line):
        joined = match[1].lower().replace(" ", "_")
        name = joined if joined in keys else f'"{match[1]}"'
        mended = f"{name} = {match[2]}"
        return Mend(f"{match[1]} can't be a name without quotes", f"Write {mended}", mended)
    return Mend("this line can't be read", _REMARK)


def _mend_value(key: str, value: str, keys: Mapping[str, FileKey]) -> Mend:
    if value.lower() in {"true", "false"}:
        mended = f"{key} = {value.lower()}"
        return Mend(f"{value} with a capital", f"Write {mended}", mended)
    if re.fullmatch(r"0+\d+", value):
        mended = f"{key} = {int(value)}"
        return Mend(f"a number can't begin with 0: {value}", f"Write {mended}", mended)
    known = keys.get(key)
    guess = None if known is None or known.is_text else meant(key, known, value)
    if known is not None and (guess or not known.takes_words):
        instead = guess or _as_in_the_example(key, keys)
        return Mend(f"{value} is not {known.takes}", f"Write {instead}")
    mended = f'{key} = "{value}"'
    return Mend(f"{value} has no quotes", f"Write {mended}", mended)


def _as_in_the_example(key: str, keys: Mapping[str, FileKey]) -> str:
    return assignment(key, keys[key].example if key in keys else None)
