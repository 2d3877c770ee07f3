"""Every event and every command has a rule wherever one is asked for, or it isn't even typed."""

import re
import subprocess
import sys
from decimal import Decimal
from pathlib import Path
from types import ModuleType
from typing import Any, get_args

import pytest

from classclock.plan.formats.fit import Fit
from classclock.plan.model import Plan
from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.lanes import Lane, Person, Place, Sharing
from classclock.tally.record import ClassRecord
from classclock.tally.said import said
from classclock.units.loads import Load

ROOT = Path(__file__).parents[2]
RULES = {
    "ClassEvent": {"tally/record.py", "tally/said.py"},
    "RunEvent": {"tally/record.py", "tally/said.py"},
    "ClockEvent": {"tally/sheet.py", "tally/said.py"},
    "CountEvent": {"tally/sheet.py", "tally/said.py"},
    "LaneEvent": {"tally/counting/counting.py", "tally/said.py"},
    "CountCommand": {"tally/decide.py"},
    "ClockCommand": {"tally/decide_clock.py"},
    "PeopleCommand": {"live/live_class.py"},
    "ScreenCommand": {"screens/live/class_control.py"},
}
"""Each union, and where there is a rule for each of its members."""


def kinds_in(module: ModuleType) -> set[type]:
    """What the module defines but for what others there are made from."""
    ours = {kind for kind in vars(module).values() if isinstance(kind, type)}
    return {
        kind
        for kind in ours
        if kind.__module__ == module.__name__ and not kind.__name__.startswith("_")
    }


def test_every_event_and_every_command_is_in_its_union() -> None:
    assert set(get_args(ev.Event)) == kinds_in(ev)
    assert set(get_args(cmd.Command)) == kinds_in(cmd)


def with_one_more(text: str, union: str, base: str) -> str:
    """The module with a member more in the union, of which nothing else knows."""
    one_more = f"class More{union}({base}, frozen=True):\n    pass\n\n\n{union} = More{union} | "
    changed, times = re.subn(rf"^{union} = ", one_more, text, flags=re.MULTILINE)
    assert times == 1
    return changed


def test_one_more_in_a_union_is_not_typed_until_each_of_its_rules_is_written(
    tmp_path: Path,
) -> None:
    events, commands = "classclock/tally/events.py", "classclock/tally/commands.py"
    texts = {source: (ROOT / source).read_text("utf-8") for source in (events, commands)}
    for union in RULES:
        source = commands if union.endswith("Command") else events
        base = "Struct" if source == commands else "_Happened"
        base = "_Entry" if union == "LaneEvent" else base
        texts[source] = with_one_more(texts[source], union, base)
    mypy = [sys.executable, "-m", "mypy", "--config-file", "pyproject.toml"]
    mypy += ["--follow-imports=silent", "--cache-dir", str(tmp_path / "cache")]
    for source, text in texts.items():
        changed = tmp_path / Path(source).name
        changed.write_text(text, "utf-8")
        mypy += ["--shadow-file", source, str(changed)]
    files = sorted(f"classclock/{file}" for file in set.union(*RULES.values()))
    done = subprocess.run([*mypy, *files], cwd=ROOT, capture_output=True, text=True, check=False)
    missing = r'^classclock/(\S+):\d+: error: .*"assert_never".*"More(\w+)"'
    found = [(union, file) for file, union in re.findall(missing, done.stdout, re.MULTILINE)]
    assert set(found) == {(union, file) for union, files in RULES.items() for file in files}
    assert done.stdout.count("error:") == len(found), done.stdout


ILSE, BRAM = Person("ilse", "Ilse", "i"), Person("bram", "Bram", "b")
UTE = Person("ute", "Ute", "u")


def lane_of(person: Person) -> Lane:
    return Lane(person.id, person.name, person.key, (person.id,))


