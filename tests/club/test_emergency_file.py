"""The emergency card on disk: into settings that are there, or the first ones."""

from pathlib import Path

import pytest

from classclock.club.emergency_file import write_card
from classclock.club.settings import read_club
from classclock.plan.settings.club import Club, Emergency

CARD = Emergency(address="0 Points Row", call="112")


def test_a_club_without_settings_gets_its_first_with_the_card(tmp_path: Path) -> None:
    path = tmp_path / "new" / "club.toml"
    write_card(path, CARD)
    assert read_club(path) == (Club(emergency=CARD), ())
    assert path.stat().st_mode & 0o077 == 0


def test_settings_keep_what_else_they_say(tmp_path: Path) -> None:
    path = tmp_path / "club.toml"
    path.write_text('name = "Line 0 Depot" # ours\n[emergency]\ncall = "1"\n', encoding="utf-8")
    write_card(path, CARD)
    assert read_club(path) == (Club(name="Line 0 Depot", emergency=CARD), ())
    assert path.read_text("utf-8").startswith('name = "Line 0 Depot" # ours\n[emergency]\n')


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b'unit = "kg"\nunit = "lb"\n', "put club.toml right first, line 2: "),
        (b"\xff\xfe", "put club.toml right first: this file is not UTF-8"),
    ],
)
def test_faulty_settings_are_left_as_they_are(tmp_path: Path, data: bytes, said: str) -> None:
    path = tmp_path / "club.toml"
    path.write_bytes(data)
    with pytest.raises(ValueError, match=said):
        write_card(path, CARD)
    assert path.read_bytes() == data


def test_a_folder_that_is_gone_is_an_error(tmp_path: Path) -> None:
    club = tmp_path / "club"
    club.symlink_to(tmp_path / "a stick that was pulled out")
    with pytest.raises(OSError, match="club"):
        write_card(club / "club.toml", CARD)
