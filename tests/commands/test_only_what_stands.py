"""Of loads counts what was settled, as it was put right; the rest is said to be provisional."""

import csv
import re
from pathlib import Path
from typing import Any

import pytest

from tests.commands.typed import CommandSays, Typed


@pytest.fixture
def club(depot: Any, storage: str, monkeypatch: pytest.MonkeyPatch) -> Any:
    """Ilse's `825` was put right to 82.5 at the settle; Bram's class was never settled."""
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(depot.folder))
    monkeypatch.setenv("COLUMNS", "100")
    right = depot.lifted("Ilse", "80 kg", "825 kg", load_kg=82.5, score="82.5 kg")
    depot.held("2020-01-07", depot.squats(right, depot.lifted("Bram", "60 kg")))
    unsettled = depot.squats(depot.lifted("Bram", "725 kg"), status="provisional")
    depot.held("2020-01-14", unsettled, time="19:30")
    return depot


@pytest.mark.usefixtures("club")
def test_a_load_that_was_put_right_is_on_no_page_and_in_no_table(
    command_says: CommandSays, tmp_path: Path
) -> None:
    first = str(tmp_path / "club" / "results" / "2020-01-07-1830-depot.json")
    said = [
        command_says("athlete", "Ilse"),
        command_says("athlete", "Ilse", "--json"),
        command_says("load", "Ilse"),
        command_says("chart", "--json"),
        command_says("report", first),
        command_says("report", first, "--json"),
    ]
    command_says("athlete", "Ilse", "--html", str(tmp_path / "out" / "ilse.html"))
    command_says("report", first, "--html", str(tmp_path / "out" / "class.html"))
    command_says("book", "export", str(tmp_path / "out"))
    said += [path.read_text("utf-8") for path in (tmp_path / "out").iterdir()]
    assert not [text for text in said if re.search(r"\b825\b", text)]
    assert "82.5 kg" in said[0]
    assert "heaviest so far: 82.5 kg x 1" in said[2]


@pytest.mark.usefixtures("club")
def test_what_nobody_settled_stands_beside_what_was_and_counts_nowhere(
    command_says: CommandSays, typed: Typed, tmp_path: Path
) -> None:
    page = command_says("athlete", "Bram")
    assert "Front Squat  5 reps  60 kg   2020-01-07\n" in page
    assert "Front Squat  5 reps  725 kg  2020-01-14  provisional\n" in page
    assert "725" not in command_says("load", "Bram")
    assert "725" not in command_says("chart")
    assert typed("load", "Bram").out.startswith("Bram, Front Squat\nheaviest so far: 60 kg x 5")
    command_says("athlete", "Bram", "--html", str(tmp_path / "bram.html"))
    assert "14 January 2020, provisional" in (tmp_path / "bram.html").read_text("utf-8")


@pytest.mark.usefixtures("club")
def test_a_table_of_lifts_says_which_were_settled(
    command_says: CommandSays, tmp_path: Path
) -> None:
    command_says("book", "export", str(tmp_path / "out"))
    with (tmp_path / "out" / "lifts.csv").open(encoding="utf-8") as opened:
        rows = [(row["name"], row["load"], row["status"]) for row in csv.DictReader(opened)]
    assert sorted(rows) == [
        ("Bram", "60 kg", "settled"),
        ("Bram", "725 kg", "provisional"),
        ("Ilse", "80 kg", "settled"),
        ("Ilse", "82.5 kg", "settled"),
    ]


def test_a_provisional_load_that_would_be_no_more_is_not_named(
    club: Any, command_says: CommandSays
) -> None:
    less = club.squats(club.lifted("Ilse", "70 kg"), status="provisional")
    club.held("2020-01-21", less)
    page = command_says("athlete", "Ilse")
    heaviest = page.partition("Heaviest made")[2].partition("Front Squat:")[0]
    assert "70 kg" not in heaviest


def test_a_plot_marks_what_nobody_settled(club: Any, command_says: CommandSays) -> None:
    for day, status in (("2020-02-04", "settled"), ("2020-02-11", "provisional")):
        club.held(day, club.turntable(club.rounds("Noor", 7), status=status))
    page = command_says("athlete", "Noor")
    assert "Turntable: o as written, ~ modified, ? provisional" in page
    assert page.count("?") == 2
    club.held("2020-02-18", club.turntable(club.rounds("Ilse", 7)))
    club.held("2020-02-25", club.turntable(club.rounds("Ilse", 8)))
    assert "o as written, ~ modified\n" in command_says(
        "athlete", "Ilse", "--benchmark", "turntable"
    )
