"""A taps file: what a rehearsal types, and when. CSV, `seconds,keys`, one row a moment.

Seconds are real ones since go, held time included; keys are in the key language, written together
(`12n`), with names in angle brackets for those without a sign (`<space>`).
"""

import codecs
import csv
import difflib
import re
from decimal import ROUND_HALF_EVEN, Decimal

from msgspec import Struct

from classclock.plan.findings import Finding
from classclock.tally.keys.strokes import NAMED_KEYS, SIGNS
from classclock.units.printable import printable
from classclock.units.times import parse_time

_SECONDS = re.compile(r"\d{1,6}(?:\.\d{0,20})?|\.\d{1,20}", re.ASCII)
_SIGN = re.compile(r"<[a-z0-9+]+>|.", re.IGNORECASE | re.DOTALL)
_MOST_FINDINGS = 200
_EXAMPLE = 'a moment and its keys, as in "83.5,12n"'


class TapRow(Struct, frozen=True):
    """Keys struck at one moment. `at` is milliseconds of real time since go."""

    at: int
    signs: tuple[str, ...]
    line: int


class _FaultError(Exception):
    """What is wrong with a row, and what to write instead."""

    def __init__(self, what: str, instead: str) -> None:
        super().__init__(what)
        self.what, self.instead = what, instead


def read_taps(raw: bytes, file: str) -> tuple[tuple[TapRow, ...], tuple[Finding, ...]]:
    """The rows that can be read, and a finding for each that can't. Never raises.

    A header line is optional; blank lines and lines that begin with # are left out. Rows stand in
    order of time. After 200 findings the rest is left unread.
    """
    rows: list[TapRow] = []
    findings: list[Finding] = []
    for number, line in enumerate(raw.removeprefix(codecs.BOM_UTF8).splitlines(), start=1):
        try:
            fields = _fields(line)
            if not fields or (_is_header(fields) and not rows and not findings):
                continue
            row = _row(fields, number)
            _check_order(row, rows)
            rows.append(row)
        except _FaultError as fault:
            findings.append(Finding(file, number, None, fault.what, fault.instead))
            if len(findings) == _MOST_FINDINGS:
                break
    return tuple(rows), tuple(findings)


def _fields(raw_line: bytes) -> list[str]:
    """The fields of a line; none for a blank line or a remark."""
    try:
        line = raw_line.decode().strip()
    except UnicodeDecodeError as error:
        raise _FaultError("not UTF-8 text", "Save the file as UTF-8") from error
    if "\0" in line:
        raise _FaultError("a NUL character", "Save the file as plain text in UTF-8")
    if not line or line.startswith("#"):
        return []
    try:
        return [text.strip() for text in next(csv.reader([line], strict=True))]
    except csv.Error as error:
        raise _FaultError("quotes that don't match", f"Write {_EXAMPLE}") from error


def _is_header(fields: list[str]) -> bool:
    return [text.lower() for text in fields] == ["seconds", "keys"]


def _row(fields: list[str], line: int) -> TapRow:
    if len(fields) == 1:
        raise _FaultError(f'"{printable(fields[0])}" is only one column', f"Write {_EXAMPLE}")
    if len(fields) > 2:
        keys = printable(",".join(fields[1:]))
        raise _FaultError(
            f"{len(fields)} columns", f'Keys with a comma stand in quotes: {fields[0]},"{keys}"'
        )
    return TapRow(_milliseconds(fields[0]), _signs(fields[1]), line)


def _milliseconds(written: str) -> int:
    """Exact: no float on the way. What is finer than a millisecond is rounded."""
    if _SECONDS.fullmatch(written):
        return int((Decimal(written) * 1000).quantize(Decimal(1), ROUND_HALF_EVEN))
    shown = printable(written)
    if written.startswith("-"):
        raise _FaultError(f"{shown} is before go", "Seconds count from go: write 0 or more")
    try:
        seconds = Decimal(parse_time(written)) / 1000
    except ValueError:
        raise _FaultError(
            f'"{shown}" is not a moment', "Write seconds since go, as in 83 or 83.5"
        ) from None
    raise _FaultError(f"{shown} is not in seconds", f"Write {seconds}")


def split_signs(keys: str) -> tuple[str, ...]:
    """Keys written together, one by one: `7+n<space>` is 7, +, n and space."""
    return tuple(sign.lower() if len(sign) > 1 else sign for sign in _SIGN.findall(keys))


def _signs(keys: str) -> tuple[str, ...]:
    signs = split_signs(keys)
    if not signs:
        raise _FaultError("no keys", f"Write {_EXAMPLE}")
    for sign in signs:
        if not sign.isascii() or sign.lower() not in SIGNS:
            raise _unknown(sign)
    return signs


def _unknown(sign: str) -> _FaultError:
    if sign.isspace():
        return _FaultError("a blank among the keys", "Leave it out, or write <space> for that key")
    shown = printable(sign)
    if len(sign) > 1:
        near = difflib.get_close_matches(sign, NAMED_KEYS, n=1, cutoff=0.5)
        return _FaultError(f"no key is called {shown}", f"Write {' or '.join(near or NAMED_KEYS)}")
    return _FaultError(
        f'no key types "{shown}"', "Write letters a to z, digits, signs, or a name as in <space>"
    )


def _check_order(row: TapRow, rows: list[TapRow]) -> None:
    if rows and row.at < rows[-1].at:
        raise _FaultError(
            f"this moment is earlier than the one in line {rows[-1].line}",
            "Put the rows in order of time",
        )
