"""`book erase`: forget somebody who asked for it."""

import argparse
from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime
from typing import Any

from msgspec import to_builtins

from classclock.book.erasing.erasing import OUT_OF_REACH, erase, look
from classclock.book.erasing.known_under import only_in_changes
from classclock.book.erasing.mentions import KIND_WORDS, Mention
from classclock.book.erasing.orders import OrderStatus, order_statuses
from classclock.book.erasing.reach import ClassRunningError, Reach
from classclock.book.files.whole_changes_file import read_changes
from classclock.book.tables.opening import Book
from classclock.book.tables.queries import Athlete, find, namesakes
from classclock.clock.source import local_now
from classclock.commands.shared.asking import can_ask, choose
from classclock.commands.shared.book import asked_book, the_one
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import FINDINGS, OK, BadUseError, FindingsError
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.printing import counted, print_answer

_NOT_GIVEN: tuple[int, ...] = ()
_FILES = 3
"""So many files are named in which a text stands."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    parser.add_argument("name", nargs="?", help="who, by the name in the book")
    parser.add_argument("--yes", action="store_true", help="do it; it can't be taken back")
    parser.add_argument(
        "--status", action="store_true", help="which rooms of a shared book have carried it out"
    )
    parser.add_argument(
        "--keep",
        type=_numbers,
        default=_NOT_GIVEN,
        metavar="1,2",
        help="leave the texts of these numbers as they are",
    )
    parser.add_argument(
        "--take-out",
        type=_numbers,
        default=_NOT_GIVEN,
        metavar="3",
        help="take the name out of the texts of these numbers",
    )


def _numbers(text: str) -> tuple[int, ...]:
    numbers = tuple(part.strip() for part in text.split(","))
    if all(one.isascii() and one.isdecimal() for one in numbers):
        return tuple(map(int, numbers))
    raise argparse.ArgumentTypeError(
        f'"{text}": write the numbers of texts with commas between, as in 1,3'
    )


def do(asked: argparse.Namespace) -> int:
    folder, _ = asked_club(asked)
    if asked.status:
        with asked_book(folder) as book, book.reading() as connection:
            return _say_status(order_statuses(connection), book.room, as_json=asked.json)
    if asked.name is None:
        raise BadUseError("whom? classclock book erase NAME, or --status for what was ordered")
    with asked_book(folder, whole=asked.yes) as book:
        athlete = _asked(book, asked.name)
        with book.reading() as connection:
            elsewhere = [one.id for one in namesakes(connection, athlete) if "/" in one.id]
        try:
            reach = _reach(asked, book, athlete)
        except ClassRunningError as error:
            raise FindingsError(error) from None
        lines = [*_lines(athlete, reach, done=asked.yes)]
        if elsewhere:
            lines.insert(
                1,
                "  of the same name, another person as far as is known: "
                f"{', '.join(elsewhere)}; book merge says that two are one, before they are erased",
            )
        print_answer(_values(reach, done=asked.yes), *lines, as_json=asked.json)
    return OK if reach.whole else FINDINGS


def _say_status(orders: Sequence[OrderStatus], own: str, *, as_json: bool) -> int:
    """Which rooms have carried out which order, without a name: the orders have none."""
    lines = [line for order in orders for line in _status_lines(order, own)]
    if not orders:
        lines = ["No room has ordered an erasure that others have to carry out."]
    print_answer({"orders": to_builtins(orders)}, *lines, as_json=as_json)
    return OK if all(one.done for one in orders) else FINDINGS


def _status_lines(order: OrderStatus, own: str) -> Iterator[str]:
    here = " (this room)" if order.room == own else ""
    yield f"Erased {_when(order.at)} in {_room_words(order.called, order.room)}{here}:"
    for one in order.rooms:
        here = " (this room)" if one.room == own else ""
        if not one.at:
            done = "not yet: at its next contact with the book, after a class that runs there"
        else:
            look = f"; to be looked at by hand there: {', '.join(one.left)}" if one.left else ""
            done = f"carried out {_when(one.at)}{look}"
        yield f"  {_room_words(one.called, one.room)}{here}: {done}"


def _room_words(called: str, room: str) -> str:
    return f"{called or 'a room'} {room}"


def _when(at: str) -> str:
    """In this machine's time of day."""
    return f"{datetime.fromisoformat(at).astimezone():%Y-%m-%d %H:%M}"


def _asked(book: Book, name: str) -> Athlete:
    """Whom the book knows, or somebody whom only what was taken back still names."""
    with book.reading() as connection:
        if not find(connection, name):
            undone = only_in_changes(read_changes(book.folder), name)
            if undone is not None:
                return undone
        return the_one(connection, name)


