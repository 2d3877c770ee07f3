"""Ctrl+c in the middle of what takes long: all is as it was, and the same command begins anew.

It is struck once at each place at which a command says how far it is, one after the other.
"""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from classclock.book.tables.contents import book_contents
from classclock.book.tables.keeping import kept_book
from classclock.book.under_way import listened_to
from tests.commands.typed import Said, Typed

SAID = "Stopped: all is as it was before. The same command begins anew.\n"
_TOLD_OF_LOCKS = ("book.lock", "book.holder")
"""What locks leave behind says nothing of the club."""


@pytest.fixture
def struck(typed: Typed, ctrl_c: Callable[[], None]) -> Callable[..., Said]:
    """Type a command, and ctrl+c once it has said so often how far it is."""

    def run(at: int, *words: str) -> Said:
        left = iter(range(at))

        def strike(*_: object) -> None:
            if next(left, None) is None:
                ctrl_c()

        with listened_to(strike):
            return typed(*words)

    return run


@pytest.fixture
def by_small_batches(monkeypatch: pytest.MonkeyPatch) -> None:
    """A few classes are taken in as thousands are."""
    for name, few in (("_FEW", 0), ("_FILES_AT_ONCE", 1), ("_ATHLETES_AT_ONCE", 1)):
        monkeypatch.setattr(f"classclock.book.tables.catching_up.{name}", few)
    monkeypatch.setattr("classclock.book.tables.large_imports.RECORDS_AT_ONCE", 1)


def files_in(*folders: Path) -> dict[Path, bytes]:
    """All files but the book's own, which is compared by what it answers."""
    return {
        path: path.read_bytes()
        for folder in folders
        for path in sorted(folder.rglob("*"))
        if path.is_file() and path.name not in (*_TOLD_OF_LOCKS, "book.sqlite")
    }


def as_it_is(folder: Path, *others: Path) -> tuple[dict[Path, bytes], str, list[Path]]:
    with kept_book(folder, 0) as (book, _), book.reading() as connection:
        said = json.dumps(book_contents(connection), sort_keys=True)
    return files_in(folder, *others), said, [path for path in others if path.exists()]


@pytest.mark.usefixtures("club_with_classes", "by_small_batches")
@pytest.mark.parametrize(
    ("words", "least"),
    [
        (("book", "rebuild"), 3),
        (("book", "export", "OUT"), 6),
        (("book", "erase", "Ilse", "--yes"), 6),
        (("book", "import", "OLD"), 6),
        (("athlete", "Ilse", "--folder", "OUT"), 2),
    ],
    ids=lambda value: "-".join(value[:2]) if isinstance(value, tuple) else "",
)
def test_ended_in_the_middle_all_is_as_it_was(
    depot: Any,
    struck: Callable[..., Said],
    tmp_path: Path,
    words: tuple[str, ...],
    least: int,
) -> None:
    out, old = tmp_path / "out", tmp_path / "old.csv"
    rows = [
        f"{name},Turntable,{rounds}+1,2020-02-0{rounds}\n"
        for name in ("Odell", "Rune", "Tyra")
        for rounds in range(1, 3)
    ]
    old.write_text("name,benchmark,score,date\n" + "".join(rows))
    typed_words = [{"OUT": str(out), "OLD": str(old)}.get(word, word) for word in words]
    before = as_it_is(depot.folder, out)
    at = 0
    while True:
        said = struck(at, *typed_words)
        if said.status == 0:
            break
        assert (said.status, said.out, said.err) == (130, "", SAID), at
        assert as_it_is(depot.folder, out) == before, at
        at += 1
    assert at >= least
    assert as_it_is(depot.folder, out) != before or words == ("book", "rebuild")


@pytest.mark.usefixtures("club_with_classes")
@pytest.mark.parametrize("words", [("rename", "Ilse", "Ilse V"), ("mark", "Ilse", "under-18")])
def test_what_isnt_in_the_book_yet_is_taken_back_by_ctrl_c(
    depot: Any, typed: Typed, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...]
) -> None:
    before = as_it_is(depot.folder)

    def stopped(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as struck:
        struck.setattr("classclock.book.entering.catch_up", stopped)
        said = typed("book", *words)
    assert (said.status, said.out, said.err) == (130, "", SAID)
    assert as_it_is(depot.folder) == before
    assert typed("book", *words).status == 0
    assert as_it_is(depot.folder) != before
