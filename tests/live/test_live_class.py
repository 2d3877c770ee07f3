"""The shell round the record: written before it counts, said after it; asked before it goes on."""

import pytest
from msgspec import Struct, field

from classclock.clock.class_clock import ClassClock
from classclock.clock.source import MS, WoundSource
from classclock.live.live_class import LiveClass
from classclock.plan.model import Plan
from classclock.plan.reading.plan_reading import parse_plan
from classclock.strength.class_loads import ClassLoads, LiftHistory
from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.decide_groups import SharedWay
from classclock.tally.lane_keys import people_named
from classclock.tally.lanes import Choice, Person, Teams
from classclock.tally.record import ClassRecord
from classclock.units.bars_and_plates import Equipment

PLAN = """
title = "Depot Friday"

[[segment]]
name   = "Turntable"
format = "rounds-in-time"
time   = "4:00"

  [[segment.station]]
  movement = "box step-over"
  reps     = 6
  options  = ["lower box"]

[[segment]]
name   = "Pull"
format = "interval"
repeat = 1
steps  = [{ work = "2:00" }]
lift   = "deadlift"
sets   = [{ reps = 3, percent = 65 }]
score  = "load"
"""
TURNTABLE, PULL = 0, 1
GO_AFTER = 10


class Watched(Struct):
    """A recorder that notes how the class stood when each event came to it."""

    live: LiveClass | None = None
    events: list[ev.Event] = field(default_factory=list)
    before: list[ClassRecord] = field(default_factory=list)

    def append(self, event: ev.Event) -> int:
        assert self.live is not None
        self.events.append(event)
        self.before.append(self.live.record)
        return len(self.events) - 1


class Class(Struct):
    live: LiveClass
    source: WoundSource
    recorder: Watched
    reads: list[int]

    def wind(self, seconds: float) -> None:
        self.source.jump(round(seconds * 1000) * MS)


@pytest.fixture
def opened() -> Class:
    plan, findings = parse_plan(PLAN, "depot.toml")
    assert plan is not None, findings
    source, recorder, reads = WoundSource(), Watched(), list[int]()

    def read_loads(asked: Plan) -> ClassLoads:
        reads.append(1)
        return ClassLoads(asked, Equipment((), (), None, (), ()), LiftHistory())

    record = ClassRecord(plan, people=people_named(("Ilse", "Bram")))
    live = LiveClass(ClassClock(source, source.now()), record, recorder, read_loads=read_loads)
    recorder.live = live
    return Class(live, source, recorder, reads)


def test_an_event_is_written_before_the_record_has_it_and_said_once_it_has(opened: Class) -> None:
    opened.live.do(cmd.Start())
    opened.wind(GO_AFTER + 30)
    outcome = opened.live.do(cmd.Tap("Ilse"))
    assert outcome.events == (ev.Tapped(40_000, "Ilse"),)
    assert outcome.text == "Ilse, round 1, 0:30"
    assert opened.recorder.events[-1] == outcome.events[0]
    sheet = opened.recorder.before[-1].sheet
    assert sheet is not None
    assert sheet.tallies["Ilse"].rounds == ()


def test_what_is_refused_writes_nothing(opened: Class) -> None:
    outcome = opened.live.do(cmd.Tap("Ilse"))
    assert outcome.refused
    assert outcome.text == "nothing is running: enter starts the count-in"
    assert opened.recorder.events == []


def test_a_command_counts_at_the_moment_its_key_arrived(opened: Class) -> None:
    opened.live.do(cmd.Start())
    opened.wind(GO_AFTER + 30)
    (tapped,) = opened.live.do(cmd.Tap("Ilse"), opened.live.clock.now() - 700).events
    assert tapped.at == 39_300


def test_going_on_goes_from_one_question_to_the_next_and_then_settles(opened: Class) -> None:
    live = opened.live
    live.do(cmd.Start())
    opened.wind(GO_AFTER + 240 + 5)
    stood = live.do(cmd.Next())
    assert stood.text == "Ilse: 0+0, as it stands. Backspace asks again"
    live.do(cmd.SetNumber("Bram", None, rounds=3))
    assert live.do(cmd.Next()).text == "Bram: 3+0, as it stands. Backspace asks again"
    gone_on = live.do(cmd.Next())
    assert [type(event) for event in gone_on.events] == [ev.Settled, ev.SegmentChosen]
    assert gone_on.text == "settled"


@pytest.mark.parametrize("ahead", [False, True], ids=["at the start", "before"])
def test_who_lifts_what_is_read_once_where_a_lift_starts_at_the_latest(
    opened: Class,
    ahead: bool,  # noqa: FBT001  a case of the test
) -> None:
    live = opened.live
    live.do(cmd.Start())
    assert (live.loads_unread, opened.reads) == (True, [])
    live.do(cmd.CallOff())
    live.do(cmd.GoTo(1))
    assert opened.reads == []
    if ahead:
        live.plan_loads()
    live.do(cmd.Start())
    assert (live.loads_unread, opened.reads) == (False, [1])
    live.do(cmd.CallOff())
    live.do(cmd.Start())
    assert opened.reads == [1]


def test_without_a_reader_nothing_is_unread(opened: Class) -> None:
    live = LiveClass(opened.live.clock, opened.live.record, Watched())
    live.plan_loads()
    assert (live.loads_unread, live.loads) == (False, None)


def test_what_is_agreed_before_the_start_is_an_event_of_that_moment(opened: Class) -> None:
    live = opened.live
    opened.wind(1)
    assert live.choose("Ilse", TURNTABLE, Choice((1,), None, 0)).events == (
        ev.OptionChosen(1_000, "Ilse", TURNTABLE, (1,), None, 0),
    )
    pair = (("Ilse", "Bram"),)
    drawn = SharedWay(partners=pair, teams=Teams(pair, "drawn by lot"), seed=7)
    assert live.share_so(TURNTABLE, drawn).events == (
        ev.PartnersSet(1_000, TURNTABLE, pair),
        ev.TeamsSet(1_000, TURNTABLE, pair, "drawn by lot", 7),
    )
    assert live.share_so(TURNTABLE).events == (
        ev.PartnersSet(1_000, TURNTABLE, ()),
        ev.TeamsSet(1_000, TURNTABLE, ()),
    )
    assert live.share_so(TURNTABLE).text == "as it was"
    assert live.acknowledge("Ilse", PULL, "heavy").events == (
        ev.FlagAcknowledged(1_000, "Ilse", PULL, "heavy"),
    )
    assert live.add_person(Person("uri", "Uri", "u")).events == (
        ev.PersonAdded(1_000, Person("uri", "Uri", "u")),
    )
    assert live.record.choice("Ilse", TURNTABLE) == Choice((1,), None, 0)
    assert [lane.name for lane in live.lineup()] == ["Ilse", "Bram", "Uri"]
