"""Carrying out what another room has ordered: at this room's next contact with the shared book."""

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from classclock.book.changing import utc
from classclock.book.erasing.changes_kept import changes_without
from classclock.book.erasing.known_under import KnownUnder, names_in_changes, other_texts
from classclock.book.erasing.orders import Order, carried_out, finished, outstanding
from classclock.book.erasing.other_files import plans
from classclock.book.erasing.own_records import own_records, plain_text, written_in
from classclock.book.erasing.reach import (
    ChangedMeanwhileError,
    ClassRunningError,
    Reach,
    Wanted,
    reach_of,
    search,
    written_without,
)
from classclock.book.erasing.told_by_digest import ids_meant, names_meant
from classclock.book.files.changes import Carried, Changes, Erasure
from classclock.book.files.copies import copies
from classclock.book.files.held_file import in_use
from classclock.book.files.whole_changes_file import read_changes, write_changes
from classclock.book.people_ids import entry_of
from classclock.book.tables.book_lock import book_lock
from classclock.book.tables.opening import Book
from classclock.book.tables.queries import own_names
from classclock.club.folder import journals
from classclock.machine.interrupting import uninterrupted
from classclock.units.names import name_key


class CarryingOut(Struct, frozen=True):
    """What was done at this contact."""

    orders: int = 0
    notices: tuple[str, ...] = ()


def carry_out(book: Book, now: datetime) -> CarryingOut:
    """Carry out every order that this room hasn't; while a class runs here, none yet.

    Texts that somebody wrote lose the name unless they are plans: nobody is here to be asked.

    Raises:
        BookError, ChangesDamagedError: book or changes can't be read.
        OSError: the folder can't be written to at all.
    """
    with book.reading() as connection:
        if not outstanding(connection, book.room):
            return CarryingOut()
    if any(in_use(path) for path in journals(book.folder).glob("*.jsonl")):
        return CarryingOut()
    notices: list[str] = []
    with book.reading() as connection:
        # Another window may have carried them out meanwhile.
        done = carried_out(read_changes(book.folder))
        orders = [one for one in outstanding(connection, book.room) if one.key not in done]
    for order in orders:
        try:
            notices += list(_carry_out(book, order, now))
        except ChangedMeanwhileError:
            continue  # somebody works in this folder: at the next contact
        except OSError as error:
            # Whoever asks the book for something else isn't to go without.
            where = error.filename or book.folder
            notices.append(
                f"{where}: {error.strerror}: somebody whom another room has erased can't be "
                "taken out yet; it is tried again each time"
            )
    return CarryingOut(len(orders), tuple(notices))


def forget_names(book: Book) -> None:
    """Drop the digests of names from this room's orders that every other room has carried out.

    Raises: as `carry_out` does.
    """
    with book.reading() as connection:
        done = finished(connection, book.room)
    if not done:
        return
    with book_lock(book.folder):
        changes = read_changes(book.folder)
        kept = tuple(
            replace(line, names=()) if isinstance(line, Erasure) and line.n in done else line
            for line in changes.lines
        )
        if kept != changes.lines:
            write_changes(book.folder, Changes(changes.room, kept))


def _carry_out(book: Book, order: Order, now: datetime) -> Iterator[str]:
    folder, own = book.folder, read_changes(book.folder)
    records = own_records(folder)
    ids = ids_meant(order.erasure, own, records)
    entries = frozenset(entry_of(own.room, one) for one in ids)
    named = names_meant(order.erasure, own, _texts(folder, records))
    with book.reading() as connection:
        others = {name_key(name) for name in own_names(connection, entries)}
        # Somebody else here may have the name: nothing says that they are one person.
        given = (name for _, name in names_in_changes(own, entries))
        names = frozenset(one for one in (*named, *given) if name_key(one) not in others)
        known = KnownUnder(entries, names)
        texts = other_texts(connection, known)
    wanted = search(folder, own, known, texts, order.erasure.before)
    try:
        reach, scrub = reach_of(wanted, {})
    except ClassRunningError:
        return
    kept = changes_without(own, wanted.known, wanted.named, scrub.stays)
    with written_without(wanted, reach, scrub) as put_in_place:
        left = tuple(sorted({_said_in(wanted, path) for path in _left(reach)}))
        carried = Carried(
            n=own.next_number, at=utc(now), room=order.room, of=order.erasure.n, left=left
        )
        with uninterrupted(), book_lock(folder):
            if read_changes(folder) != own:
                raise ChangedMeanwhileError
            put_in_place()
            write_changes(folder, Changes(own.room, (*kept.lines, carried)))
    if reach.files or reach.removed or left:
        yield (
            "somebody whom another room has erased is taken out here too: of "
            f"{len(reach.files)} journals and results files, {len(reach.removed)} copies removed"
        )
    for path in left:
        yield f"look yourself, somebody whom another room has erased stands in it: {path}"


def _texts(folder: Path, records: tuple[Path, ...]) -> Iterator[str]:
    for path in (*records, *plans(folder)):
        yield from written_in(path) if path in records else (plain_text(path),)
    for copy in copies(folder):
        yield copy.path.stem.replace("_", " ").replace("-", " ")
        yield plain_text(copy.path)


def _left(reach: Reach) -> set[Path]:
    """What the coach has to look at: what can't be written, and plans with the name."""
    files = (*reach.damaged, *reach.later, *reach.beside, *reach.changed, *reach.others)
    return {*files, *(path for one in reach.mentions if not one.goes for path in one.where)}


def _said_in(wanted: Wanted, path: Path) -> str:
    """The file within the club's folder, without the name of one that is called by theirs."""
    path = path.relative_to(wanted.folder) if path.is_relative_to(wanted.folder) else path
    return f"{path.parent}/..." if wanted.named.called_so(str(path)) else str(path)
