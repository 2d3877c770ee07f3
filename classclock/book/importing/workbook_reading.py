"""Sheets in a spreadsheet's own file (.xlsx, .ods, .xls), read by python-calamine."""

import io
import zipfile
from collections.abc import Mapping
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import Any

from classclock.book.importing.questions import Asking, PossibleAnswer
from classclock.book.importing.sheet_table import (
    MOST_ROWS,
    SheetRow,
    SheetTable,
    UnreadableSheetError,
    too_many_rows,
)
from classclock.units.loads import plain

_STARTS = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")
"""Zip, of .xlsx and .ods (APPNOTE 4.3.7), and compound files, of .xls ([MS-CFB] 2.2)."""
_MOST_UNPACKED = 300_000_000
_NO_SHEET = "Open it, and save the sheet as CSV in UTF-8"
_DAY_ZERO = datetime(1899, 12, 30)  # noqa: DTZ001  a spreadsheet's days have no zone


def is_workbook(raw: bytes) -> bool:
    return raw.startswith(_STARTS)


def read_workbook(raw: bytes, asking: Asking) -> SheetTable:
    """Read its sheet; which one, where several hold something, is asked.

    Raises:
        UnreadableSheetError: it can't be read, or holds nothing.
        WaitingError, LeftOutError: as `Asking.answer` does.
    """
    _look_how_large(raw)
    import python_calamine as calamine  # noqa: PLC0415  only for such files

    faults = (calamine.CalamineError, calamine.ZipError, calamine.XmlError, calamine.PasswordError)
    try:
        with calamine.load_workbook(io.BytesIO(raw)) as book:
            sheets = {
                name: book.get_sheet_by_name(name).to_python(skip_empty_area=False)
                for name in book.sheet_names
            }
    except faults:
        raise UnreadableSheetError(
            "a spreadsheet that can't be read: damaged, or locked by a password", _NO_SHEET
        ) from None
    filled = {name: rows for name, rows in sheets.items() if any(any(map(_said, r)) for r in rows)}
    name = _chosen(filled, asking)
    if len(filled[name]) > MOST_ROWS:
        raise too_many_rows()
    rows = (
        SheetRow(number, tuple(map(_said, cells)))
        for number, cells in enumerate(filled[name], start=1)
    )
    return SheetTable(tuple(row for row in rows if any(row.cells)), f'the sheet "{name}"')


def _look_how_large(raw: bytes) -> None:
    """A small file may unpack to one that fills the memory."""
    if not raw.startswith(_STARTS[0]):
        return
    try:
        with zipfile.ZipFile(io.BytesIO(raw)) as packed:
            unpacked = sum(one.file_size for one in packed.infolist())
    except (zipfile.BadZipFile, ValueError, NotImplementedError):
        raise UnreadableSheetError("a spreadsheet that is damaged or cut off", _NO_SHEET) from None
    if unpacked > _MOST_UNPACKED:
        raise UnreadableSheetError("a spreadsheet far too large", "Save the one sheet as CSV")


def _chosen(filled: Mapping[str, Any], asking: Asking) -> str:
    if not filled:
        raise UnreadableSheetError("a spreadsheet that holds nothing", _NO_SHEET)
    if len(filled) == 1:
        return next(iter(filled))
    choices = [
        PossibleAnswer(name, f'"{name}", {_size(len(rows))}') for name, rows in filled.items()
    ]
    return asking.answer("sheet", "which sheet has the scores?", choices, "", leave=False)


def _size(rows: int) -> str:
    return "1 row" if rows == 1 else f"{rows} rows"


def _said(cell: object) -> str:
    """A cell as text: days as in 2026-03-01, times as a clock has them, with their hours."""
    match cell:
        case bool():
            return str(cell).lower()
        case datetime():
            # Over a day, a time is shown as one of 1900: spreadsheets count on from day zero.
            if cell.year < 1901:
                return _clock(cell - _DAY_ZERO)
            return cell.date().isoformat()
        case date():
            return cell.isoformat()
        case time():
            as_length = timedelta(
                hours=cell.hour,
                minutes=cell.minute,
                seconds=cell.second,
                microseconds=cell.microsecond,
            )
            return _clock(as_length)
        case timedelta():
            return _clock(cell)
        case float() if abs(cell) < 2**53:
            return plain(Decimal(str(round(cell, 6))))  # 82.30000000000001 is 82.3
        case _:
            return " ".join(str(cell).split())


def _clock(length: timedelta) -> str:
    """`12:03:00`, with tenths where there are any."""
    tenths = round(length / timedelta(milliseconds=1))
    seconds, ms = divmod(tenths, 1000)
    after = f".{ms:03}".rstrip("0") if ms else ""
    return f"{seconds // 3600}:{seconds // 60 % 60:02}:{seconds % 60:02}{after}"
