"""Somebody of a class that was really held asks to be erased."""

from pathlib import Path
from typing import Any

import pytest

from classclock.book.files.journal import read_journal
from classclock.commands.command_line import main
from classclock.live.replaying import replayed
from classclock.tally.scores.scores import scores


@pytest.fixture
def held(coach: Any, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Any:
    """A class that is over and saved."""
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(tmp_path))
    coach.start()
    coach.wind(60)
    coach.type("<enter>")
    coach.start()
    for _ in range(4):
        coach.wind(100)
        coach.type("inb")
    coach.wind(600)
    coach.type("12n3i4b")
    coach.wind(2)
    coach.type("*<enter>")
    assert coach.session.live.phase == "closed"
    coach.session.save()
    return coach


def ranked(path: Path) -> list[tuple[int | None, str, str]]:
    record = replayed(read_journal(path))
    (key,) = record.pieces()
    found = scores(record.heats(key), now=None, settled=True)
    return [(score.rank, score.athlete, score.score) for score in found]


def test_the_journal_still_replays_to_everybody_elses_scores(held: Any, capsys: Any) -> None:
    path = held.session.journal.path
    before = ranked(path)
    held.session.close()
    assert main(["book", "erase", "Ilse"]) == 0
    assert "Nothing is changed yet" in capsys.readouterr().out
    assert ranked(path) == before
    assert main(["book", "erase", "Ilse", "--yes"]) == 0
    assert "a sheet that was printed" in capsys.readouterr().out
    assert ranked(path) == [
        (rank, "erased" if name == "Ilse" else name, score) for rank, name, score in before
    ]
    assert main(["replay", str(path)]) == 0
    assert "The same as saved" in capsys.readouterr().out
    assert b"Ilse" not in path.read_bytes()


def test_a_class_that_runs_is_left_alone_and_said(held: Any, capsys: Any) -> None:
    before = held.session.journal.path.read_bytes()
    assert main(["book", "erase", "Ilse", "--yes"]) == 1
    assert "a class that runs now: erase when it is over" in capsys.readouterr().err
    assert held.session.journal.path.read_bytes() == before
