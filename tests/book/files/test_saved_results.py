"""Results files: written by one, read by one, those of every version that was."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from msgspec import UNSET
from msgspec.structs import replace

from classclock.book.files.journal import read_journal
from classclock.book.files.results_writing import write_document
from classclock.book.files.saved_results import (
    DamagedResultsError,
    LaterResultsError,
    NotResultsError,
    journal_of,
    newest,
    read_results,
    saved_for,
)
from classclock.commands.command_line import main
from classclock.live.replaying import replayed
from classclock.records.class_document import results_document
from classclock.records.document import VERSION, known
from tests.old_clubs.old_club import CLUBS

OLD_RESULTS = [path for club in CLUBS.values() for path in sorted(club.glob("results/*.json"))]
OLD_JOURNALS = [path for club in CLUBS.values() for path in sorted(club.glob("journals/*"))]
OTHERWISE_SAVED = (
    *("2026-01-08-2000-platform", "2026-01-14-2000-couplings", "2026-01-15-2000-siding"),  # erased
    "2026-01-29-2000-siding",  # altered by hand
    "2026-01-12-2000-walk",  # a class without a piece
    *("2026-02-03-0715-by-heats", "2026-01-28-1830-sandbox"),  # who left is named, and when
)


def called(path: Path) -> str:
    return path.stem


@pytest.mark.parametrize("path", OLD_RESULTS, ids=called)
def test_a_file_of_the_first_version_is_written_anew_to_the_byte(
    path: Path, tmp_path: Path
) -> None:
    written = write_document(tmp_path / path.name, read_results(path))
    assert len(written) > 1
    for one in written:
        assert one.read_bytes() == path.with_name(one.name).read_bytes()


@pytest.mark.parametrize(
    "path", [path for path in OLD_JOURNALS if path.stem not in OTHERWISE_SAVED], ids=called
)
def test_what_is_written_is_as_in_the_first_version_but_for_version_and_time_there(
    path: Path, tmp_path: Path
) -> None:
    journal, saved = read_journal(path), saved_for(path)
    assert saved is not None
    again = results_document(replayed(journal), started=journal.anchors[0].wall, journal=path.name)
    assert all(known(one.here_s, 0) > 0 for one in again.people)
    there = tuple(replace(one, here_s=UNSET) for one in again.people)
    write_document(tmp_path / "again.json", replace(again, people=there))
    now, then = (without_bests(one) for one in (tmp_path / "again.json", saved[0]))
    assert now[:2] == ["{", f' "version": {VERSION},']
    assert [now[0], *now[2:]] == then


def without_bests(path: Path) -> list[str]:
    """No journal knows them."""
    return [line for line in path.read_text("utf-8").splitlines() if "best_before" not in line]


@pytest.fixture
def altered(depot: Any) -> Callable[..., Path]:
    """A class at the Depot, its file altered by hand."""

    def make(alter: Callable[[dict[str, Any]], object]) -> Path:
        path: Path = depot.held("2026-11-03", depot.turntable(depot.rounds("Ilse", 7, 12)))
        values = json.loads(path.read_bytes())
        alter(values)
        path.write_text(json.dumps(values), "utf-8")
        return path

    return make


def test_a_later_version_is_refused_in_words_whatever_else_it_says(altered: Any) -> None:
    def later(values: dict[str, Any]) -> None:
        values["version"] = VERSION + 1
        values["pieces"] = {"by": "name"}
        del values["people"]

    path = altered(later)
    before = path.read_bytes()
    with pytest.raises(LaterResultsError) as refused:
        read_results(path)
    assert str(refused.value) == f"{path}: made by a later classclock: update this one"
    assert path.read_bytes() == before


def test_a_later_version_that_looks_like_this_one_is_refused_too(altered: Any) -> None:
    with pytest.raises(LaterResultsError):
        read_results(altered(lambda values: values.update(version=VERSION + 1)))


def test_keys_that_nobody_knows_break_nothing(altered: Any) -> None:
    def more(values: dict[str, Any]) -> None:
        values["weather"] = {"wind": 3}
        values["people"][0]["marks"] = ["under 18"]
        values["pieces"][0]["lanes"][0]["hue"] = None

    assert read_results(altered(more)).pieces[0].lanes[0].score == "7+12"


@pytest.mark.parametrize(
    ("spoil", "why"),
    [
        (lambda lane: lane.pop("members"), "'members' is missing"),
        (lambda lane: lane.update(rank="first"), "'rank' isn't what it should be"),
        (lambda lane: lane.update(splits=[60, "?"]), "'splits' isn't what it should be"),
        (lambda lane: lane.update(rounds=2**31), "'rounds' isn't what it should be"),
    ],
)
def test_what_is_damaged_is_said_with_the_journal_that_gives_it_again(
    altered: Any, spoil: Callable[[dict[str, Any]], object], why: str
) -> None:
    path = altered(lambda values: spoil(values["pieces"][0]["lanes"][0]))
    with pytest.raises(DamagedResultsError) as refused:
        read_results(path)
    assert (refused.value.why, refused.value.journal) == (why, "2026-11-03-1830-depot.jsonl")


def test_bytes_that_are_no_text_are_damage(altered: Any) -> None:
    path = altered(lambda values: None)
    path.write_bytes(path.read_bytes().replace(b'"7+12"', b'"7\xff12"'))
    with pytest.raises(DamagedResultsError, match="not all of it is text"):
        read_results(path)


def test_a_day_that_is_none_is_damage(altered: Any) -> None:
    with pytest.raises(DamagedResultsError, match="'started' is no day and time"):
        read_results(altered(lambda values: values.update(started="yesterday")))


def test_another_file_is_no_results_and_the_newest_is_the_one_before_it(depot: Any) -> None:
    path = depot.held("2026-11-03", depot.turntable(depot.rounds("Ilse", 7, 12)))
    for name, text in (("torn", path.read_text("utf-8")[:-9]), ("list", "[]"), ("own", "{}")):
        (path.parent / f"2026-11-09-{name}.json").write_text(text)
        with pytest.raises(NotResultsError):
            read_results(path.parent / f"2026-11-09-{name}.json")
    (path.parent / "2026-11-10-folder.json").mkdir()
    assert newest(path.parent) == read_results(path)


def test_the_journal_is_named_wherever_the_file_says_it(altered: Any) -> None:
    path = altered(lambda values: values.update(journal=values.pop("journal")))
    assert journal_of(path) == "2026-11-03-1830-depot.jsonl"
    path.write_text("{}")
    assert journal_of(path) == ""


# -- every command that reads results ------------------------------------------------


@pytest.fixture
def club(altered: Any, depot: Any, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The Depot's one results file, made by a later classclock."""
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(depot.folder))
    return Path(altered(lambda values: values.update(version=VERSION + 1)))


@pytest.mark.parametrize(
    ("command", "status"),
    [
        (("results",), 1),
        (("report",), 1),
        (("report", "{path}"), 1),
        (("chart",), 0),
        (("book", "rebuild"), 1),
        (("load", "Ilse"), 1),
    ],
)
def test_commands_say_which_file_is_of_a_later_classclock_and_leave_it(
    club: Path, command: tuple[str, ...], status: int, capsys: pytest.CaptureFixture[str]
) -> None:
    before = club.read_bytes()
    assert main([word.format(path=club) for word in command]) == status
    said = capsys.readouterr().err
    assert str(club) in said
    assert "made by a later classclock: update this one" in said
    assert club.read_bytes() == before


def test_a_class_never_writes_over_a_later_version_of_its_results(club: Path, depot: Any) -> None:
    before = club.read_bytes()
    again = depot.held("2026-11-03", depot.turntable(depot.rounds("Ilse", 8)))
    assert again != club
    assert club.read_bytes() == before
