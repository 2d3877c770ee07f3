"""The scores of a class, printed."""

from collections.abc import Iterator
from datetime import datetime
from typing import Any

from classclock.commands.shared.printing import print_json, print_tables
from classclock.records.document import PieceResults, ResultsDocument, plain_values
from classclock.tally.signs import signed, told_by
from classclock.units.printable import printable

_WHOLE = ("rank", "athlete", "score")
"""Columns that give way to a narrow window last."""


def print_results(document: ResultsDocument, *, as_json: bool) -> None:
    """Print what a results file holds: as a table for a terminal, or all of it as JSON."""
    if as_json:
        print_json(plain_values(document))
    else:
        _print_table(document)


def _print_table(document: ResultsDocument) -> None:
    from rich.table import Table  # noqa: PLC0415  rich takes its time, and JSON does without
    from rich.text import Text  # noqa: PLC0415

    started = datetime.fromisoformat(document.started)
    shown: list[Text | Table] = [Text(f"{printable(document.title)}, {started:%Y-%m-%d %H:%M}")]
    for piece in document.pieces:
        table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0), title_justify="left")
        table.title = Text(f"{printable(piece.name)} ({piece.status})")
        for column in ("rank", "athlete", "score", "modification", "status", "note"):
            title, whole = "" if column == "rank" else column, column in _WHOLE
            table.add_column(title, justify=_side(column), no_wrap=whole, overflow="fold")
        for lane in piece.lanes:
            rank = "" if lane.rank is None else f"{lane.rank}."
            words = (lane.athlete, lane.score, lane.modification or "as written")
            cells = (rank, *words, lane.status, lane.note)
            table.add_row(*(Text(printable(cell)) for cell in cells))
        shown += [Text(), table, *map(Text, _doubts(piece))]
    print_tables(*shown)


def _doubts(piece: PieceResults) -> Iterator[str]:
    """What was to be looked at when they were saved, each behind its sign."""
    for lane in piece.lanes:
        for flag in lane.flags:
            yield printable(signed(told_by(flag), f"{lane.athlete}: {flag}"))


def _side(column: str) -> Any:
    return "right" if column in ("rank", "score") else "left"
