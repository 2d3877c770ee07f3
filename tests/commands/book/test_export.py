"""`book export`, as it is typed; and taken in again, the same to the byte."""

import csv
import json
import stat
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.book.exporting import _json_rows
from classclock.book.tables.catching_up import catch_up
from classclock.book.tables.contents import book_contents
from classclock.book.tables.keeping import kept_book
from classclock.book.tables.queries import find
from classclock.book.under_way import listened_to
from tests.commands.typed import CommandSays, Typed

pytestmark = pytest.mark.usefixtures("club_with_classes")


@pytest.fixture
def another_club(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Any:
    """From here on commands are about another club, whose book is empty."""

    def moved() -> Path:
        monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
        monkeypatch.setenv("CLASSCLOCK_CLUB", str(tmp_path / "annexe"))
        return tmp_path / "annexe"

    return moved


@pytest.fixture
def all_kinds(club_with_classes: None, depot: Any, command_says: CommandSays) -> None:
    """A club with all that doesn't count, whatever a score can be, teams, lifts, marks, imports."""
    depot.held(
        "2020-01-21",
        depot.turntable(
            depot.rounds("Ilse", 19, 3, late=True, note="came late"),
            depot.rounds("Bram", 18, status="stopped", rank=None),
            depot.rounds("Saoirse", 9, 1, option_changed_s=300, modification="Step-up"),
            depot.rounds("Noor", 7, None),
            depot.rounds("Odell + Zo\u00eb", 12, members=["odell", "zoe"]),
            depot.rounds("=cmd()", 5, members=["x"]),
        ),
        depot.third_rail(depot.timed("Ilse", "8:31"), depot.timed("Bram", "70 reps")),
        depot.piece("Warm-up game", "interval", [depot.reps("Ilse", 40, modification="low")]),
        depot.piece("Sand", "interval", [depot.reps("Noor", 33)], benchmark=None),
    )
    depot.held(
        "2020-01-28",
        depot.turntable(depot.rounds("Ilse", 30), status="provisional"),
        depot.squats(depot.lifted("Ilse", "65 kg", "/75 kg", "72.5 kg"), depot.lifted("Bram")),
        depot.squats(depot.lifted("Noor", "135 lb")),
    )
    depot.held("2020-01-28", depot.turntable(depot.rounds("Ilse", 8, 4)), time="20:00")
    command_says("book", "mark", "Noor", "off-the-wall")
    command_says("book", "mark", "Noor", "under-18")
    command_says("book", "rename", "Bram", "Abram")


def pages(command_says: CommandSays, into: Path) -> dict[str, str]:
    """The chart and everybody's page, in the terminal and on paper, as they are read."""
    names = [row["name"] for row in json.loads(command_says("chart", "--json"))["rows"]]
    names += [name for name in ("Noor",) if name not in names]  # off the wall: in no chart
    said = {"chart": command_says("chart")}
    for name, option in (("c.html", "--html"), ("c.csv", "--csv")):
        command_says("chart", option, str(into / name))
        said[name] = (into / name).read_text("utf-8")
    for name in names:
        said[name] = command_says("athlete", name)
        command_says("athlete", name, "--html", str(into / "a.html"))
        said[f"{name}.html"] = (into / "a.html").read_text("utf-8")
    return said


def tables(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in sorted(folder.glob("*.csv"))}


def test_everything_comes_out_as_tables_and_json_for_this_account_alone(
    depot: Any, command_says: CommandSays, tmp_path: Path
) -> None:
    depot.held("2020-01-21", depot.turntable(depot.rounds("=cmd()", 5, members=["x"])))
    command_says("book", "export", str(tmp_path / "out"))
    text = (tmp_path / "out" / "results.csv").read_text("utf-8")
    rows = list(csv.DictReader(text.splitlines()))
    assert {row["name"] for row in rows} == {"Ilse", "Bram", "'=cmd()"}
    assert all(stat.S_IMODE(path.stat().st_mode) == 0o600 for path in (tmp_path / "out").iterdir())
    assert stat.S_IMODE((tmp_path / "out").stat().st_mode) == 0o700
    exported = json.loads((tmp_path / "out" / "book.json").read_text("utf-8"))
    assert len(exported["results"]) == 5


@pytest.mark.usefixtures("all_kinds")
def test_the_table_of_results_says_what_doesnt_count(
    command_says: CommandSays, tmp_path: Path
) -> None:
    command_says("book", "export", str(tmp_path / "out"))
    text = (tmp_path / "out" / "results.csv").read_text("utf-8")
    why = {row["why_not"] for row in csv.DictReader(text.splitlines())}
    assert why >= {"", "came late", "stopped early", "provisional", "option changed in the middle"}


@pytest.mark.usefixtures("all_kinds")
def test_taken_in_by_another_club_chart_and_pages_are_the_same_to_the_byte(
    command_says: CommandSays, tmp_path: Path, another_club: Any
) -> None:
    command_says("book", "export", str(tmp_path / "out"))
    before = pages(command_says, tmp_path)
    assert {"Ilse", "Abram", "Noor", "=cmd()", "Zo\u00eb", "c.html"} <= before.keys()
    another_club()
    said = command_says("book", "import", str(tmp_path / "out"))
    assert "visits" in said
    assert "2 marks went in" in said
    assert pages(command_says, tmp_path) == before
    command_says("book", "export", str(tmp_path / "again"))
    first, second = tables(tmp_path / "out"), tables(tmp_path / "again")
    for name in ("results.csv", "attendance.csv", "lifts.csv"):
        assert second[name] == first[name]
    for name in ("athletes.csv", "bests.csv"):  # those go by ids, which other clubs draw anew
        assert sorted(second[name].splitlines()) == sorted(first[name].splitlines())
    again = command_says("book", "import", str(tmp_path / "out"))
    assert again.startswith("Nothing went in: there is nothing new in it.\n")
    command_says("book", "undo")
    assert json.loads(command_says("chart", "--json"))["rows"] == []


@pytest.mark.usefixtures("all_kinds")
def test_the_results_alone_give_the_same_chart_but_for_lighter_sets(
    command_says: CommandSays, tmp_path: Path, another_club: Any
) -> None:
    command_says("book", "mark", "Noor", "off-the-wall", "--off")
    command_says("book", "export", str(tmp_path / "out"))
    before = command_says("chart")
    another_club()
    said = command_says("book", "import", str(tmp_path / "out" / "results.csv"))
    assert "who is off the wall, stand in the tables beside it" in said
    lighter = "        also 65 kg x 5\n"
    assert lighter in before, "of a class whose heaviest was 72.5 kg: lifts.csv has it"
    assert command_says("chart") == before.replace(lighter, "")


@pytest.mark.usefixtures("all_kinds")
def test_what_was_taken_in_is_forgotten_with_who_asked_for_it(
    command_says: CommandSays, tmp_path: Path, another_club: Any
) -> None:
    command_says("book", "export", str(tmp_path / "out"))
    annexe = another_club()
    command_says("book", "import", str(tmp_path / "out"))
    command_says("book", "erase", "Noor", "--yes")
    assert b"Noor" not in (annexe / "changes.jsonl").read_bytes()
    assert "Noor" not in command_says("book", "export", str(tmp_path / "less"))
    assert not any(b"Noor" in raw for raw in tables(tmp_path / "less").values())


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        (",rounds,", ",laps,", '"laps" is no kind of score'),
        ("2020-01-07", "7 Jan", "can't be read"),
        ("Ilse,", ",", "nobody is named"),
    ],
)
def test_a_table_that_was_spoiled_says_where(
    typed: Typed, tmp_path: Path, old: str, new: str, words: str
) -> None:
    typed("book", "export", str(tmp_path / "out"))
    path = tmp_path / "out" / "results.csv"
    path.write_text(path.read_text("utf-8").replace(old, new, 1), "utf-8")
    said = typed("book", "import", str(tmp_path / "out"))
    assert said.status == 1
    assert f"{path}:" in said.err
    assert words in said.err
    assert said.out.startswith("Nothing went in")


