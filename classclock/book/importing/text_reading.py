"""Sheets saved as text: which encoding, what stands between the columns, and the rows."""

import codecs
import csv
import io
import re

from classclock.book.importing.questions import Asking, PossibleAnswer
from classclock.book.importing.sheet_table import (
    MOST_ROWS,
    SheetRow,
    SheetTable,
    UnreadableSheetError,
    too_many_rows,
)
from classclock.units.csv_cells import unguarded

_SEPARATORS = ",;\t|"
_SAYS_IT = re.compile(r"\ufeff?sep=(.)\r?(?:\n|$)", re.IGNORECASE)
"""The line by which spreadsheets are told what stands between the columns: common practice."""
_NO_TEXT = re.compile("[\x00-\x08]")
_CALLED = {"\t": "tabs"}
_WESTERN = "cp1252"
"""What is no UTF-8 was most often written by a Western European Windows: common practice."""
_CODE_PAGES = {
    _WESTERN: "Western European",
    "cp1250": "Central European",
    "cp1251": "Cyrillic",
    "cp1253": "Greek",
    "cp1254": "Turkish",
}
_ODD = re.compile(
    r"\w*(?:[^\W\d_][\xa3\xa5\xaf\xb1\xb2\xb3\xb9\xbe\xbf\u0178][^\W\d_]"
    r"|(?<!\w)[\xa3\xa5\xaf\xbf][^\W\d_]|[\xc0-\xff]{3})\w*"
)
"""Words that a Western European file hardly has: `S³awek` was Sławek, `Ìàðèÿ` Мария."""


def read_text_sheet(raw: bytes, asking: Asking, encoding: str = "") -> SheetTable:
    """Read it; without `encoding` it is told from the bytes, or asked.

    Raises:
        UnreadableSheetError: it is no text, or there is no such encoding.
        WaitingError: its encoding has to be asked.
    """
    text, called = _decoded(raw, encoding, asking)
    if _NO_TEXT.search(text):
        raise UnreadableSheetError(
            "no text at all", "Save the spreadsheet as CSV, or import its .xlsx or .ods"
        )
    said = _SAYS_IT.match(text)
    separator = said[1] if said else _separator(text)
    body = text[said.end() :] if said else text.removeprefix("\ufeff")
    rows, broken = _rows(body, separator, first=2 if said else 1)
    between = _CALLED.get(separator, separator)
    kind = f"text in {called}, with {between} between the columns"
    return SheetTable(tuple(rows), kind, broken)


def _rows(body: str, separator: str, first: int) -> tuple[list[SheetRow], int]:
    """The rows that hold something, and the line from which on they can't be read, or 0."""
    table = csv.reader(io.StringIO(body, newline=""), delimiter=separator, strict=True)
    rows: list[SheetRow] = []
    try:
        for cells in table:
            tidy = tuple(unguarded(cell.strip()) for cell in cells)
            if any(tidy):
                rows.append(SheetRow(table.line_num + first - 1, tidy))
                if len(rows) > MOST_ROWS:
                    raise too_many_rows()
    except csv.Error:
        return rows, table.line_num + first - 1
    return rows, 0


def _decoded(raw: bytes, encoding: str, asking: Asking) -> tuple[str, str]:
    if encoding:
        return _as_said(raw, encoding), encoding
    if raw.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return _as_utf_16(raw, "utf-16"), "UTF-16"
    if half := _zeros_in_every_second(raw):
        return _as_utf_16(raw, half), "UTF-16"
    try:
        return raw.decode("utf-8-sig"), "UTF-8"
    except UnicodeDecodeError:
        return _eight_bits(raw, asking)


def _eight_bits(raw: bytes, asking: Asking) -> tuple[str, str]:
    """Western European, unless its words look as no word there does: then it is asked."""
    text = raw.decode(_WESTERN, "replace")
    odd = _ODD.search(text)
    if odd is None:
        return text, f"{_CODE_PAGES[_WESTERN]} ({_WESTERN})"
    word = raw[odd.start() : odd.end()]  # a byte is a sign
    read_as = {name: word.decode(name, "replace") for name in _CODE_PAGES}
    choices = [
        PossibleAnswer(name, f"{said}, {_CODE_PAGES[name]}") for name, said in read_as.items()
    ]
    line = text.count("\n", 0, odd.start()) + 1
    question = "text: the file doesn't say in which letters it is; how is this word written?"
    chosen = asking.answer("encoding", question, choices, f"line {line}", leave=False)
    return raw.decode(chosen, "replace"), f"{_CODE_PAGES[chosen]} ({chosen})"


def _as_said(raw: bytes, encoding: str) -> str:
    try:
        return raw.decode(encoding)
    except (LookupError, ValueError):
        raise UnreadableSheetError(
            f'it is no text in "{encoding}"',
            "Write --encoding utf-8, utf-16, latin-1, cp1250 or whatever it was saved in",
        ) from None


def _as_utf_16(raw: bytes, encoding: str) -> str:
    try:
        return raw.decode(encoding)
    except UnicodeDecodeError:
        raise UnreadableSheetError(
            "UTF-16 that is cut off or damaged", "Save the spreadsheet anew, as CSV in UTF-8"
        ) from None


def _zeros_in_every_second(raw: bytes) -> str:
    """UTF-16 without its mark: of mostly Latin letters every second byte is zero."""
    start = raw[:400]
    if len(start) < 8:
        return ""
    for name, zeros in (("utf-16-le", start[1::2]), ("utf-16-be", start[::2])):
        if zeros.count(0) > 0.8 * len(zeros):
            return name
    return ""


def _separator(text: str) -> str:
    """What stands most often in the first lines, outside quotes."""
    lines = [re.sub(r'"[^"]*"', "", line) for line in text.splitlines()[:10] if line.strip()]
    most = max(("".join(lines).count(sign), -at, sign) for at, sign in enumerate(_SEPARATORS))
    return most[2]
