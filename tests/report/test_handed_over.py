"""Everything kept about one person as files: all of it, theirs alone, and gone with an erasure."""

import csv
import json
from collections.abc import Callable
from datetime import date, datetime
from pathlib import Path
from typing import Any

import pytest

from classclock.book.changing import take_back, write_down
from classclock.book.erasing.erasing import erase
from classclock.book.files.changes import Change, MarkSet, Merge, Rename
from classclock.book.files.copies import write_copy
from classclock.book.files.import_lines import Import, ImportedScore
from classclock.book.handing_over.everything import kept_about
from classclock.book.tables.catching_up import CaughtUp
from classclock.book.tables.opening import Book
from classclock.book.tables.queries import find
from classclock.records.result import rounds_worth
from classclock.report.athlete_page import athlete_page
from classclock.report.handed_over import handed_over
from tests.handed_over_bytes import holds_name

TODAY = date(2026, 11, 30)
WHEN = datetime.fromisoformat("2026-11-25T12:00:00+01:00")
Files = dict[str, bytes]
Hand = Callable[..., Files]


@pytest.fixture
def hand_over(book: Book, up_to_date: Callable[[], CaughtUp]) -> Hand:
    def write(name: str, club: str = "Line 0 Depot") -> Files:
        up_to_date()
        with book.reading() as connection:
            (athlete,) = find(connection, name)
            page = athlete_page(connection, athlete, TODAY)
        return handed_over(kept_about(book, athlete), page, club, TODAY)

    return write


def rows(files: Files, table: str) -> list[dict[str, str]]:
    return list(csv.DictReader(files[f"{table}.csv"].decode().splitlines()))


def score(name: str, rounds: int) -> ImportedScore:
    return ImportedScore(
        athlete=name.lower(),
        name=name,
        benchmark="turntable",
        score=f"{rounds}+0",
        kind="rounds",
        worth=rounds_worth(rounds, 0),
        day="2025-03-04",
    )


@pytest.fixture
def busy(depot: Any) -> None:
    """Saoirse was here, in a team, in lists, under another name, marked; Bram and Noor too."""
    noted = depot.rounds("Saoirse", 7, 12, note="corrected: Bram called seven", each=61)
    bram = depot.rounds("Bram", 6, 3, note="corrected: Saoirse called six", each=83)
    depot.held("2026-11-03", depot.turntable(noted, bram), title="Bram's birthday")
    team = depot.timed("Bram + Saoirse", "9:00", key="b")
    depot.held("2026-11-10", depot.third_rail(team, depot.timed("Noor", "8:31")))
    depot.held("2026-11-17", depot.squats(depot.lifted("Saoirse", "60 kg", "/70 kg")))
    depot.held("2026-11-24", depot.turntable(depot.rounds("Siri", 5, each=57)))
    depot.held("2026-11-25", depot.turntable(depot.rounds("Bram", 5)))
    (depot.folder / "plans").mkdir(exist_ok=True)
    plan = 'title = "Yard"\nnotes = "Saoirse: no jumps"\ncaution = "Bram: slowly"\n'
    (depot.folder / "plans" / "yard.toml").write_text(plan, "utf-8")
    more: list[Change] = [
        MarkSet(athlete="saoirse", mark="under 18", on=True),
        MarkSet(athlete="bram", mark="newcomer", on=True),
        Merge(gone="siri", kept="saoirse", name="Saoirse"),
        Rename(athlete="saoirse", name="Saoirse Lind"),
        Rename(athlete="bram", name="Bram de Wit"),
        Import(file="bram-old.csv", scores=(score("Saoirse", 4), score("Bram", 3))),
    ]
    write_down(depot.folder, more, WHEN)
    write_down(depot.folder, [Import(file="wrong.csv", scores=(score("Saoirse", 9),))], WHEN)
    take_back(depot.folder, WHEN)


@pytest.mark.usefixtures("busy")
def test_nobody_elses_name_stands_in_any_byte(hand_over: Hand) -> None:
    for name, others in (
        ("Saoirse Lind", ("Bram", "Bram de Wit", "Wit", "Noor")),
        ("Bram de Wit", ("Saoirse", "Saoirse Lind", "Lind", "Siri", "Noor")),
        ("Noor", ("Saoirse", "Siri", "Bram", "Wit", "Lind")),
    ):
        for file, data in hand_over(name, club=f"The depot of {others[0]}").items():
            assert not [one for one in others if holds_name(data, one)], (name, file)