STARTED: tuple[ev.Event, ...] = (
    ev.ClassOpened(0, "turntable", "", "kg", (ILSE, BRAM, UTE), None, ask_effort=True),
    ev.SegmentChosen(1_000, 1),
    ev.SegmentStarted(10_000, 1, 1, 20_000, (lane_of(ILSE), lane_of(BRAM))),
    ev.Tapped(30_000, "ilse"),
    ev.Tapped(31_000, "bram"),
    ev.TookBack(32_000, 4),
    ev.PersonLeft(33_000, "ute"),
)
"""A piece that runs: Ilse has a round, Bram's was taken back, Ute is gone."""
ADDED = 'title = "any"\n[[segment]]\nname = "Down"\nformat = "countdown"\ntime = "5:00"\n'
_EXAMPLES: tuple[ev.Event, ...] = (
    ev.ClassOpened(50_000, "other", "", "kg", (ILSE,), None),
    ev.PersonAdded(50_000, Person("noor", "Noor", "n")),
    ev.PersonChanged(50_000, Person("ilse", "Ilse", "l")),
    ev.PersonLeft(50_000, "ilse"),
    ev.PersonBack(50_000, "ute"),
    ev.LoadChosen(50_000, "ilse", 1, 2, Load(Decimal(80), "kg")),
    ev.OptionChosen(50_000, "ilse", 1, (1,), None, 0),
    ev.EquipmentShared(50_000, 1, Sharing("two heats", (Place(("ilse",), heat=2),))),
    ev.PartnersSet(50_000, 1, (("ilse", "bram"),)),
    ev.TeamsSet(50_000, 1, (("ilse", "bram"),), "drawn by lot", 7),
    ev.SegmentFitted(50_000, 2, Fit(left_out=True)),
    ev.FlagAcknowledged(50_000, "ilse", 1, "heavy"),
    ev.SegmentAdded(50_000, 3, ADDED, 1),
    ev.EndMoved(50_000, "2026-11-24T19:30:00+01:00"),
    ev.EmergencyNoted(50_000, "Ilse, ankle, ice"),
    ev.Noted(50_000, "left knee, stopped", "ilse"),
    ev.EffortSaid(50_000, "ilse", 7),
    ev.EffortSkipped(50_000),
    ev.ClassClosed(50_000),
    ev.SegmentChosen(50_000, 0),
    ev.SegmentStarted(50_000, 1, 2, 60_000, ()),
    ev.CalledOff(50_000),
    ev.Held(50_000),
    ev.Resumed(50_000),
    ev.HoldUndone(50_000),
    ev.Restarted(50_000),
    ev.SegmentEnded(50_000),
    ev.TimeAdded(50_000, 60_000),
    ev.ClockShifted(50_000, 1_000),
    ev.Tapped(50_000, "ilse"),
    ev.Numbered(50_000, "ilse", reps=3),
    ev.Lifted(50_000, "ilse", None, made=True),
    ev.FinishedNow(50_000, "ilse"),
    ev.StoppedHere(50_000, "ilse"),
    ev.OptionChanged(50_000, "ilse", 0, 1),
    ev.Corrected(50_000, "ilse", "asked", rounds=2, reps=0),
    ev.LetStand(50_000, "ilse", "not given"),
    ev.LaneJoined(50_000, Lane("noor", "Noor", "n", ("noor",), late=True)),
    ev.TookBack(50_000, 3),
    ev.BroughtBack(50_000, 4),
    ev.Moved(50_000, 3, "bram"),
    ev.Settled(50_000, 1, 1),
)
EXAMPLES: dict[type, ev.Event] = {type(event): event for event in _EXAMPLES}
ONLY_NOTED = {ev.EmergencyNoted, ev.Noted}
"""They change nothing: they are lines for the journal."""
NOT_SAID = {
    ev.ClassOpened,
    ev.EffortSkipped,
    ev.PersonAdded,
    ev.PersonChanged,
    ev.FlagAcknowledged,
    ev.SegmentAdded,
    ev.EndMoved,
    ev.EmergencyNoted,
    ev.Noted,
    ev.ClassClosed,
    ev.SegmentChosen,
    ev.SegmentStarted,
}


@pytest.mark.parametrize("kind", get_args(ev.Event), ids=lambda kind: kind.__name__)
def test_every_event_changes_the_record_and_is_said_unless_it_is_known_not_to_be(
    depot: Plan, kind: type[Any]
) -> None:
    before = ClassRecord(depot)
    for number, event in enumerate(STARTED):
        before = before.apply(number, event)
    if kind is not ev.Held:
        before = before.apply(len(STARTED), ev.Held(40_000))
    after = before.apply(len(STARTED) + 1, EXAMPLES[kind])
    assert (after == before) == (kind in ONLY_NOTED)
    assert (said(EXAMPLES[kind], after) == "") == (kind in NOT_SAID)


@pytest.mark.parametrize("kind", get_args(ev.SheetEvent), ids=lambda kind: kind.__name__)
def test_an_event_of_a_segment_that_isnt_on_changes_nothing(depot: Plan, kind: type[Any]) -> None:
    board = ClassRecord(depot)
    assert board.apply(0, EXAMPLES[kind]) == board
