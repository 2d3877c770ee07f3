"""The command `book`: changes to it, old records in, everything out."""

import argparse
import difflib
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from sqlalchemy import Connection

from classclock.book.changing import change_words, take_back_newest, write_down
from classclock.book.erasing.erasing import OUT_OF_REACH, ClassRunningError, Reach, erase, look
from classclock.book.exporting import export_book
from classclock.book.files.changes import Change, ChangesDamagedError, MarkSet, Merge, Rename
from classclock.book.importing.importing import ReadyImport, benchmark_kinds, ready_import
from classclock.book.importing.spreadsheet import read_spreadsheet
from classclock.book.tables.catching_up import catch_up
from classclock.book.tables.keeping import kept_book, make_anew, now_ns
from classclock.book.tables.opening import Book, BookError
from classclock.book.tables.queries import Athlete, all_athletes, find
from classclock.clock.source import local_now
from classclock.commands.headless import BAD_USE, FINDINGS, OK, print_json, say_wrong
from classclock.tally.lanes import Mark
from classclock.units.loads import Unit
from classclock.units.printable import can_be_shown

MARKS: dict[str, Mark] = {
    "under-18": "under 18",
    "newcomer": "newcomer",
    "back-after-weeks": "back after weeks",
    "off-the-wall": "off the wall",
}


class AskedWrongError(Exception):
    """The question can't be answered; `str` says what to write instead."""


def with_book(folder: Path, do: Callable[[Book], int]) -> int:
    """Open the club's book, bring it up to date, and do something; faults are said in words."""

    def opened() -> int:
        with kept_book(folder, now_ns()) as (book, caught):
            for notice in caught.notices:
                say_wrong(notice)
            return do(book)

    return in_words(folder, opened)


def in_words(folder: Path, do: Callable[[], int]) -> int:
    """Do something with the club's book; what goes wrong is said, and told by the exit status."""
    try:
        return do()
    except AskedWrongError as error:
        say_wrong(str(error))
        return BAD_USE
    except (BookError, ChangesDamagedError, ClassRunningError) as error:
        say_wrong(str(error))
    except BrokenPipeError:
        raise  # whoever read our output has stopped: the command line knows
    except OSError as error:
        say_wrong(f"{error.filename or folder}: {error.strerror}")
    return FINDINGS


def the_one(connection: Connection, who: str) -> Athlete:
    """The athlete of this name or id.

    Raises:
        AskedWrongError: nobody is called so, or several are.
    """
    found = find(connection, who)
    if len(found) == 1:
        return found[0]
    if found:
        ids = " or ".join(one.id for one in found)
        raise AskedWrongError(f"several people are called {who}: write which, {ids}")
    names = [one.name for one in all_athletes(connection)]
    near = difflib.get_close_matches(who, names, n=3, cutoff=0.5)
    instead = f"did you mean {' or '.join(near)}?" if near else "classclock chart shows who is"
    raise AskedWrongError(f"nobody in the book is called {who}: {instead}")


# -- the commands ------------------------------------------------------------------


def book(asked: argparse.Namespace, folder: Path, unit: Unit) -> int:
    """Run `book ACTION`."""
    if asked.action == "rebuild":
        return in_words(folder, lambda: _rebuild(folder, as_json=asked.json))
    if asked.action == "import":
        return with_book(folder, lambda book: _import(book, asked, unit))
    return with_book(folder, lambda book: _ACTIONS[asked.action](book, asked))


def _rebuild(folder: Path, *, as_json: bool) -> int:
    caught = make_anew(folder, now_ns())
    for notice in caught.notices:
        say_wrong(notice)
    _answer(
        {"classes": caught.classes},
        f"The book is made anew from {_counted(caught.classes, 'class', 'classes')}.",
        as_json=as_json,
    )
    return FINDINGS if caught.notices else OK


def _rename(book: Book, asked: argparse.Namespace) -> int:
    name = " ".join(asked.new.split())
    if not name or len(name) > 60 or not can_be_shown(name):
        raise AskedWrongError("that name can't be shown: write 1 to 60 letters")
    with book.reading() as connection:
        athlete = the_one(connection, asked.name)
        namesake = [one for one in find(connection, name) if one.id != athlete.id]
    if namesake:
        raise AskedWrongError(
            f"somebody else is called {name}: add an initial, or merge the two if they are one"
        )
    _change(book, [Rename(athlete=athlete.id, name=name)])
    return _done(asked, {"athlete": athlete.id, "name": name}, f"{athlete.name} is {name} now.")


def _merge(book: Book, asked: argparse.Namespace) -> int:
    with book.reading() as connection:
        gone, kept = the_one(connection, asked.gone), the_one(connection, asked.kept)
    if gone.id == kept.id:
        raise AskedWrongError("both names are one entry already")
    _change(book, [Merge(gone=gone.id, kept=kept.id, name=kept.name)])
    return _done(
        asked, {"gone": gone.id, "kept": kept.id}, f"All that was {gone.name}'s is {kept.name}'s."
    )


def _mark(book: Book, asked: argparse.Namespace) -> int:
    with book.reading() as connection:
        athlete = the_one(connection, asked.name)
    mark = MARKS[asked.mark]
    _change(book, [MarkSet(athlete=athlete.id, mark=mark, on=not asked.off)])
    said = f"{athlete.name} is {'no longer ' if asked.off else ''}marked: {mark}."
    return _done(asked, {"athlete": athlete.id, "mark": mark, "on": not asked.off}, said)