@pytest.mark.usefixtures("busy")
def test_every_kind_of_record_is_there(hand_over: Hand) -> None:
    files = hand_over("Saoirse Lind")
    assert [(one["name"], one["date"], one["came"]) for one in rows(files, "attendance")] == [
        ("Saoirse", "2025-03-04", "0"),
        ("Saoirse", "2026-11-03", "1"),
        ("Saoirse", "2026-11-10", "1"),
        ("Saoirse", "2026-11-17", "1"),
        ("Siri", "2026-11-24", "1"),
    ]
    assert [one["score"] for one in rows(files, "results")] == [
        "4+0",
        "7+12",
        "9:00",
        "60 kg",
        "5+0",
    ]
    assert [(one["load"], one["made"], one["status"]) for one in rows(files, "lifts")] == [
        ("60 kg", "1", "settled"),
        ("70 kg", "0", "settled"),
    ]
    assert [(one["what"], one["taken_back"]) for one in rows(files, "changes")] == [
        ("the mark under 18 is set", "0"),
        ("two entries are one person, called Saoirse", "0"),
        ("the name is Saoirse Lind", "0"),
        ("scores from [another name]-old.csv", "0"),
        ("scores from wrong.csv", "1"),
        ("number 7 was taken back", "0"),
    ]
    assert [(one["score"], one["taken_back"]) for one in rows(files, "imported")] == [
        ("4+0", "0"),
        ("9+0", "1"),
    ]
    assert rows(files, "plans") == [
        {"name": "Saoirse Lind", "file": "plans/yard.toml", "line": 'notes = "Saoirse: no jumps"'}
    ]
    person = json.loads(files["person.json"])
    assert (person["marks"], person["also_recorded_as"]) == (["under 18"], ["Saoirse", "Siri"])
    letter = files["README.txt"].decode()
    assert all(name in letter for name in files if name != "README.txt")


@pytest.mark.usefixtures("busy")
def test_nobody_elses_score_or_key_is_there(hand_over: Hand) -> None:
    files = hand_over("Saoirse Lind")
    everything = b"".join(files.values())
    for others in (b"6+3", b"8:31", b"3+0"):  # Bram's rounds, Noor's time, Bram's old rounds
        assert others not in everything
    lanes = [
        lane
        for one in json.loads(files["classes.json"])["classes"]
        for piece in one["pieces"]
        for lane in piece["lanes"]
    ]
    assert {split for lane in lanes for split in lane["splits"]} == {61, 57}  # Bram's take 83 s
    assert {lane.get("key") for lane in lanes} == {"s", None}
    assert [lane["others_in_the_team"] for lane in lanes] == [0, 1, 0, 0]


@pytest.mark.usefixtures("busy")
def test_all_of_it_goes_when_they_are_erased(
    hand_over: Hand, book: Book, depot: Any, tmp_path: Path
) -> None:
    for name, data in hand_over("Saoirse Lind").items():
        write_copy(depot.folder, tmp_path / "theirs" / name, data)
    with book.reading() as connection:
        (saoirse,) = find(connection, "Saoirse Lind")
    erase(book, saoirse, WHEN)
    assert list((tmp_path / "theirs").iterdir()) == []


@pytest.mark.usefixtures("busy")
def test_a_page_that_was_handed_out_before_is_named(
    hand_over: Hand, depot: Any, tmp_path: Path
) -> None:
    write_copy(depot.folder, tmp_path / "chart.html", b"<p>Saoirse</p><p>Bram</p>")
    write_copy(depot.folder, tmp_path / "other.html", b"<p>Bram</p>")
    (copied,) = rows(hand_over("Saoirse Lind"), "copies")
    assert copied["file"].endswith("chart.html")


def test_hostile_names_make_no_file_name_no_markup_and_no_formula(
    hand_over: Hand, depot: Any
) -> None:
    hostile = "../../=cmd()<b>\x1b[2J"
    lane = depot.rounds(hostile, 7, members=["x"])
    depot.held("2026-11-03", depot.turntable(lane, depot.rounds("Bram", 6)))
    files = hand_over(hostile)
    assert set(files) == {
        "README.txt",
        "person.json",
        "attendance.csv",
        "results.csv",
        "page.html",
        "classes.json",
    }
    everything = b"".join(files.values())
    assert b"\x1b" not in everything
    assert b"<b>\\x1b" not in files["page.html"]


def test_who_has_nothing_but_one_class_gets_that(hand_over: Hand, depot: Any) -> None:
    depot.held("2026-11-03", depot.turntable(depot.rounds("Ilse", 7)))
    files = hand_over("Ilse")
    assert "notes.csv" not in files
    assert "journals.json" not in files
    assert "changes.csv" not in files["README.txt"].decode()


def test_a_results_file_that_cant_be_read_is_said(hand_over: Hand, depot: Any) -> None:
    path = depot.held("2026-11-03", depot.turntable(depot.rounds("Ilse", 7)))
    damaged = path.with_name("2026-11-04-1830-depot.json")
    damaged.write_text(path.read_text("utf-8").replace('"title"', '"titel"'), "utf-8")
    (depot.folder / "journals").mkdir()
    (depot.folder / "journals" / "2026-11-04-1830-depot.jsonl").write_text(
        '{"event": "?", "people": ["ilse"]}\n', "utf-8"
    )
    (depot.folder / "journals" / "other.jsonl").write_text('{"event": "?"}\n', "utf-8")
    assert "Not in here: 1 file that may tell of you" in hand_over("Ilse")["README.txt"].decode()