def _reach(asked: argparse.Namespace, book: Book, athlete: Athlete) -> Reach:
    """Do what is asked, or only look; what becomes of texts is asked before anything is done."""
    now, do = local_now(), erase if asked.yes else look
    asks = asked.yes and not asked.json and can_ask()
    if not (asks or asked.keep or asked.take_out):
        return do(book, athlete, now)
    return do(book, athlete, now, _answers(asked, look(book, athlete, now).mentions, asks=asks))


def _answers(
    asked: argparse.Namespace, mentions: Sequence[Mention], *, asks: bool
) -> Mapping[int, bool]:
    """What becomes of each text: as it was typed, then as it is answered at a terminal."""
    answers = dict.fromkeys(asked.keep, False) | dict.fromkeys(asked.take_out, True)
    if unknown := [number for number in answers if not 0 < number <= len(mentions)]:
        raise BadUseError(
            f"there is no text {unknown[0]}: "
            f"{f'write 1 to {len(mentions)}' if mentions else 'no text has the name'}"
        )
    if asks:
        for number, one in enumerate(mentions, start=1):
            if number not in answers:
                answers[number] = _goes(one)
    return answers


def _goes(one: Mention) -> bool:
    """Ask whether the name goes from a text."""
    usual, other = ("it goes", "it stays") if one.goes else ("it stays", "it goes")
    try:
        chosen = choose(f"{_text_words(one)}. The name in it:", (f"{usual} (as usual)", other))
    except FindingsError:
        raise FindingsError("No answer: nobody was erased. Start it again when you know.") from None
    return one.goes if chosen == 0 else not one.goes


def _values(reach: Reach, *, done: bool) -> dict[str, Any]:
    return {
        "erased": done,
        "records": [str(path) for path in reach.files],
        "removed": [str(path) for path in reach.removed],
        "changed_since": [str(path) for path in reach.changed],
        "damaged": [str(path) for path in reach.damaged],
        "later": [str(path) for path in reach.later],
        "later_books": list(reach.later_books),
        "beside": [str(path) for path in reach.beside],
        "others": [str(path) for path in reach.others],
        "texts": [
            {
                "kind": one.kind,
                "text": one.text,
                "goes": one.goes,
                "files": [str(path) for path in one.where],
            }
            for one in reach.mentions
        ],
        "rooms_to_carry_out": reach.ordered,
        "server_keeps_deleted": reach.server_keeps,
        "out_of_reach": list(OUT_OF_REACH),
    }


def _lines(athlete: Athlete, reach: Reach, *, done: bool) -> list[str]:
    will = "" if done else "would be "
    number = counted(len(reach.files), "journal or results file", "journals and results files")
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
    lines += [
        f"  update this classclock: the server's book {one} is of a later one, and hears of it then"
        for one in reach.later_books
    ]
    lines += [f"  look yourself, it belongs to one of these: {one}" for one in reach.beside]
    lines += [f"  look yourself, it has the name, or is called so: {one}" for one in reach.others]
    lines += _mention_lines(reach.mentions, done=done)
    if reach.ordered:
        number = counted(reach.ordered, "other room", "other rooms")
        ordered = "Ordered" if done else "Would be ordered"
        lines.append(
            f"{ordered} of {number}, each at its next contact with the book: "
            "book erase --status says which have."
        )
    if reach.server_keeps:
        lines.append(
            "The server's tables were in use: what was deleted stays in their files until it is "
            "written over, or VACUUM FULL is run there."
        )
    lines += ["Out of reach:", *(f"  {line}" for line in OUT_OF_REACH)]
    if not done:
        lines.append("Nothing is changed yet. It can't be taken back: add --yes to do it.")
    return lines


def _mention_lines(mentions: Sequence[Mention], *, done: bool) -> Iterator[str]:
    if not mentions:
        return
    yield "Text with the name in it:"
    for number, one in enumerate(mentions, start=1):
        goes = ("is gone" if done else "goes") if one.goes else "stays"
        yield f"  {number}. the name {goes} in {_text_words(one)}"
    if not done:
        yield "  --keep NUMBERS leaves some as they are, --take-out NUMBERS takes the name out."


def _text_words(one: Mention) -> str:
    names = [path.name for path in one.where]
    more = f" and {len(names) - _FILES} more" if len(names) > _FILES else ""
    return f"{KIND_WORDS[one.kind]}: {one.text} ({', '.join(names[:_FILES])}{more})"
