"""Each kind of event without somebody: as many lines as before, and every one can be read."""

import json
from typing import Any, get_args

import pytest
from msgspec.structs import replace

from classclock.book.erasing.name_finding import NOBODY, name_finder
from classclock.book.erasing.scrubbing import Scrub
from classclock.book.files.event_lines import event_line, event_of
from classclock.book.files.journal import Lost
from classclock.plan.formats.fit import Fit
from classclock.tally import events as ev
from classclock.tally.lanes import Lane, Person, Place, Sharing
from classclock.units.loads import parse_load

WALL = "2026-11-24T18:30:00.000+01:00"
PLAN = """title = "Noor's Tuesday"
notes = "for Noor, who moves away"

[[segment]]
name = "Noor"  # her own piece
benchmark = "noor"
format = "countdown"
time = "1:00"
score = "reps"
caution = ["Noor: no jumping"]
"""
NOOR, PIET = Person("k7", "Noor", "n", marks=("under 18",)), Person("k8", "Piet", "p")
PAIR = Lane("k7", "Noor + Piet", "n", ("k7", "k8"))
ALONE = Lane("k8", "Piet", "p", ("k8",), late=True)
PLACES = (Place(("k8", "k7")), Place(("k7",), heat=2, start_station=1, options=(1, 0)))
EVENTS: tuple[ev.Event, ...] = (
    ev.ClassOpened(0, "depot", PLAN, "kg", (NOOR, PIET), WALL, "Dizzy: stop, call Noor."),
    ev.PersonAdded(1, NOOR),
    ev.PersonChanged(2, NOOR),
    ev.PersonLeft(3, "k7"),
    ev.OptionChosen(4, "k7", 0, (1,), None, 0),
    ev.EquipmentShared(5, 0, Sharing("in pairs, turn by turn", PLACES)),
    ev.EquipmentShared(6, 0, None),
    ev.SegmentFitted(6, 0, Fit(length=30_000)),
    ev.FlagAcknowledged(7, "k7", 0, "Noor: above her record"),
    ev.SegmentAdded(8, 1, PLAN, None),
    ev.EndMoved(8, WALL),
    ev.EmergencyNoted(9, "noor, ankle, ice"),
    ev.Noted(10, "left knee, stopped", "k7"),
    ev.Noted(10, "noor asked for the lower box"),
    ev.SegmentChosen(10, 0),
    ev.SegmentStarted(11, 0, 1, 12, (PAIR, ALONE)),
    ev.CalledOff(12),
    ev.Restarted(13),
    ev.Held(14),
    ev.Resumed(15),
    ev.HoldUndone(16),
    ev.SegmentEnded(17),
    ev.TimeAdded(18, 60_000),
    ev.ClockShifted(19, 5),
    ev.Tapped(20, "k7"),
    ev.Numbered(21, "k7", reps=12),
    ev.Lifted(22, "k7", parse_load("60 kg", "kg"), made=True),
    ev.FinishedNow(23, "k7"),
    ev.StoppedHere(24, "k7"),
    ev.OptionChanged(25, "k7", 0, 1),
    ev.Corrected(26, "k7", "Noor called seven", rounds=7),
    ev.LetStand(26, "k7", "not given", (2, 3)),
    ev.LaneJoined(27, PAIR),
    ev.TookBack(28, 20),
    ev.BroughtBack(29, 20),
    ev.Moved(30, 21, "k7"),
    ev.Settled(31, 0, 1),
    ev.ClassClosed(32),
    ev.EffortSaid(33, "k7", 7),
    ev.EffortSkipped(34),
    ev.PersonBack(37, "k7"),
    ev.LoadChosen(38, "k7", 0, 2, parse_load("60 kg", "kg")),
    ev.PartnersSet(33, 0, (("k8", "k7"),)),
    ev.TeamsSet(34, 0, (("k7", "k8"),), "drawn by lot", 7),
    ev.SegmentStarted(35, 0, 1, 36, (ALONE,), (("k7", "k8"),)),
)
SCRUB = Scrub(frozenset({"k7"}), name_finder({"Noor"}), "erased-1")


LINES = [json.loads(event_line(event, 0, WALL)) for event in EVENTS]


def scrubbed(event: ev.Event) -> dict[str, Any]:
    return SCRUB.event(json.loads(event_line(event, 0, WALL)))


def test_how_hard_it_was_for_who_is_erased_is_not_kept() -> None:
    assert scrubbed(ev.EffortSaid(33, "k7", 7))["effort"] is None
    assert scrubbed(ev.EffortSaid(33, "k8", 7))["effort"] == 7


def test_every_kind_of_event_is_tried() -> None:
    assert {type(event) for event in EVENTS} == set(get_args(ev.Event))


