"""The commands that need no screen: each answers with text or JSON, and an exit status."""

import json
import sys
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from classclock.club.plan_files import plan_path, read_plan
from classclock.plan.plan_file import PlanFile
from classclock.plan.settings.club import Club
from classclock.units.loads import Unit
from classclock.units.printable import printable

if TYPE_CHECKING:
    from classclock.records.document import ResultsDocument

OK, FINDINGS, BAD_USE = 0, 1, 2


def say_wrong(text: str) -> None:
    """Write one line to standard error."""
    print(printable(text, longest=2000), file=sys.stderr)


def plan_file(named: str, unit: Unit) -> PlanFile | None:
    """The plan, read; where it is faulty every finding is printed, and None comes back."""
    path = plan_path(named)
    plan, findings = read_plan(path, unit)
    for finding in findings:
        say_wrong(str(finding))
    return PlanFile(path.stem, path.read_text("utf-8-sig"), plan) if plan is not None else None


def schema() -> int:
    from classclock.plan.reading.schema import plan_schema  # noqa: PLC0415  one command needs it

    print_json(plan_schema())
    return OK


def replay(path: Path, *, as_json: bool) -> int:
    """Work the scores out again from a journal, and say whether they equal the saved ones."""
    from classclock.book.files.journal import JournalDamagedError, read_journal  # noqa: PLC0415
    from classclock.live.replaying import replayed  # noqa: PLC0415
    from classclock.records.class_document import results_document  # noqa: PLC0415

    try:
        journal = read_journal(path)
        record = replayed(journal)
    except (JournalDamagedError, ValueError) as error:
        say_wrong(str(error))
        return FINDINGS
    except OSError as error:
        say_wrong(f"{path}: this journal can't be read ({error.strerror}). Check its name.")
        return FINDINGS
    if journal.torn:
        say_wrong(f"{path}: the last line is torn, as after a power cut: it is left out")
    document = results_document(record, started=journal.anchors[0].wall, journal=path.name)
    verdict, status = _compared(document, path)
    if as_json:
        _print_values(document)
    else:
        print_results(document)
        print(verdict)
    return status


def _compared(document: "ResultsDocument", journal: Path) -> tuple[str, int]:
    """Whether it equals the saved results, in words, and the exit status."""
    from classclock.book.files.saved_results import (  # noqa: PLC0415
        DamagedResultsError,
        ResultsError,
        saved_for,
    )
    from classclock.records.differences import differences  # noqa: PLC0415

    try:
        saved = saved_for(journal)
    except DamagedResultsError as error:
        return f"Not as saved in {error.path.name}:\n  the saved results are damaged", FINDINGS
    except ResultsError as error:
        return f"Not compared with {error.path.name}: {error.why}", FINDINGS
    if saved is None:
        return "No results file of this class was found to compare with.", OK
    path, before = saved
    if unequal := differences(document, before):
        return "\n  ".join((f"Not as saved in {path.name}:", *unequal)), FINDINGS
    return f"The same as saved in {path.name}.", OK


def rehearse(
    plan: str,
    names: Sequence[str],
    taps_path: str,
    *,
    segment: str | None,
    folder: Path,
    club: Club,
    as_json: bool,
) -> int:
    """One piece, its taps from a file, its results printed. No screen, no waiting.

    Percentages are of what each has lifted in the club in `folder`.
    """
    from classclock.book.asking.lift_reading import LiftReading, loads_reader  # noqa: PLC0415
    from classclock.club.movements import filled_in  # noqa: PLC0415
    from classclock.live import rehearsal  # noqa: PLC0415
    from classclock.records.class_document import results_document  # noqa: PLC0415
    from classclock.tally.keys.taps_file import read_taps  # noqa: PLC0415

    read = plan_file(plan, club.unit)
    try:
        raw = Path(taps_path).read_bytes()
    except OSError as error:
        say_wrong(f"{taps_path}: this file can't be read ({error.strerror}). Check its name.")
        return FINDINGS
    taps, findings = read_taps(raw, taps_path)
    for finding in findings:
        say_wrong(str(finding))
    if read is None or findings:
        return FINDINGS
    read, trouble = filled_in(read, folder)
    if trouble:
        say_wrong(trouble)
    try:
        index = rehearsal.piece_called(read.plan, segment)
        reading = LiftReading(folder)
        rehearsed = rehearsal.rehearse(
            read.plan,
            tuple(names),
            taps,
            segment=index,
            unit=club.unit,
            stop=club.care.stop,
            read_loads=loads_reader(read.plan, club, reading),
        )
    except (LookupError, ValueError) as error:
        say_wrong(str(error.args[0]))
        return BAD_USE
    for flag in rehearsed.flags:
        say_wrong(f"before the start, {flag.name}: {flag.text}")
    for refused in rehearsed.refused:
        say_wrong(f"{taps_path}:{refused.line}  {refused.keys}: {refused.why}")
    started = rehearsed.started.isoformat(timespec="seconds")
    document = results_document(rehearsed.record, started=started, journal="")
    _print(document, as_json=as_json)
    return OK


def results(folder: Path, *, as_json: bool) -> int:
    """The newest results file of the club."""
    from classclock.book.files.saved_results import (  # noqa: PLC0415
        DamagedResultsError,
        ResultsError,
        newest,
    )

    try:
        found = newest(folder)
    except DamagedResultsError as error:
        say_wrong(
            f"the newest results file in {folder} is damaged: `classclock replay` works the scores"
            f" out again from its journal, {printable(error.journal)}"
        )
        return FINDINGS
    except ResultsError as error:
        say_wrong(str(error))
        return FINDINGS
    if found is None:
        say_wrong(f"no results in {folder} yet: they are saved there when a class's cap ends")
        return FINDINGS
    _print(found, as_json=as_json)
    return OK


def print_results(document: "ResultsDocument") -> None:
    """The scores of a class as a table for a terminal."""
    from rich.console import Console  # noqa: PLC0415
    from rich.table import Table  # noqa: PLC0415
    from rich.text import Text  # noqa: PLC0415

    started = datetime.fromisoformat(document.started)
    shown: list[Text | Table] = [Text(f"{printable(document.title)}, {started:%Y-%m-%d %H:%M}")]
    for piece in document.pieces:
        table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0), title_justify="left")
        table.title = Text(f"{printable(piece.name)} ({piece.status})")
        for column in ("rank", "athlete", "score", "modification", "status", "note"):
            table.add_column("" if column == "rank" else column, justify=_side(column))
        for lane in piece.lanes:
            rank = "" if lane.rank is None else f"{lane.rank}."
            words = (lane.athlete, lane.score, lane.modification or "as written")
            cells = (rank, *words, lane.status, lane.note)
            table.add_row(*(Text(printable(cell)) for cell in cells))
        shown += [Text(), table]
    console = Console(highlight=False)
    for each in shown:
        console.print(each)


def _side(column: str) -> Any:
    return "right" if column in ("rank", "score") else "left"


def _print(document: "ResultsDocument", *, as_json: bool) -> None:
    _print_values(document) if as_json else print_results(document)


def _print_values(document: "ResultsDocument") -> None:
    from classclock.records.document import plain_values  # noqa: PLC0415  a class was read

    print_json(plain_values(document))


def print_json(document: object) -> None:
    """Print one document."""
    print(json.dumps(document, ensure_ascii=False, indent=1))
