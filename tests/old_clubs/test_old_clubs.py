"""Clubs as version 1 of the results document left them: read, replayed, erased, charted for ever.

Each folder beside this file is a club that version 1 made, and in its `said/` what version 1
answered to the command on each file's first line: its exit status, its words, the files it wrote.
All of it stays as it is; what is said otherwise now, on purpose, stands in `otherwise.py`.

Words are to be the same; those of a page wherever on it they stand. To JSON keys may be added, and
to CSV columns. The club's path is written {club}, the path of what a command wrote {out}; of the id
that an erasure leaves the part that chance gives is left out. Today is 6 February 2026.
"""

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.old_clubs.old_club import CLUBS, OldClub, hold_the_day
from tests.old_clubs.otherwise import meant
from tests.old_clubs.said import read_said


@pytest.fixture
def old_club(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> Callable[[str], OldClub]:
    hold_the_day(monkeypatch)
    return lambda name: OldClub(CLUBS[name], tmp_path, capsys)


def test_the_old_clubs_are_there() -> None:
    assert list(CLUBS) == ["east-shed", "night-yard", "west-hall"]


@pytest.mark.parametrize("name", CLUBS)
def test_an_old_club_is_answered_for_as_then(name: str, old_club: Callable[..., OldClub]) -> None:
    club = old_club(name)
    other = [line for line in club.other_answers(club.said) if not meant(line)]
    assert not other, "\n".join(other)


@pytest.mark.parametrize("name", CLUBS)
def test_who_is_erased_from_an_old_club_is_nowhere_left_and_the_others_are_as_before(
    name: str, old_club: Callable[..., OldClub]
) -> None:
    club = old_club(name)
    before = json.loads(club.ask("chart", "--json", "--club", "{club}").parts["stdout"])
    said = club.said / "after-erasing"
    _, _, erased, *_ = read_said(said / "03-erased.txt").command
    assert club.holds(erased)
    other = [line for line in club.other_answers(said, keep=True) if not meant(line)]
    assert not other, "\n".join(other)
    assert not club.holds(erased)
    after = json.loads(club.ask("chart", "--json", "--club", "{club}").parts["stdout"])
    assert [row for row in before["rows"] if row["name"] != erased] == after["rows"]


@pytest.mark.parametrize("name", CLUBS)
def test_whoever_is_erased_every_journal_still_replays_as_before(
    name: str, old_club: Callable[..., OldClub]
) -> None:
    club = old_club(name)
    people = json.loads(club.ask("chart", "--json", "--club", "{club}").parts["stdout"])["rows"]
    before = verdicts(club)
    for person in people:
        erased = club.ask("book", "erase", person["athlete"], "--yes", "--club", "{club}")
        assert erased.status == 0, erased
        assert verdicts(club) == before, person["name"]


def verdicts(club: OldClub) -> list[tuple[str, int, list[str]]]:
    """Of each journal, what a replay says after the scores, without the names in it."""
    said = []
    for path in sorted((club.folder / "journals").glob("*.jsonl")):
        answer = club.ask("replay", str(path))
        lines = "".join(answer.parts.values()).splitlines()
        about = [line for line in lines if " saved" in line or "can't be read" in line]
        said.append((path.name, answer.status, [line.rpartition(": ")[2] for line in about]))
    return said


def test_erasing_max_leaves_the_piece_called_max_effort(old_club: Callable[..., OldClub]) -> None:
    club = old_club("night-yard")
    assert club.ask("book", "erase", "Max", "--yes", "--club", "{club}").status == 0
    assert club.ask("athlete", "Max", "--club", "{club}").status == 2
    path = club.folder / "results" / "2026-01-26-2000-max-effort.json"
    pieces = json.loads(path.read_text("utf-8"))["pieces"]
    assert [piece["name"] for piece in pieces] == ["Max effort", "Max effort finish"]
    for piece in pieces:
        names = {lane["athlete"] for lane in piece["lanes"]}
        assert "Max" not in names
        assert names > {"Mette", "Anouk"}