@pytest.mark.parametrize("event", EVENTS, ids=lambda event: type(event).__name__)
def test_an_event_stays_the_event_that_it_was_without_the_person(event: ev.Event) -> None:
    line = scrubbed(event)
    assert type(event_of(line)) is type(event)
    assert '"k7"' not in json.dumps(line)


@pytest.mark.parametrize("event", EVENTS, ids=lambda event: type(event).__name__)
def test_an_event_of_somebody_else_stays_to_the_letter(event: ev.Event) -> None:
    other = Scrub(frozenset({"k9"}), name_finder({"Ilse"}), "erased-2")
    line = json.loads(event_line(event, 0, WALL))
    assert other.event(line) == line


def test_who_shared_equipment_shares_it_as_nobody() -> None:
    shared = event_of(scrubbed(EVENTS[5]))
    assert isinstance(shared, ev.EquipmentShared)
    assert shared.sharing is not None
    assert shared.sharing.places == (
        Place(("k8", "erased-1")),
        Place(("erased-1",), heat=2, start_station=1, options=(1, 0)),
    )


def test_who_shared_a_bar_or_a_tally_shares_it_as_nobody() -> None:
    partners, teams, started = (event_of(scrubbed(event)) for event in EVENTS[-3:])
    assert partners == ev.PartnersSet(33, 0, (("k8", "erased-1"),))
    assert teams == ev.TeamsSet(34, 0, (("erased-1", "k8"),), "drawn by lot", 7)
    assert isinstance(started, ev.SegmentStarted)
    assert started.partners == (("erased-1", "k8"),)


def test_what_was_noted_of_somebody_goes_whole_and_of_the_class_without_the_name() -> None:
    of_noor, of_the_class = (scrubbed(event) for event in EVENTS if isinstance(event, ev.Noted))
    assert event_of(of_noor) == ev.Noted(10, NOBODY, "erased-1")
    assert event_of(of_the_class) == ev.Noted(10, "erased asked for the lower box")


def test_a_pair_keeps_the_other_ones_name() -> None:
    joined = event_of(scrubbed(ev.LaneJoined(27, PAIR)))
    assert isinstance(joined, ev.LaneJoined)
    assert joined.lane.name == f"{NOBODY} + Piet"


def test_marks_and_names_go_with_the_person() -> None:
    added = event_of(scrubbed(ev.PersonAdded(1, NOOR)))
    assert added == ev.PersonAdded(1, Person("erased-1", NOBODY, "n"))


def test_a_plan_stays_as_it_is() -> None:
    opened = event_of(scrubbed(EVENTS[0]))
    assert isinstance(opened, ev.ClassOpened)
    assert (opened.plan_text, opened.stop) == (PLAN, "Dizzy: stop, call Noor.")
    added = ev.SegmentAdded(8, 1, PLAN, None)
    assert event_of(scrubbed(added)) == added


def test_a_plan_loses_the_name_in_the_lines_that_are_named_and_stays_the_same_plan() -> None:
    lines = [text for _, text in SCRUB.texts_in_event(LINES[0])]
    assert lines == [
        'title = "Noor\'s Tuesday"',
        'notes = "for Noor, who moves away"',
        'name = "Noor"  # her own piece',
        'benchmark = "noor"',
        'caution = ["Noor: no jumping"]',
        "Dizzy: stop, call Noor.",
    ]
    goes = replace(SCRUB, goes=frozenset((*lines[:1], *lines[2:])))
    opened = event_of(goes.event(LINES[0]))
    assert isinstance(opened, ev.ClassOpened)
    assert opened.plan_text == (
        PLAN.replace("Noor's Tuesday", "erased's Tuesday").replace("Noor: no", "erased: no")
    )
    assert opened.stop == "Dizzy: stop, call erased."


def test_words_that_the_coach_keeps_stay_and_what_is_about_them_goes_unasked() -> None:
    found = [one for line in LINES for one in SCRUB.texts_in_event(line) if one.kind != "plan"]
    assert found == [
        ("emergency", "noor, ankle, ice"),
        ("note", "noor asked for the lower box"),
        ("reason", "Noor called seven"),
    ]
    keeps = replace(SCRUB, stays=frozenset({"Noor called seven"}))
    corrected = next(line for line in LINES if line["event"] == ev.Corrected.__name__)
    assert keeps.event(corrected)["reason"] == "Noor called seven"


def test_what_is_said_to_be_lost_is_so_without_them_too() -> None:
    line = json.loads(Lost(2, ("k7", "k8"), WALL, WALL).line())
    assert SCRUB.event(line) == {
        "lost": {"events": 2, "lane": [SCRUB.token, "k8"], "since": WALL, "wall": WALL}
    }
