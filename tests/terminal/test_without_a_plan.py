"""A clock without a plan, as it is typed in a real terminal: started, killed in it, rejoined."""

from typing import Any

import pytest

from tests.signals import KILL


def settles(club: Any, wall: Any, pieces: int) -> None:
    """Settle the last of so many pieces once late calls, which enter waits for, have been."""
    wall.shows("enter goes on", within=60)
    wall.waits_for(lambda: any((club.home / "results").glob("[!.]*.json")), "results")
    while [one["status"] for one in club.results()["pieces"]] != ["settled"] * pieces:
        wall.strikes("\r")
        wall.passes(0.5)


@pytest.mark.real_time
@pytest.mark.parametrize(("columns", "rows"), [(60, 18), (120, 36)])
def test_a_line_of_the_command_line_runs_and_a_second_one_after_it(
    club: Any, columns: int, rows: int
) -> None:
    wall = club.start(
        *("run", "rounds 3", "--athletes", "Ilse, Bram", "--speed", "10"),
        columns=columns,
        rows=rows,
    )
    wall.shows("which clock?", "rounds in 3:00", "[rounds]", within=30)
    wall.type("\r")
    written = (club.home / "journals").glob
    wall.waits_for(lambda: any(path.stat().st_size for path in written("*.jsonl")), "a journal")
    wall.waits_for(club.has_gone, "go")
    wall.strikes("i")
    wall.waits_for(lambda: club.taps() == ["Ilse"], "Ilse's round")
    wall.signal(KILL)
    assert wall.status() == -KILL

    wall = club.start("resume", columns=columns, rows=rows)
    wall.shows("rejoined", within=30)
    wall.strikes("b")
    wall.waits_for(lambda: club.taps() == ["Ilse", "Bram"], "Bram's round")
    settles(club, wall, 1)
    wall.shows("ctrl+q leaves")
    wall.type("\x07")
    wall.shows("which clock?")
    wall.type("down 30 s\t\r")
    wall.waits_for(
        lambda: [one["event"] for one in club.events()].count("SegmentStarted") == 2, "one more"
    )
    (added,) = (one for one in club.events() if one["event"] == "SegmentAdded")
    assert (added["segment"], added["before"]) == (1, None)
    wall.waits_for(club.has_gone, "go")
    wall.type("7i")
    wall.waits_for(lambda: "Numbered" in [one["event"] for one in club.events()], "7 reps")
    settles(club, wall, 2)
    wall.waits_for(lambda: len(club.results()["pieces"]) == 2, "both pieces")
    wall.waits_for(lambda: club.results()["pieces"][1]["status"] == "settled", "settled results")
    told = [
        (one["name"], [(lane["athlete"], lane["score"]) for lane in one["lanes"]])
        for one in club.results()["pieces"]
    ]
    assert told == [
        ("Rounds 3:00", [("Ilse", "1+0"), ("Bram", "1+0")]),
        ("Down 0:30", [("Ilse", "7 reps"), ("Bram", "0 reps")]),
    ]
