"""What the coach's own screen says: everybody with doubts and why, and what is to be done next."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec import to_builtins

from classclock.clock.class_clock import ClassClock
from classclock.clock.source import MS, WoundSource
from classclock.live.desk import Desk
from classclock.live.live_class import LiveClass
from classclock.live.recorder import EventList
from classclock.live.session import Session
from classclock.live.session_opening import open_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.strength.class_loads import ClassLoads, Handled, LiftHistory
from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.keys.strokes import Stroke
from classclock.tally.lanes import Choice, Person
from classclock.tally.load_flags import load_flags
from classclock.tally.record import ClassRecord
from classclock.tally.scores.questions import questions
from classclock.tally.sheet import newest_entries
from classclock.units.bars_and_plates import Bar, Equipment
from classclock.units.loads import parse_load
from classclock.units.printable import can_be_shown
from classclock.wall.board_content import board_now
from classclock.wall.coach.coach_content import CoachContents
from classclock.wall.coach.coach_entries import last_entries
from classclock.wall.coach.coach_values import CoachContent, CoachLane, CoachSection, SectionName
from classclock.wall.coach.to_ask import to_ask
from classclock.wall.seen.started_content import StartedContent

PLAN = """
title = "Depot Thursday"
notes = ["Boxes along the west rail."]

[[segment]]
name = "Warm-up"
format = "countdown"
time = "8:00"

[[segment]]
name = "Turntable"
format = "rounds-in-time"
time = "16:00"
caution = ["Step down from the box."]
  [[segment.station]]
  movement = "box step-over"
  reps = 6
  options = ["lower box"]

[[segment]]
name = "Front squat"
format = "interval"
repeat = 2
steps = [{ work = "2:00" }, { rest = "1:00" }]
lift = "front squat"
sets = [{ reps = 3, load = "60 kg" }, { reps = 3, load = "80 kg" }]
score = "load"

[[segment]]
name = "Sleepers"
format = "interval"
repeat = 3
steps = [{ work = "1:00" }, { rest = "1:00" }]
score = "total"
  [[segment.station]]
  movement = "air bike"
  calories = 1
