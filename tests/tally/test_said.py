"""What is said of an event in the last line of the wall."""

import pytest

from classclock.plan.formats.fit import Fit
from classclock.plan.model import Plan
from classclock.tally import events as ev
from classclock.tally.lane_keys import people_named
from classclock.tally.lanes import Lane, Portion
from classclock.tally.lineup import draw_lanes
from classclock.tally.record import ClassRecord
from classclock.tally.said import said
from classclock.units.loads import parse_load

PIECE, COOL_DOWN = 1, 2
GO = 20_000
CAP = GO + 16 * 60_000
PEOPLE = people_named(("Ilse", "Bram", "Noor"))


class Told:
    """A class of which every event is told as soon as the record has it."""

    def __init__(self, plan: Plan) -> None:
        self.record, self._number = ClassRecord(plan), 0
        self.happens(ev.ClassOpened(0, "depot", "", "kg", PEOPLE, None))
        self.happens(ev.SegmentChosen(0, PIECE))

    def happens(self, event: ev.Event) -> str:
        self.record = self.record.apply(self._number, event)
        self._number += 1
        return said(event, self.record)

    @property
    def latest(self) -> int:
        """The number of the event that was told last."""
        return self._number - 1


@pytest.fixture
def board(depot: Plan) -> Told:
    """Two stations, 6 + 12 reps; the first has two options."""
    return Told(depot)


@pytest.fixture
def running(board: Told) -> Told:
    lanes = draw_lanes(board.record.segment, PEOPLE, {})
    board.happens(ev.SegmentStarted(10_000, PIECE, 1, GO, lanes))
    return board


def test_of_people_who_go_and_come_with_their_keys(board: Told) -> None:
    assert board.happens(ev.PersonLeft(1_000, "Bram")) == (
        "Bram has left: no lane from here on. -b: back again"
    )
    assert board.happens(ev.PersonBack(2_000, "Bram")) == "Bram is back, key b"
    assert board.happens(ev.EffortSaid(3_000, "Bram", 7)) == "Bram, how hard it was: ✓"
    assert board.happens(ev.EffortSaid(4_000, "Bram", None)) == (
        "Bram, how hard it was: not kept any more"
    )


def test_of_what_is_chosen_by_name_or_as_written(board: Told) -> None:
    def chosen(*options: int, load: str | None = None, portion: Portion | None = None) -> str:
        choice = ev.OptionChosen(1_000, "Noor", PIECE, options, load, 0)
        if portion is not None:
            choice = ev.OptionChosen(1_000, "Noor", PIECE, options, load, 0, portion)
        return board.happens(choice)

    assert chosen() == "Noor: as written"
    assert chosen(2, 0) == "Noor: step-up"
    assert chosen(1, 0, load="lighter") == "Noor: lower box, lighter"
    assert chosen(0, 0, portion=Portion("half", 50)) == "Noor: half: 3+6 a round"


def test_of_loads_for_a_set_or_for_all(board: Told) -> None:
    load = parse_load("60 kg", "kg")
    assert board.happens(ev.LoadChosen(1_000, "Ilse", PIECE, None, load)) == (
        "Ilse, every set: 60 kg"
    )
    assert board.happens(ev.LoadChosen(1_000, "Ilse", PIECE, 2, None)) == "Ilse, set 2: as planned"


def test_of_a_segment_that_is_left_out_here_or_further_on(board: Told) -> None:
    out = Fit(left_out=True)
    assert board.happens(ev.SegmentFitted(1_000, COOL_DOWN, out)) == (
        "Cool-down is left out: going on passes it by"
    )
    assert board.happens(ev.SegmentFitted(1_000, PIECE, out)) == (
        "Turntable is left out: up goes back to it"
    )
    assert board.happens(ev.SegmentFitted(2_000, PIECE, None)) == "Turntable: as planned again"


@pytest.mark.parametrize(
    ("event", "words"),
    [
        (ev.Held(GO + 1), "held: space resumes, enter ends the segment here"),
        (ev.Resumed(GO + 2), "the clock runs again"),
        (ev.HoldUndone(GO + 2), "as if it had never been held"),
        (ev.SegmentEnded(GO + 2), "ended here. Backspace takes that back"),
        (ev.TimeAdded(GO + 2, 60_000), "1 minute more"),
        (ev.TimeAdded(GO + 2, -60_000), "1 minute less"),
        (ev.ClockShifted(GO + 2, 500), "the clock was set"),
    ],
)
def test_of_the_clock(running: Told, event: ev.ClockEvent, words: str) -> None:
    if not isinstance(event, ev.Held):
        running.happens(ev.Held(GO + 1))
    assert running.happens(event) == words


def test_of_what_is_counted_with_the_time_of_the_clock(running: Told) -> None:
    assert running.happens(ev.Tapped(GO + 61_999, "Ilse")) == "Ilse, round 1, 1:01"
    assert running.happens(ev.Numbered(GO + 70_000, "Ilse", reps=4)) == "Ilse, 1+4, 1:10"
    assert running.happens(ev.OptionChanged(GO + 71_000, "Ilse", 0, 2)) == "Ilse: step-up from here"
    assert running.happens(ev.OptionChanged(GO + 72_000, "Ilse", 0, 0)) == (
        "Ilse: as written from here, 1:12"
    )
    assert running.happens(ev.StoppedHere(GO + 80_000, "Noor")) == "Noor stops here, 0+?, 1:20"
    late = Lane("uri", "Uri", "u", ("uri",), late=True)
    assert running.happens(ev.LaneJoined(GO + 90_000, late)) == "Uri joined late, key u"


def test_of_an_entry_taken_back_whose_it_was_and_what_they_have_now(running: Told) -> None:
    running.happens(ev.Tapped(GO + 60_000, "Ilse"))
    running.happens(ev.Numbered(GO + 70_000, "Ilse", reps=4))
    number = running.latest
    assert running.happens(ev.TookBack(GO + 71_000, number)) == (
        "took back Ilse's entry, 1+?. - backspace brings it back"
    )
    assert running.happens(ev.BroughtBack(GO + 72_000, number)) == "brought back Ilse's entry, 1+4"
    assert running.happens(ev.Moved(GO + 73_000, number, "Bram")) == "that was Bram's"


def test_of_an_end_taken_back(running: Told) -> None:
    running.happens(ev.Held(GO + 60_000))
    running.happens(ev.SegmentEnded(GO + 61_000))
    assert running.happens(ev.TookBack(GO + 62_000, running.latest)) == (
        "took back the end of the segment. - backspace brings it back"
    )


def test_of_the_scores_once_it_is_over(running: Told) -> None:
    running.happens(ev.Tapped(GO + 60_000, "Ilse"))
    assert running.happens(ev.LetStand(CAP + 1_000, "Bram", "not given")) == (
        "Bram: 0+0, as it stands. Backspace asks again"
    )
    assert running.happens(ev.Corrected(CAP + 2_000, "Ilse", "miscounted", 3, 5)) == (
        "Ilse corrected to 3+5"
    )
    assert running.happens(ev.Settled(CAP + 3_000, PIECE, 1)) == "settled"
