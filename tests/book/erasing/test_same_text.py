"""Whoever is erased, text that happens to be their name stays: a piece, a key, somebody's Max B."""

import json
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from classclock.book.erasing.erasing import erase
from classclock.book.erasing.reach import Reach
from classclock.book.files.copies import write_copy
from classclock.book.files.event_lines import event_line
from classclock.book.files.journal import Anchor, read_journal
from classclock.book.tables.catching_up import CaughtUp
from classclock.book.tables.opening import Book
from classclock.book.tables.queries import find
from classclock.plan.reading.plan_reading import parse_plan
from classclock.tally import events as ev
from classclock.tally.lanes import Person

WHEN = datetime.fromisoformat("2026-11-25T12:00:00+01:00")
WALL = "2026-11-24T18:30:00.000+01:00"
PLAN = """title = "Max effort night"

[[segment]]
name = "Max effort"
format = "interval"
repeat = 3
steps = [{ work = "2:00", label = "work up, Max: no jumps" }]
score = "load"
"""


def journal(folder: Path, name: str, *more: ev.Event) -> Path:
    """A class of this plan and of somebody whose id was made of the name."""
    path = folder / "journals" / "2026-11-24-1830-max-effort.jsonl"
    path.parent.mkdir(parents=True, exist_ok=True)
    who = Person(name.lower(), name, name[0].lower())
    opened = ev.ClassOpened(0, "max-effort", PLAN, "kg", (who, Person("ilse", "Ilse", "i")), None)
    lines = [event_line(event, number, WALL) for number, event in enumerate((opened, *more))]
    path.write_bytes(b"".join((Anchor("b", 0, 0, WALL).line(), *lines)))
    return path


@pytest.fixture
def without(depot: Any, book: Book, up_to_date: Callable[[], CaughtUp]) -> Callable[..., Reach]:
    def run(name: str, **answers: dict[int, bool]) -> Reach:
        up_to_date()
        with book.reading() as connection:
            (athlete,) = find(connection, name)
        return erase(book, athlete, WHEN, **answers)

    return run


@pytest.mark.parametrize("name", ["Max", "Work", "Title"])
def test_a_plan_in_a_journal_stays_to_the_letter(
    depot: Any, without: Callable[..., Reach], name: str
) -> None:
    path = journal(depot.folder, name)
    depot.held("2026-11-24", depot.turntable(depot.rounds(name, 7), depot.rounds("Ilse", 8)))
    without(name)
    opened = read_journal(path).events[0]
    assert isinstance(opened, ev.ClassOpened)
    assert opened.plan_text == PLAN
    assert [one.name for one in opened.people] == ["erased", "Ilse"]
    plan, findings = parse_plan(opened.plan_text, "max-effort.toml", "kg")
    assert plan is not None
    assert not findings


def test_results_keep_what_pieces_and_options_are_called(
    depot: Any, without: Callable[..., Reach]
) -> None:
    lanes = (depot.rounds("Max", 7), depot.rounds("Max B", 6, modification="Max box", rank=2))
    piece = depot.piece("Max effort", "rounds-in-time", lanes, caution=["Max load: ask."])
    path = depot.held("2026-11-24", piece, title="Max's night")
    without("Max")
    kept = json.loads(path.read_text("utf-8"))
    assert kept["title"] == "Max's night"
    (piece,) = kept["pieces"]
    assert (piece["name"], piece["caution"]) == ("Max effort", ["Max load: ask."])
    assert [lane["athlete"] for lane in piece["lanes"]] == ["erased", "Max B"]
    assert piece["lanes"][1]["modification"] == "Max box"
    assert [person["name"] for person in kept["people"]] == ["Max B"]


def test_a_copy_in_which_only_a_piece_is_called_so_is_nobodys(
    depot: Any, without: Callable[..., Reach], tmp_path: Path
) -> None:
    piece = depot.piece("Max effort", "rounds-in-time", [depot.rounds("Max", 7)])
    depot.held("2026-11-24", piece, depot.turntable(depot.rounds("Max B", 6)))
    for name, text in (
        ("chart", b"<th>Max effort</th><th>Max B</th>"),
        ("board", b"<p>max  effort: Max</p>"),
    ):
        write_copy(depot.folder, tmp_path / f"{name}.html", text)
    assert without("Max").removed == [tmp_path / "board.html"]
    assert (tmp_path / "chart.html").exists()


def test_a_note_on_a_piece_that_is_called_so_stays_and_isnt_asked_about(
    depot: Any, without: Callable[..., Reach]
) -> None:
    depot.held("2026-11-24", depot.piece("Max effort", "rounds-in-time", [depot.rounds("Max", 7)]))
    notes = (
        ev.Noted(10, "bring chalk for max effort"),
        ev.Noted(11, "Max effort again in May, says Max"),
    )
    path = journal(depot.folder, "Max", *notes)
    reach = without("Max")
    assert [one.text for one in reach.mentions if one.kind == "note"] == [notes[1].text]
    kept = [event.text for event in read_journal(path).events if isinstance(event, ev.Noted)]
    assert kept == [notes[0].text, "Max effort again in May, says erased"]


def test_our_own_words_in_a_note_are_no_name(depot: Any, without: Callable[..., Reach]) -> None:
    late = depot.rounds("Late", 7, late=True, note="late; corrected: Late came at five")
    path = depot.held("2026-11-24", depot.turntable(late))
    without("Late")
    (lane,) = json.loads(path.read_text("utf-8"))["pieces"][0]["lanes"]
    assert lane["note"] == "late; corrected: erased came at five"
