"""Of each kind of event only what is the person's."""

import json
from pathlib import Path
from typing import Any

from classclock.book.files.journal import Anchor, Journal
from classclock.book.handing_over.in_journals import lines_about
from classclock.book.handing_over.left_out import OnlyTheirNames
from classclock.tally import events as ev
from classclock.tally.lanes import Lane, Person, Place, Sharing
from tests.tally.test_nothing_falls_through import EXAMPLES

WALL = "2026-11-24T18:30:00+01:00"
ILSE, BRAM = Person("x7x7x7x7x7", "Ilse", "i"), Person("bram", "Bram", "b")
PAIR = Lane("bram", "Bram + Ilse", "b", ("bram", ILSE.id))
ALONE = Lane(ILSE.id, "Ilse", "i", (ILSE.id,))
NAMES = OnlyTheirNames(["Ilse"], ["Bram"])


def about(*events: ev.Event, who: str = ILSE.id) -> list[dict[str, Any]]:
    anchors = (Anchor("boot", 0, 0, WALL),)
    journal = Journal(Path("a.jsonl"), anchors, events, whole=1, torn=False, last_wall=WALL)
    return list(lines_about(journal, frozenset({who}), NAMES))


def test_no_kind_of_event_gives_away_who_else_was_there() -> None:
    # The examples tell of Ilse, Bram, Noor and Ute, by ids that are their names.
    for kind, event in EXAMPLES.items():
        text = json.dumps(about(event, who="ute")).casefold()
        assert not [name for name in ("bram", "noor") if name in text], kind


def test_entries_of_a_team_are_theirs_without_the_others() -> None:
    lines = about(
        ev.SegmentStarted(0, 1, 1, 10_000, (PAIR, Lane("noor", "Noor", "n", ("noor",)))),
        ev.Tapped(20_000, "bram"),
        ev.Tapped(21_000, "noor"),
        ev.TookBack(30_000, 1),
        ev.TookBack(31_000, 2),
        ev.Corrected(40_000, "bram", "asked Ilse", rounds=7),
    )
    assert [(line["n"], line["event"]) for line in lines] == [
        (0, "SegmentStarted"),
        (1, "Tapped"),
        (3, "TookBack"),
        (5, "Corrected"),
    ]
    (lane,) = lines[0]["lanes"]
    assert (lane["members"], lane["others"]) == ([ILSE.id], 1)
    assert "key" not in lane
    assert lines[1]["when"] == "2026-11-24T18:30:20+01:00"


def test_a_lane_is_theirs_as_long_as_they_are_in_it() -> None:
    lines = about(
        ev.SegmentStarted(0, 1, 1, 0, (PAIR,)),
        ev.Tapped(1_000, "bram"),
        ev.SegmentStarted(2_000, 2, 1, 0, (ALONE, Lane("bram", "Bram", "b", ("bram",)))),
        ev.Tapped(3_000, "bram"),
        ev.Tapped(4_000, ILSE.id),
    )
    assert [line["n"] for line in lines] == [0, 1, 2, 4]


def test_a_call_that_was_moved_is_told_to_both() -> None:
    events = (
        ev.SegmentStarted(0, 1, 1, 0, (ALONE, Lane("bram", "Bram", "b", ("bram",)))),
        ev.Tapped(1_000, ILSE.id),
        ev.Moved(2_000, 1, "bram"),
    )
    assert about(*events)[-1]["to_them"] is False
    assert about(*events, who="bram")[-1]["to_them"] is True


def test_a_note_about_somebody_else_isnt_theirs_though_it_names_them() -> None:
    lines = about(
        ev.ClassOpened(0, "a", 'title = "For Ilse"\n', "kg", (ILSE, BRAM), None),
        ev.Noted(1_000, "left knee, stopped", ILSE.id),
        ev.Noted(2_000, "back hurts since Ilse dropped the bar", "bram"),
        ev.Noted(3_000, "Ilse brought the cake"),
        ev.Noted(4_000, "the heater is out"),
        ev.EmergencyNoted(5_000, "Ilse, ankle, ice"),
        ev.EmergencyNoted(6_000, "Bram, ankle, ice"),
    )
    assert [line["n"] for line in lines] == [0, 1, 3, 5]
    assert lines[0]["plan"] == ['title = "For Ilse"']
    assert [person["name"] for person in lines[0]["people"]] == ["Ilse"]


def test_whom_they_shared_with_is_a_number() -> None:
    places = (Place(("noor",)), Place(("bram", ILSE.id), heat=2))
    (shared, grouped) = about(
        ev.EquipmentShared(0, 1, Sharing("two heats", places)),
        ev.PartnersSet(0, 1, (("noor", "uri"), ("bram", ILSE.id))),
        ev.TeamsSet(0, 1, (("noor", "bram"),)),
        ev.EquipmentShared(0, 1, None),
    )
    assert (shared["members"], shared["others"], shared["heat"]) == ([ILSE.id], 1, 2)
    assert grouped["others"] == 1