def _undo(book: Book, asked: argparse.Namespace) -> int:
    taken_back = take_back_newest(book.folder, local_now())
    if taken_back is None:
        raise AskedWrongError("there is no change to take back; an erasure can't be")
    catch_up(book, now_ns())
    with book.reading() as connection:
        names = {one.id: one.name for one in all_athletes(connection)}
    said = f"Taken back: {change_words(taken_back, names)}."
    return _done(asked, {"taken_back": taken_back.n, "change": taken_back.change}, said)


def _erase(book: Book, asked: argparse.Namespace) -> int:
    with book.reading() as connection:
        athlete = the_one(connection, asked.name)
    reach = erase(book, athlete, local_now()) if asked.yes else look(book, athlete)
    values = {
        "erased": asked.yes,
        "records": [str(path) for path in reach.files],
        "removed": [str(path) for path in reach.removed],
        "changed_since": [str(path) for path in reach.changed],
        "damaged": [str(path) for path in reach.damaged],
        "later": [str(path) for path in reach.later],
        "beside": [str(path) for path in reach.beside],
        "out_of_reach": list(OUT_OF_REACH),
    }
    lines = [*_reach_lines(athlete, reach, done=asked.yes)]
    if not asked.yes:
        lines.append("Nothing is changed yet. It can't be taken back: add --yes to do it.")
    _answer(values, "\n".join(lines), as_json=asked.json)
    return OK if reach.whole else FINDINGS


def _reach_lines(athlete: Athlete, reach: Reach, *, done: bool) -> list[str]:
    will = "" if done else "would be "
    number = _counted(len(reach.files), "journal or results file", "journals and results files")
    lines = [f"{athlete.name}: {will}taken out of the book and of {number}."]
    lines += [f"  {will}removed: {path}" for path in reach.removed]
    lines += [
        f"  look yourself, it was changed since it was written: {path}" for path in reach.changed
    ]
    lines += [f"  look yourself, it is damaged, and left as it is: {one}" for one in reach.damaged]
    lines += [
        f"  update this classclock and look yourself, it was made by a later one, "
        f"and left as it is: {one}"
        for one in reach.later
    ]
    lines += [f"  look yourself, it belongs to one of these: {one}" for one in reach.beside]
    lines += ["Out of reach:", *(f"  {line}" for line in OUT_OF_REACH)]
    return lines


def _import(book: Book, asked: argparse.Namespace, unit: Unit) -> int:
    path = Path(asked.file)
    try:
        raw = path.read_bytes()
    except OSError as error:
        raise AskedWrongError(
            f"{path}: this file can't be read ({error.strerror}). Check its name."
        ) from None
    today = local_now().date()
    with book.reading() as connection:
        kinds = benchmark_kinds(connection)
        rows, findings = read_spreadsheet(raw, str(path), unit=unit, kinds=kinds, today=today)
        ready = ready_import(connection, rows, path.name)
    findings = (*findings, *ready.findings)
    for finding in findings:
        say_wrong(str(finding))
    if not findings and not asked.dry_run and ready.change.scores:
        _change(book, [ready.change])
    went_in = not findings and not asked.dry_run
    values = {
        "scores": len(ready.change.scores),
        "new_people": list(ready.new),
        "already": ready.already,
        "findings": len(findings),
        "imported": went_in,
    }
    _answer(values, "\n".join(_import_lines(ready, len(findings), asked)), as_json=asked.json)
    return FINDINGS if findings else OK


def _import_lines(ready: ReadyImport, findings: int, asked: argparse.Namespace) -> list[str]:
    scores = _counted(len(ready.change.scores), "score", "scores")
    lines = []
    if findings:
        lines.append(f"Nothing went in: put {_counted(findings, 'row', 'rows')} right first.")
    elif asked.dry_run:
        lines.append(f"{scores} would go in. Without --dry-run they do.")
    else:
        lines.append(f"{scores} went in. `classclock book undo` takes them out again.")
    if ready.new:
        lines.append(f"New in the book: {', '.join(ready.new)}.")
    if ready.already:
        lines.append(f"{_counted(ready.already, 'row', 'rows')} left out: the book has them.")
    return lines


def _export(book: Book, asked: argparse.Namespace) -> int:
    with book.reading() as connection:
        written = export_book(connection, book.folder, Path(asked.into))
    said = "\n".join(str(path) for path in written)
    return _done(asked, {"written": [str(path) for path in written]}, said)


_ACTIONS: dict[str, Callable[[Book, argparse.Namespace], int]] = {
    "rename": _rename,
    "merge": _merge,
    "mark": _mark,
    "undo": _undo,
    "erase": _erase,
    "export": _export,
}


# -- what they share ---------------------------------------------------------------


def _change(book: Book, changes: Sequence[Change]) -> None:
    write_down(book.folder, changes, local_now())


def _done(asked: argparse.Namespace, values: dict[str, Any], said: str) -> int:
    _answer(values, said, as_json=asked.json)
    return OK


def _answer(values: dict[str, Any], said: str, *, as_json: bool) -> None:
    if as_json:
        print_json(values)
    else:
        print(said)


def _counted(number: int, one: str, many: str) -> str:
    return f"{number} {one if number == 1 else many}"
