"""Everything kept about one person of an old club, to hand over: nobody else's name in any byte."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.handed_over_bytes import holds_name
from tests.old_clubs.old_club import CLUBS, OldClub, hold_the_day

DAMAGED = ("2026-01-14-2000-couplings.jsonl",)
"""A journal of night-yard that was spoiled on purpose."""


@pytest.fixture
def old_club(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> Callable[[str], OldClub]:
    hold_the_day(monkeypatch)
    return lambda name: OldClub(CLUBS[name], tmp_path, capsys)


@pytest.mark.parametrize("name", CLUBS)
def test_whoever_asks_gets_their_own_and_nobody_elses(
    name: str, old_club: Callable[..., OldClub]
) -> None:
    club = old_club(name)
    club.ask("book", "rebuild", "--club", "{club}")
    people = people_of(club)
    for ident, called in people.items():
        answer = club.ask("athlete", ident, "--folder", "{out}/theirs", "--club", "{club}")
        unread = [path for path in DAMAGED if path in answer.parts.get("stderr", "")]
        assert answer.status == (1 if unread else 0), answer.parts
        files = list((club.out / "theirs").iterdir())
        assert holds_name(b"".join(path.read_bytes() for path in files), called), called
        for path in files:
            for other in set(people.values()) - {called}:
                assert not holds_name(path.read_bytes(), other, own=called), (path.name, other)
        shutil.rmtree(club.out / "theirs")


def people_of(club: OldClub) -> dict[str, str]:
    """Everybody in the book, by id."""
    club.ask("book", "export", "{out}/all", "--club", "{club}")
    book = json.loads((club.out / "all" / "book.json").read_text("utf-8"))
    return {row["athlete"]: row["name"] for row in book["athletes"]}
