"""What an erasure can't write anew is named, and never passed over as done."""

import json
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from classclock.book.erasing.erasing import erase
from classclock.book.erasing.reach import Reach
from classclock.book.files.event_lines import event_line
from classclock.book.files.journal import Anchor, read_journal
from classclock.book.tables.catching_up import CaughtUp
from classclock.book.tables.opening import Book
from classclock.book.tables.queries import find
from classclock.commands.command_line import main
from classclock.records.document import VERSION
from classclock.tally.events import ClassOpened, Event, PersonAdded, PersonLeft
from classclock.tally.lanes import Person

WHEN = datetime.fromisoformat("2026-11-25T12:00:00+01:00")
WALL = "2026-11-24T18:30:00.000+01:00"


@pytest.fixture
def without_saoirse(book: Book, up_to_date: Callable[[], CaughtUp]) -> Callable[[], Reach]:
    def run() -> Reach:
        with book.reading() as connection:
            (athlete,) = find(connection, "Saoirse")
        return erase(book, athlete, WHEN)

    return run


@pytest.fixture
def held(depot: Any, up_to_date: Callable[[], CaughtUp]) -> Any:
    """Holds a class with Saoirse in it, on this day of November; the results file."""

    def make(day: int) -> Path:
        path: Path = depot.held(f"2026-11-{day:02}", depot.turntable(depot.rounds("Saoirse", day)))
        up_to_date()
        return path

    return make


def later(path: Path) -> None:
    values = json.loads(path.read_bytes())
    values["version"] = VERSION + 1
    path.write_text(json.dumps(values), "utf-8")


def journal(folder: Path, *between: bytes, torn: bytes = b"") -> Path:
    """A class of Saoirse's and Maël's, with these lines in it, and a piece of one at the end."""
    path = folder / "journals" / "2026-11-24-1830-depot.jsonl"
    path.parent.mkdir(parents=True, exist_ok=True)
    events: tuple[Event, ...] = (
        ClassOpened(0, "depot", "", "kg", (Person("saoirse", "Saoirse", "s"),), None),
        PersonAdded(1, Person("mael", "Maël", "m")),
        PersonLeft(2, "saoirse"),
    )
    lines = [event_line(event, number, WALL) for number, event in enumerate(events)]
    first, *rest = lines
    path.write_bytes(b"".join((Anchor("b", 0, 0, WALL).line(), first, *between, *rest, torn)))
    return path


def test_results_of_a_later_classclock_are_left_and_named(
    held: Any, without_saoirse: Callable[[], Reach]
) -> None:
    whole, of_later = held(3), held(5)
    later(of_later)
    before = of_later.read_bytes()
    reach = without_saoirse()
    assert (reach.files, reach.later, reach.whole) == ([whole], [of_later], False)
    assert reach.beside == [of_later.with_name(f"{of_later.stem}-turntable.csv")]
    assert of_later.read_bytes() == before
    assert b"Saoirse" not in whole.read_bytes()


def test_a_later_file_that_holds_others_only_is_no_matter(
    depot: Any, held: Any, without_saoirse: Callable[[], Reach]
) -> None:
    held(3)
    later(depot.held("2026-11-05", depot.turntable(depot.rounds("Ilse", 7))))
    assert without_saoirse().whole


def test_a_record_that_cant_be_opened_is_named(
    depot: Any, held: Any, without_saoirse: Callable[[], Reach]
) -> None:
    held(3)
    folder = depot.folder / "results" / "2026-11-09-1830-depot.json"
    folder.mkdir()
    assert without_saoirse().damaged == [folder]


def test_a_torn_file_is_searched_for_the_name_however_it_is_written(
    depot: Any, held: Any, without_saoirse: Callable[[], Reach]
) -> None:
    held(3)
    torn = depot.folder / "results" / "2026-11-09-1830-depot.json"
    torn.write_text('{"title": "with \\u0053aoirse')
    assert without_saoirse().damaged == [torn]


def test_a_journal_with_a_damaged_line_that_may_name_them_is_left_and_named(
    depot: Any, held: Any, without_saoirse: Callable[[], Reach]
) -> None:
    held(3)
    path = journal(depot.folder, b'{"n":1,"event":"Tapped","lane":"saoirse\n')
    before = path.read_bytes()
    assert without_saoirse().damaged == [path]
    assert path.read_bytes() == before


def test_a_damaged_line_that_names_somebody_else_stays_and_the_rest_is_written_anew(
    depot: Any, held: Any, without_saoirse: Callable[[], Reach]
) -> None:
    held(3)
    strange = b'{"n":1,"event":"Tapped","lane":"mael\n'
    path = journal(depot.folder, strange)
    reach = without_saoirse()
    assert reach.whole
    assert path in reach.files
    data = path.read_bytes()
    assert data.count(b"\n") == 5
    assert strange in data
    assert b"aoirse" not in data
    assert b"Ma\\u00ebl" in data


def test_a_journal_with_an_event_of_a_later_classclock_that_may_name_them_is_left_and_named(
    depot: Any, held: Any, without_saoirse: Callable[[], Reach]
) -> None:
    held(3)
    path = journal(depot.folder, b'{"n":1,"event":"Cheered","at":1,"by":"saoirse"}\n')
    before = path.read_bytes()
    assert without_saoirse().later == [path]
    assert path.read_bytes() == before


def test_the_torn_end_of_a_journal_goes_as_no_reader_ever_had_it(
    depot: Any, held: Any, without_saoirse: Callable[[], Reach]
) -> None:
    held(3)
    path = journal(depot.folder, torn=b'{"n":3,"event":"Tapped","lane":"saoi')
    before = read_journal(path)
    assert without_saoirse().whole
    after = read_journal(path)
    assert len(after.events) == len(before.events) == 3
    assert not after.torn


def test_the_command_names_what_is_left_and_doesnt_say_that_it_is_done(
    depot: Any, held: Any, storage: str, capsys: pytest.CaptureFixture[str]
) -> None:
    later(of_later := held(5))
    held(3)
    (damaged := held(7)).write_bytes(b"{" + held(9).read_bytes())
    for more in ([], ["--yes"]):
        asked = ["book", "erase", "Saoirse", *more, "--club", str(depot.folder)]
        assert main([*asked, "--json"] if not more else asked) == 1
    json_said, _, said = capsys.readouterr().out.partition("}\n")
    assert json.loads(json_said + "}")["later"] == [str(of_later)]
    assert f"it is damaged, and left as it is: {damaged}\n" in said
    assert f"it was made by a later one, and left as it is: {of_later}\n" in said
    assert f"it belongs to one of these: {of_later.with_suffix('')}-turntable.csv\n" in said
