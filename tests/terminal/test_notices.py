"""What the coach must read is read in a real terminal, at a speed at which much else is said."""

from typing import Any

import pytest

from tests.signals import KILL

MADE_UP = {"CLASSCLOCK_SOUND": "trumpet"}
"""A setting of the sound that makes no sense, so that there is none on any machine."""


@pytest.mark.real_time
def test_rejoined_a_lost_sound_a_refusal_and_an_unsaved_file_are_all_read_at_forty_times_the_speed(
    club: Any,
) -> None:
    club.home.mkdir()
    (club.home / "results").write_text("in the way")  # the piece ends in nine seconds
    wall = club.start("run", club.plan("6:00"), "--athletes", "Ilse, Bram, Noor", "--speed", "40")
    wall.shows("enter starts")
    wall.type("\r")
    wall.waits_for(club.has_gone, "go")
    wall.signal(KILL)
    wall.status()

    wall = club.start("resume", **MADE_UP)
    wall.shows("rejoined")
    wall.strikes("n")
    wall.says("Noor, round 1")
    wall.shows("no sound, as CLASSCLOCK_SOUND is 'trumpet'", within=20)
    wall.shows("the results aren't on disk", within=30)
    wall.strikes("\x1b[18~")  # F7
    wall.strikes("\x0e")
    listed = wall.shows("Notices", "Noor, round 1", "no sound, as", "rejoined")
    assert listed.index("  Noor, round 1") < listed.index("  rejoined"), "the newest comes first"
    wall.strikes("\x0e")
    wall.drops("Notices")
    wall.type("x")
    wall.shows("nobody has the key x")
    (club.home / "results").unlink()
    wall.shows("provisional, saved as")
    wall.drops("aren't on disk")