"""
PEOPLE = (
    Person("i1", "Ilse", "i", marks=("under 18",)),
    Person("b1", "Bram", "b", marks=("off the wall",)),
    Person("n1", "Noor", "n"),
)
GO = 10
KG_BARS = Equipment(
    (Bar("20 kg", parse_load("20", "kg"), 4),), ((parse_load("10", "kg"), 12),), None, (), ()
)


class Coached:
    """A class under wound time, and what its coach reads."""

    def __init__(self, session: Session) -> None:
        self.session, self.live = session, session.live
        self.contents = CoachContents(session, StartedContent(session))
        self.notes: tuple[ev.Noted, ...] = ()

    def go(self, seconds: float) -> None:
        source = self.session.source
        assert isinstance(source, WoundSource)
        source.jump(round(seconds * 1000) * MS)

    def start(self, segments_on: int = 0) -> None:
        for _ in range(segments_on):
            assert not self.live.do(cmd.GoTo(1)).refused
        assert not self.live.do(cmd.Start()).refused
        self.go(GO)

    def note(self, text: str, person: str | None = None) -> None:
        self.notes += (ev.Noted(self.live.clock.now(), text, person),)

    def reads(self, selected: str | None = None) -> CoachContent:
        if self.live.phase == "board":
            return self.contents.before(board_now(self.session), self.notes)
        return self.contents.started(notes=self.notes, selected=selected)

    def lane(self, name: str) -> CoachLane:
        return next(lane for lane in self.reads().lanes if lane.name == name)

    def about(self, name: str) -> list[str]:
        return [said.words for said in self.lane(name).about]

    def section(self, name: SectionName) -> CoachSection:
        return next(one for one in self.reads().sections if one.name == name)

    def lines(self, name: SectionName) -> list[str]:
        return [line.words for line in self.section(name).lines]


@pytest.fixture
def coached(tmp_path: Path) -> Any:
    plan, findings = parse_plan(PLAN, "t.toml")
    assert plan is not None, findings
    file = PlanFile("t", PLAN, plan)
    source, club = WoundSource(0), Club()
    ends = "1970-01-01T01:00:00+00:00"
    session = open_session(
        file, PEOPLE, folder=tmp_path, club=club, source=source, ends=ends, sound=False
    )
    yield Coached(session)
    session.close()


def test_before_and_during_the_warm_up_everybody_is_shown_with_what_they_do_next(
    coached: Coached,
) -> None:
    coached.live.choose("n1", 1, Choice((1,)))
    coached.note("left knee", "n1")
    for started in (False, True):
        if started:
            coached.start()
        assert [lane.key for lane in coached.reads().lanes] == ["I", "B", "N"]
        assert coached.about("Noor") == ["lower box", "note: left knee"]
        assert coached.lane("Noor").signs == "%"
        assert coached.about("Ilse") == ["under 18"]
        assert coached.reads().head.hint == "each one's line is about Turntable"
    assert coached.reads().head.clock == "8:00"


def test_the_board_has_its_cautions_the_plan_its_minutes_and_its_notes(coached: Coached) -> None:
    coached.live.do(cmd.GoTo(1))
    coached.note("late start")
    content = coached.reads()
    assert content.clears
    assert "Step down from the box." in content.head.cautions
    assert content.head.hint == ""
    next_ones = [(line.at, line.words) for line in coached.section("plan").lines]
    assert next_ones[:2] == [("5:00", "Front squat"), ("5:00", "Sleepers")]
    assert next_ones[2][1].endswith("the plan needs 27 min more")
    assert coached.lines("notes") == ["late start", "Boxes along the west rail."]


def test_a_round_that_came_fast_is_named_with_its_reason_and_asked_first(coached: Coached) -> None:
    coached.start(1)
    for _ in range(3):
        coached.go(60)
        coached.live.do(cmd.Tap("n1"))
    assert coached.section("asked").heading == "Nobody is to be asked", "no odd reps are known yet"
    coached.go(5)
    coached.live.do(cmd.Tap("n1"))
    assert coached.about("Noor")[0] == '" round 4 in 0:05 is very short'
    assert coached.lane("Noor").about[0].tone == "doubtful"
    assert coached.lane("Noor").signs == '"'
    asked = coached.section("asked").lines
    assert [line.at for line in asked] == ["N"]
    assert "two taps?" in asked[0].words
    assert coached.lane("Noor").score == "4"


def test_the_settle_asks_as_the_room_is_asked_and_says_what_answers(coached: Coached) -> None:
    coached.start(1)
    coached.go(60)
    coached.live.do(cmd.Tap("i1"))
    coached.go(16 * 60)
    content = coached.reads()
    assert content.head.emphasis == "Ilse: odd reps?"
    assert content.head.hint.startswith("12 enter: 12 odd reps")
    assert [line.at for line in coached.section("asked").lines] == ["I", "B", "N"]
    assert coached.lane("Ilse").score == "1+?"
    assert coached.lane("Ilse").short_score == "1+?"
    selected = coached.reads(selected="i1")
    assert [lane.key for lane in selected.lanes if lane.selected] == ["I"]
    *_, notes = selected.sections
    assert notes.lines[0].words == "Ilse 1+?: odd reps?; under 18; 1st"
    coached.live.do(cmd.Next(all_stands=True))
    assert coached.live.phase == "board"


def test_a_load_above_what_somebody_has_handled_is_said_until_it_was_looked_at(
    coached: Coached,
) -> None:
    live = coached.live
    handled = {"front squat": Handled(parse_load("70", "kg"), parse_load("70", "kg"))}
    live.loads = ClassLoads(live.record.plan, KG_BARS, LiftHistory({"i1": handled, "n1": handled}))
    live._loads_in = live.record.plan  # they have been read
    for _ in range(2):
        live.do(cmd.GoTo(1))
    assert coached.lane("Ilse").signs == "^"
    first = coached.lane("Ilse").about[0]
    assert first.words == "^ 80 kg is above the recorded maximum, 70 kg"
    assert first.tone == "doubtful"
    assert coached.section("asked").heading == "Loads to be looked at: F7"
    assert "Bram: ^ no record: choose the load together" in coached.lines("asked")
    for flag in load_flags(live.record, live.loads, (2,)):
        live.acknowledge(flag.person_id, flag.segment, flag.text)
    assert coached.section("asked").heading == "Ready: enter starts"
    assert coached.lane("Ilse").about[0].tone == "plain"
    coached.start()
    coached.go(20)
    assert coached.about("Ilse")[0] == "^ 80 kg is above the recorded maximum, 70 kg"


def test_a_lift_that_nobody_told_is_asked_for_with_its_keys(coached: Coached) -> None:
    coached.start(2)
    coached.go(60)
    coached.live.do(cmd.Tap("i1"))
    assert coached.lines("asked") == []
    coached.go(90)  # the first set is over
    asked = coached.section("asked").lines
    assert [(line.at, line.words, line.keys) for line in asked] == [
        ("B", "Bram: set 1: made?", "1:60b"),
        ("N", "Noor: set 1: made?", "1:60n"),
    ]
    assert coached.about("Noor")[0] == "set 1: made?"
    coached.live.do(cmd.SetNumber("n1", parse_load("60", "kg").amount, None, 1))
    assert [line.at for line in coached.section("asked").lines] == ["B"]


def test_who_is_off_the_wall_is_read_by_the_coach(coached: Coached) -> None:
    coached.start(2)
    coached.go(20)
    coached.live.do(cmd.SetNumber("b1", parse_load("77.5", "kg").amount))
    assert coached.lane("Bram").score == "77.5"
    assert "off the wall" in coached.about("Bram")


def test_an_interval_is_asked_for_once_it_is_over(coached: Coached) -> None:
    coached.start(3)
    coached.go(30)
    assert coached.lines("asked") == []
    coached.go(60)
    assert coached.lines("asked") == [f"{name}: interval 1?" for name in ("Ilse", "Bram", "Noor")]


def test_the_end_says_what_everybody_did_and_how_hard_it_was(coached: Coached) -> None:
    coached.start(1)
    coached.go(60)
    coached.live.do(cmd.Tap("n1"))
    coached.go(16 * 60)
    coached.live.do(cmd.Next(all_stands=True))
    assert not coached.live.leave("i1").refused
    for _ in range(2):
        coached.live.do(cmd.GoTo(1))
    coached.start()
    coached.go(10 * 60)
    coached.live.do(cmd.Next(all_stands=True))
    assert coached.live.phase == "closed"
    coached.live.do(cmd.SayEffort("n1", 7))
    assert coached.about("Noor")[0] == "effort 7"
    assert any(words.startswith("Turntable 1+0, 1st") for words in coached.about("Noor"))
    assert coached.about("Ilse")[0] == "has left"
    assert coached.section("plan").heading == "The class is over"


def texts(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        yield from (text for one in value.values() for text in texts(one))
    elif isinstance(value, list | tuple):
        yield from (text for one in value for text in texts(one))


@pytest.mark.parametrize("hostile", ["\x1b[2J", "\x07\u202e", "a\nb", "[bold]"])
def test_hostile_names_and_notes_are_text(tmp_path: Path, hostile: str) -> None:
    names = (f"Ilse{hostile}", f"{hostile}Bram")
    people = tuple(Person(f"p{n}", name, "ib"[n]) for n, name in enumerate(names))
    plan, _ = parse_plan(PLAN, "t.toml")
    assert plan is not None
    session = open_session(
        PlanFile("t", PLAN, plan),
        people,
        folder=tmp_path,
        club=Club(),
        source=WoundSource(0),
        sound=False,
    )
    coached = Coached(session)
    coached.note(hostile, "p0")
    coached.note(hostile)
    for on in ("board", "piece", "settle", "end"):
        if on == "piece":
            coached.start(1)
            coached.go(60)
            coached.live.do(cmd.Tap("p0"))
        elif on == "settle":
            coached.go(16 * 60)
        elif on == "end":
            coached.live.do(cmd.Next(all_stands=True))
            coached.live.do(cmd.GoTo(1))
            coached.start()
            coached.go(10 * 60)
            coached.live.do(cmd.Next(all_stands=True))
        assert all(map(can_be_shown, texts(to_builtins(coached.reads())))), on
    session.close()


def rounds_class() -> tuple[LiveClass, WoundSource]:
    """One with three lanes in a piece of rounds that has just begun, in memory."""
    plan, _ = parse_plan(PLAN, "t.toml")
    assert plan is not None
    source = WoundSource(0)
    live = LiveClass(ClassClock(source, 0), ClassRecord(plan, "kg"), EventList())
    live.record_event(ev.ClassOpened(0, "t", PLAN, "kg", PEOPLE, None))
    live.do(cmd.GoTo(1))
    live.do(cmd.Start())
    source.jump(GO * 1000 * MS)
    return live, source


CALLS = st.lists(st.tuples(st.sampled_from("ibn"), st.integers(1, 90)), min_size=1, max_size=12)


@given(CALLS, st.data())
@settings(max_examples=40, deadline=None)
def test_what_stands_behind_an_entry_takes_back_that_one(calls: Any, data: st.DataObject) -> None:
    live, source = rounds_class()
    lanes = {"i": "i1", "b": "b1", "n": "n1"}
    for key, seconds in calls:
        source.jump(seconds * 1000 * MS)
        live.do(cmd.Tap(lanes[key]))
    sheet = live.record.sheet
    assert sheet is not None
    lines = list(last_entries(sheet))
    assert len(lines) == min(9, len(calls))
    at = data.draw(st.integers(0, len(lines) - 1))
    keys, number = lines[at].keys, newest_entries(sheet)[at]
    signs = ["<backspace>"] if keys == "backspace" else list(keys.removesuffix(" enter"))
    signs += ["<enter>"] if keys.endswith(" enter") else []
    desk, now = Desk(live), live.clock.now()
    for nth, sign in enumerate(signs):
        desk.stroke(Stroke(sign, 10_000 + 1_300 * nth, now))
    after = live.record.sheet
    assert after is not None
    assert set(newest_entries(sheet)) - set(newest_entries(after)) == {number}


@given(CALLS, st.integers(0, 1_000))
@settings(max_examples=40, deadline=None)
def test_nobody_is_asked_more_or_less_than_at_the_settle(calls: Any, later: int) -> None:
    live, source = rounds_class()
    for key, seconds in calls:
        source.jump(seconds * 1000 * MS)
        live.do(cmd.Tap({"i": "i1", "b": "b1", "n": "n1"}[key]))
    source.jump(later * 1000 * MS)
    sheet, now = live.record.sheet, live.clock.now()
    assert sheet is not None
    asked = [(one.lane, one.kind, one.words) for one in to_ask(sheet, now)]
    of_settle = [(one.lane, one.doubt, one.words) for one in questions(sheet)]
    if sheet.ended(now) is not None:
        assert asked == of_settle
    else:
        known = [one for one in of_settle if one[1] != "not given"]
        assert [one for one in asked if one[1] != "missed one"] == known
