"""Writing results: one JSON for a class, one CSV beside it for each piece."""

import json
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path

from msgspec import UNSET
from msgspec.json import format as json_format

from classclock.book.files.saved_results import (
    DamagedResultsError,
    ResultsError,
    read_results,
)
from classclock.machine.file_names import file_safe
from classclock.machine.whole_file import write_whole
from classclock.records.document import COLUMNS, PieceResults, ResultsDocument, plain_values
from classclock.units.csv_cells import csv_bytes


def path_for(document: ResultsDocument, plan_name: str, folder: Path) -> Path:
    """Where a document goes in the folder: a name that another class has is left alone."""
    started = datetime.fromisoformat(document.started)
    wanted = f"{started:%Y-%m-%d-%H%M}-{file_safe(plan_name)}"
    stem, number = wanted, 1
    while not _is_free(folder, stem, document.journal):
        number += 1
        stem = f"{wanted}-{number}"
    return folder / f"{stem}.json"


def _is_free(folder: Path, stem: str, journal: str) -> bool:
    """Whether nothing has this name, or earlier results of the class with this journal."""
    path = folder / f"{stem}.json"
    if path.exists():
        return _is_of(path, journal)
    return not any(folder.glob(f"{stem}.*")) and not any(folder.glob(f"{stem}-*.csv"))


def settled_only_in(path: Path, document: ResultsDocument) -> str:
    """The name of a piece that is settled in the file and not in the document; empty if none is.

    So it is where a disk took the results of a class and not the end of its journal.
    """
    try:
        before = read_results(path)
    except ResultsError:
        return ""
    settled = {(one.name, one.attempt) for one in document.pieces if one.status == "settled"}
    further = (
        one.name
        for one in before.pieces
        if one.status == "settled" and (one.name, one.attempt) not in settled
    )
    return next(further, "")


def write_document(path: Path, document: ResultsDocument) -> tuple[Path, ...]:
    """Write a results document, then the CSV files of its pieces beside it; all of their paths.

    In this order, so that a CSV file without its document is never ours to write over.

    Raises:
        OSError: one of them can't be written.
    """
    write_json(path, document)
    return path, *write_tables(path, document)


def document_files(path: Path, document: ResultsDocument) -> dict[Path, bytes]:
    """The same files, as they would be written."""
    return {path: _json(document), **_tables(path, document)}


def write_json(path: Path, document: ResultsDocument) -> None:
    """Write a results document alone. Raises OSError."""
    write_whole(path, _json(document))


def write_tables(path: Path, document: ResultsDocument) -> tuple[Path, ...]:
    """Write the CSV files of the pieces beside the document; all of their paths. Raises OSError."""
    tables = _tables(path, document)
    for beside, table in tables.items():
        write_whole(beside, table)
    return tuple(tables)


def _json(document: ResultsDocument) -> bytes:
    text = json.dumps(plain_values(document), ensure_ascii=False)
    # Broken into lines as json.dumps does it, in a tenth of the time: an erasure writes thousands.
    return json_format(text.encode("utf-8", "replace"), indent=1) + b"\n"


def _tables(path: Path, document: ResultsDocument) -> dict[Path, bytes]:
    named = _named_pieces(document.pieces)
    return {path.with_name(f"{path.stem}-{name}.csv"): _table(piece) for name, piece in named}


def _table(piece: PieceResults) -> bytes:
    """The piece as CSV, with the columns that its document has."""
    unsaid = {
        column for column in COLUMNS for lane in piece.lanes if getattr(lane, column) is UNSET
    }
    columns = [column for column in COLUMNS if column not in unsaid]
    rows = [[getattr(lane, column) for column in columns] for lane in piece.lanes]
    return csv_bytes(columns, rows)


def _is_of(path: Path, journal: str) -> bool:
    """Whether this document holds earlier results of the class with this journal."""
    try:
        return read_results(path).journal == journal
    except DamagedResultsError as error:
        return error.journal == journal
    except ResultsError:
        return False


def _named_pieces(pieces: Sequence[PieceResults]) -> list[tuple[str, PieceResults]]:
    named: dict[str, PieceResults] = {}
    for piece in pieces:
        wanted = file_safe(piece.name)
        name, number = wanted, 1
        while name in named:
            number += 1
            name = f"{wanted}-{number}"
        named[name] = piece
    return list(named.items())
