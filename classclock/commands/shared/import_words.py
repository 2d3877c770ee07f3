"""What is said of an import: for the coach line by line, for programs as values."""

from collections import Counter
from collections.abc import Iterator
from typing import Any

from msgspec import to_builtins

from classclock.book.files.import_lines import Import
from classclock.book.importing.importing import ReadyImport
from classclock.book.importing.questions import SheetQuestion, of_all_such
from classclock.book.importing.spreadsheet import SheetReading
from classclock.commands.shared.printing import counted
from classclock.records.document import known
from classclock.report.cells import pad
from classclock.units.printable import printable

ALONE = "the results alone of what book export wrote"
"""What a single table of an export is taken for."""
_MANY = 3
"""With more questions of one kind than this it is said how all are answered at once."""


def import_values(
    reading: SheetReading, ready: ReadyImport, number: int, *, imported: bool
) -> dict[str, Any]:
    return {
        "scores": len(ready.change.scores),
        "new_people": list(ready.new),
        "already": ready.already,
        "visits": len(known(ready.change.visits, ())),
        "lifts": len(known(ready.change.lifts, ())),
        "marks": len(known(ready.change.marks, ())),
        "goals": len(known(ready.change.goals, ())),
        "left_out": reading.left_out,
        "findings": len(reading.findings),
        "columns": to_builtins(reading.columns),
        "questions": to_builtins(reading.questions),
        "imported": imported,
        "change": number or None,
    }


def import_lines(
    reading: SheetReading, ready: ReadyImport, number: int, *, dry_run: bool
) -> Iterator[str]:
    scores = _what(ready.change)
    if dry_run and reading.kind and not reading.findings:
        yield from _taken(reading)
    if reading.questions:
        yield from _listed(reading.questions)
    if reading.findings:
        rows = counted(len(reading.findings), "row", "rows")
        yield f"Nothing went in: put {rows} right first."
    elif reading.questions:
        without = " without --dry-run" if dry_run else ""
        yield (
            f"Nothing went in yet. Start it in a terminal{without}, and each is asked; or say it "
            "ahead by --answer."
        )
    elif dry_run:
        yield f"{scores} would go in. Without --dry-run they do."
    elif number:
        yield f"{scores} went in. `classclock book undo {number}` takes them out again."
    else:
        yield "Nothing went in: there is nothing new in it."
    yield from _besides(reading, ready, went_in=bool(number))


def _besides(reading: SheetReading, ready: ReadyImport, *, went_in: bool) -> Iterator[str]:
    if reading.kind == ALONE:
        yield (
            "Visits, lifts and marks, so also who is off the wall, stand in the tables beside it: "
            "name the folder to have them too."
        )
    if ready.new:
        new = "New in the book" if went_in else "Not in the book yet"
        yield f"{new}: {', '.join(ready.new)}."
    if ready.already:
        it = "it" if ready.already == 1 else "them"
        yield f"{counted(ready.already, 'row', 'rows')} left out: the book has {it}."
    if left := [one.heading for one in reading.columns if not one.taken_for and one.heading]:
        named = ", ".join(f'"{printable(heading)}"' for heading in left)
        yield f"Columns left out: {named}. --columns says what one is."
    if reading.left_out:
        yield f"{counted(reading.left_out, 'row', 'rows')} left out, as you said."


def _what(change: Import) -> str:
    """`48 scores, 31 visits, 12 lifts and 2 marks`: an old sheet has scores alone."""
    scores = counted(len(change.scores), "score", "scores")
    more = (
        (known(change.visits, ()), "visit", "visits"),
        (known(change.lifts, ()), "lift", "lifts"),
        (known(change.marks, ()), "mark", "marks"),
        (known(change.goals, ()), "goal", "goals"),
    )
    others = [counted(len(each), one, many) for each, one, many in more if each]
    return " and ".join(filter(None, (", ".join((scores, *others[:-1])), *others[-1:])))


def _taken(reading: SheetReading) -> Iterator[str]:
    """What the file and each of its columns was taken for."""
    yield f"Read as {printable(reading.kind, longest=200)}."
    headings = pad([f'"{printable(one.heading)}"' for one in reading.columns])
    taken = pad([one.taken_for or "(left out)" for one in reading.columns])
    for heading, taken_for, one in zip(headings, taken, reading.columns, strict=True):
        example = printable(one.example, longest=100) if one.taken_for else ""
        yield f"  {heading}  {taken_for}  {example}".rstrip()


def _listed(questions: tuple[SheetQuestion, ...]) -> Iterator[str]:
    yield f"{counted(len(questions), 'question', 'questions')} first:"
    for question in questions:
        about = f" ({printable(question.about, longest=200)})" if question.about else ""
        yield f"  {printable(question.words, longest=200)}{about}"
        for choice in question.choices:
            said = printable(f'--answer "{question.key}={choice.value}"', longest=200)
            yield f"    {said}  {printable(choice.words, longest=200)}"
    kinds = Counter(of_all_such(question.key) for question in questions)
    for kind, times in kinds.items():
        if times > _MANY:
            yield f'  --answer "{kind}=CHOICE" answers all {times} of that kind.'