def test_a_folder_that_no_export_wrote_is_refused(typed: Typed, tmp_path: Path) -> None:
    said = typed("book", "import", str(tmp_path))
    assert said.status == 2
    assert "Name the folder that book export wrote, or a spreadsheet" in said.err


def test_everything_is_one_document_of_what_is_there_at_one_moment(
    depot: Any, command_says: CommandSays, tmp_path: Path
) -> None:
    """As Python's own json writes it; classes that end meanwhile go into the book, not into it."""
    with kept_book(depot.folder, 0) as (book, _):
        with book.reading() as connection:
            wanted = json.dumps(book_contents(connection), ensure_ascii=False, indent=1)
        days = iter(range(1, 29))

        def a_class_ends(*_: object) -> None:
            depot.held(f"2020-02-{next(days):02}", depot.turntable(depot.rounds("Mei", 7)))
            catch_up(book, 0)

        with listened_to(a_class_ends):
            command_says("book", "export", str(tmp_path / "out"))
        assert (tmp_path / "out" / "book.json").read_text("utf-8") == f"{wanted}\n"
        assert next(days) > 6
        with book.reading() as connection:
            assert find(connection, "Mei")
    assert not list(depot.folder.glob("book-*"))


@given(
    st.lists(
        st.dictionaries(
            st.text(), st.none() | st.booleans() | st.integers(-(2**53), 2**53) | st.text()
        ),
        min_size=1,
    )
)
def test_rows_are_written_as_pythons_own_json_writes_them(rows: list[dict[str, Any]]) -> None:
    whole = json.dumps({"table": rows}, ensure_ascii=False, indent=1)
    assert b'{\n "table": [\n' + _json_rows(rows) + b"\n ]\n}" == whole.encode()
