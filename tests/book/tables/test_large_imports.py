"""An import too large for one batch: of everybody all or nothing, whoever comes in between."""

from collections import Counter
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from typing import Any

import pytest
from sqlalchemy import select

from classclock.book.changing import take_back, write_down
from classclock.book.entering import put_in
from classclock.book.erasing.erasing import erase
from classclock.book.files.changes import Merge, Rename
from classclock.book.files.import_lines import (
    Import,
    ImportedLift,
    ImportedMark,
    ImportedScore,
    ImportedVisit,
)
from classclock.book.tables.catching_up import catch_up
from classclock.book.tables.contents import book_contents
from classclock.book.tables.opening import Book, open_book
from classclock.book.tables.queries import find
from classclock.book.tables.schema import bests, half_in, results
from classclock.machine.locking import is_held
from classclock.records.result import rounds_worth
from tests.depot_classes import DepotClasses

NOW = 10**19
AT = datetime(2026, 11, 30, 12, tzinfo=UTC)
PEOPLE = {"odell": 5, "bram": 1, "noor": 3, "mei": 2}
"""How many scores the sheet has of whom."""
IMPORTED = sum(PEOPLE.values())
BATCHES = 3
"""Bram and Noor make one of at least three records together."""


def sheet() -> Import:
    """An old one, with a class of elsewhere, what was lifted in it, and a mark."""
    scores = [
        ImportedScore(
            athlete=who,
            name=who.title(),
            benchmark="Turntable",
            score=f"{number}+0",
            kind="rounds",
            worth=rounds_worth(number, 0),
            day=f"2020-02-{number:02}",
            work="16:00",
        )
        for who, many in PEOPLE.items()
        for number in range(1, many + 1)
    ]
    lifted = ImportedLift(
        athlete="mei",
        name="Mei",
        lift="front squat",
        reps=3,
        load="40 kg",
        worth=4_000_000_000,
        made=True,
        settled=True,
        day="2020-03-01",
        moment=1_583_000_000_000,
    )
    return Import(
        file="old.csv",
        scores=tuple(scores[::2] + scores[1::2]),
        visits=(
            ImportedVisit(
                athlete="mei", name="Mei", key="m", day="2020-03-01", moment=1_583_000_000_000
            ),
        ),
        lifts=(lifted,),
        marks=(ImportedMark(athlete="bram", name="Bram", mark="newcomer"),),
    )


@pytest.fixture
def club(depot: DepotClasses, storage: str) -> Iterator[Book]:
    """Two of those in the sheet have been in a class already."""
    lanes = (depot.rounds("Bram", 4), depot.rounds("Ilse", 9), depot.rounds("Noor", 2))
    depot.held("2026-11-24", depot.turntable(*lanes))
    book = open_book(depot.folder)
    catch_up(book, NOW)
    yield book
    book.close()


@pytest.fixture
def _few_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("classclock.book.tables.large_imports.RECORDS_AT_ONCE", 3)


@pytest.fixture
def between(monkeypatch: pytest.MonkeyPatch) -> Callable[[Callable[[], None]], None]:
    """Do that before each batch."""
    return lambda do: monkeypatch.setattr("classclock.book.tables.catching_up.let_others_in", do)


def contents(book: Book) -> dict[str, list[dict[str, Any]]]:
    with book.reading() as connection:
        return book_contents(connection)


def anew(book: Book) -> dict[str, list[dict[str, Any]]]:
    """What the files alone say, all at once."""
    catch_up(book, NOW, anew=True)
    return contents(book)


@pytest.mark.usefixtures("_few_at_once")
def test_it_is_the_same_as_at_once_and_leaves_nothing_when_it_is_taken_back(
    club: Book, monkeypatch: pytest.MonkeyPatch, between: Callable[..., None]
) -> None:
    before, batches = contents(club), []
    between(lambda: batches.append(1))
    put_in(club, [sheet()], AT)
    assert len(batches) == BATCHES + 1, "and the athletes' numbers once more"
    whole = contents(club)
    take_back(club.folder, AT)
    catch_up(club, NOW)
    assert contents(club) == before
    with club.reading() as connection:
        assert not connection.execute(select(half_in)).all()
    monkeypatch.setattr("classclock.book.tables.large_imports.RECORDS_AT_ONCE", 1000)
    put_in(club, [sheet()], AT)
    at_once = contents(club)
    assert [_unnumbered(row) for row in whole["results"]] == [
        _unnumbered(row) for row in at_once["results"]
    ]
    for table in ("athletes", "lifts", "bests", "set_bests"):
        assert list(map(_unnumbered, whole[table])) == list(map(_unnumbered, at_once[table]))


