"""Small workbooks, written as the standards have them: ECMA-376 (.xlsx) and ODF 1.2 (.ods)."""

import io
import zipfile
from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from xml.sax.saxutils import escape

Cell = str | float | date | timedelta
Rows = Sequence[Sequence[Cell]]
"""A length of time is what a spreadsheet makes of `12:03`: hours and minutes."""

_DAY, _TIME, _LONG = 14, 20, 46
"""Formats of numbers that every spreadsheet knows: m/d/yyyy, h:mm, [h]:mm:ss (18.8.30)."""
_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_RELATED = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006"
_ODF = "urn:oasis:names:tc:opendocument:xmlns"


def xlsx(sheets: Mapping[str, Rows]) -> bytes:
    numbers = range(1, len(sheets) + 1)
    named = "".join(
        f'<sheet name="{escape(name)}" sheetId="{n}" r:id="r{n}"/>'
        for n, name in zip(numbers, sheets, strict=True)
    )
    styles = "".join(f'<xf numFmtId="{one}"/>' for one in (0, _DAY, _TIME, _LONG))
    return _packed(
        {
            "[Content_Types].xml": f'<Types xmlns="{_PACKAGE}/content-types">'
            '<Default Extension="rels" ContentType='
            '"application/vnd.openxmlformats-package.relationships+xml"/>'
            '<Default Extension="xml" ContentType="application/xml"/></Types>',
            "_rels/.rels": _related({"r1": ("officeDocument", "xl/workbook.xml")}),
            "xl/workbook.xml": f'<workbook xmlns="{_MAIN}" xmlns:r="{_RELATED}">'
            f"<sheets>{named}</sheets></workbook>",
            "xl/_rels/workbook.xml.rels": _related(
                {
                    **{f"r{n}": ("worksheet", f"worksheets/sheet{n}.xml") for n in numbers},
                    "styles": ("styles", "styles.xml"),
                }
            ),
            "xl/styles.xml": f'<styleSheet xmlns="{_MAIN}">'
            f"<cellXfs>{styles}</cellXfs></styleSheet>",
            **{
                f"xl/worksheets/sheet{n}.xml": f'<worksheet xmlns="{_MAIN}"><sheetData>'
                f"{''.join(map(_xlsx_row, rows, range(1, len(rows) + 1)))}</sheetData></worksheet>"
                for n, rows in zip(numbers, sheets.values(), strict=True)
            },
        }
    )


def _xlsx_row(cells: Sequence[Cell], row: int) -> str:
    inner = "".join(_xlsx_cell(cell, f"{chr(65 + n)}{row}") for n, cell in enumerate(cells))
    return f'<row r="{row}">{inner}</row>'


def _xlsx_cell(cell: Cell, at: str) -> str:
    match cell:
        case str():
            return f'<c r="{at}" t="inlineStr"><is><t>{escape(cell)}</t></is></c>'
        case timedelta():
            style = 2 if cell < timedelta(days=1) else 3
            return f'<c r="{at}" s="{style}"><v>{cell / timedelta(days=1)}</v></c>'
        case date():
            return f'<c r="{at}" s="1"><v>{(cell - date(1899, 12, 30)).days}</v></c>'
        case _:
            return f'<c r="{at}"><v>{cell}</v></c>'


def ods(sheets: Mapping[str, Rows]) -> bytes:
    tables = "".join(
        f'<table:table table:name="{escape(name)}">{"".join(map(_ods_row, rows))}</table:table>'
        for name, rows in sheets.items()
    )
    spaces = " ".join(f'xmlns:{name}="{_ODF}:{name}:1.0"' for name in ("office", "table", "text"))
    kind = "application/vnd.oasis.opendocument.spreadsheet"
    return _packed(
        {
            "mimetype": kind,
            "META-INF/manifest.xml": f'<m:manifest xmlns:m="{_ODF}:manifest:1.0">'
            f'<m:file-entry m:full-path="/" m:media-type="{kind}"/></m:manifest>',
            "content.xml": f"<office:document-content {spaces}><office:body><office:spreadsheet>"
            f"{tables}</office:spreadsheet></office:body></office:document-content>",
        }
    )


def _ods_row(cells: Sequence[Cell]) -> str:
    return f"<table:table-row>{''.join(map(_ods_cell, cells))}</table:table-row>"


def _ods_cell(cell: Cell) -> str:
    match cell:
        case str():
            kind, value = "string", ""
        case timedelta():
            minutes = cell // timedelta(minutes=1)
            kind, value = "time", f' office:time-value="PT{minutes // 60}H{minutes % 60:02}M00S"'
        case date():
            kind, value = "date", f' office:date-value="{cell.isoformat()}"'
        case _:
            kind, value = "float", f' office:value="{cell}"'
    text = escape(str(cell))
    return (
        f'<table:table-cell office:value-type="{kind}"{value}>'
        f"<text:p>{text}</text:p></table:table-cell>"
    )


def _related(to: Mapping[str, tuple[str, str]]) -> str:
    each = "".join(
        f'<Relationship Id="{ident}" Type="{_RELATED}/{kind}" Target="{target}"/>'
        for ident, (kind, target) in to.items()
    )
    return f'<Relationships xmlns="{_PACKAGE}/relationships">{each}</Relationships>'


def _packed(files: Mapping[str, str]) -> bytes:
    into = io.BytesIO()
    with zipfile.ZipFile(into, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, text in files.items():
            head = "" if name == "mimetype" else '<?xml version="1.0" encoding="UTF-8"?>'
            packed.writestr(name, head + text)
    return into.getvalue()