def _unnumbered(row: dict[str, Any]) -> dict[str, Any]:
    """Each import has a number of its own."""
    return {name: value for name, value in row.items() if name != "class_key"}


@pytest.mark.usefixtures("_few_at_once")
def test_between_two_batches_nobody_waits_and_of_everybody_there_is_all_or_nothing(
    club: Book, between: Callable[..., None]
) -> None:
    found: list[Counter[str]] = []

    def look() -> None:
        assert not is_held(club.folder / "book.lock")
        with club.reading() as connection:
            old = results.c.day < "2021"
            rows = connection.execute(select(results.c.athlete).where(old)).scalars().all()
            found.append(Counter(one.partition("/")[2] for one in rows))
            best = select(bests.c.athlete).where(bests.c.work == "16:00", bests.c.day < "2021")
            assert {one.partition("/")[2] for one in connection.execute(best).scalars()} <= {
                *found[-1]
            }

    between(look)
    put_in(club, [sheet()], AT)
    take_back(club.folder, AT)
    catch_up(club, NOW)
    assert len(found) > 2 * BATCHES
    for some in found:
        assert {who: PEOPLE[who] for who in some} == some
    assert {len(some) for some in found} >= {0, 1, 3, 4}


@pytest.mark.usefixtures("_few_at_once")
def test_ctrl_c_at_any_batch_leaves_nothing_of_it_in_the_tables(
    club: Book, between: Callable[..., None]
) -> None:
    before = contents(club)
    for ended_at in range(BATCHES + 1):
        left = iter(range(ended_at))
        struck: list[int] = []

        def strike(left: Iterator[int] = left, struck: list[int] = struck) -> None:
            if next(left, None) is None and not struck:
                struck.append(1)
                raise KeyboardInterrupt

        between(strike)
        with pytest.raises(KeyboardInterrupt):
            put_in(club, [sheet()], AT)
        assert contents(club) == before, ended_at


@pytest.mark.usefixtures("_few_at_once")
def test_what_was_ended_by_a_power_cut_goes_on_with_the_next_command(
    club: Book, between: Callable[..., None]
) -> None:
    write_down(club.folder, [sheet()], AT)
    for _ in range(BATCHES):
        left = iter(range(1))

        def cut(left: Iterator[int] = left) -> None:
            if next(left, None) is None:
                raise SystemExit

        between(cut)
        with pytest.raises(SystemExit):
            catch_up(club, NOW)
    between(lambda: None)
    catch_up(club, NOW)
    assert len(contents(club)["results"]) == IMPORTED + 3
    assert contents(club) == anew(club)


@pytest.mark.usefixtures("_few_at_once")
@pytest.mark.parametrize("change", ["undo", "erase", "rename", "merge"])
@pytest.mark.parametrize("at", [0, 1, 2])
def test_what_somebody_else_changes_in_between_holds(
    club: Book, between: Callable[..., None], change: str, at: int
) -> None:
    left = iter(range(at))
    done: list[int] = []

    def other() -> None:
        if next(left, None) is not None or done:
            return
        done.append(1)
        book = open_book(club.folder)
        if change == "undo":
            take_back(book.folder, AT)
        elif change == "rename":
            write_down(book.folder, [Rename(athlete="noor", name="Noor V")], AT)
        elif change == "merge":
            write_down(book.folder, [Merge(gone="bram", kept="ilse")], AT)
        else:
            with book.reading() as connection:
                (noor,) = find(connection, "Noor")
            erase(book, noor, AT)
        catch_up(book, NOW)
        book.close()

    between(other)
    put_in(club, [sheet()], AT)
    assert done
    imported = {"undo": 0, "erase": IMPORTED - PEOPLE["noor"]}.get(change, IMPORTED)
    rows = contents(club)["results"]
    assert len([one for one in rows if one["day"] < "2021"]) == imported
    assert contents(club) == anew(club)
