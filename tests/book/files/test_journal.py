import contextlib
import json
import os
import tempfile
from collections.abc import Callable
from datetime import datetime, timedelta
from decimal import Decimal
from pathlib import Path
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.book.files.event_lines import NAMED, event_line, event_of
from classclock.book.files.held_file import JournalInUseError, held_again
from classclock.book.files.journal import (
    Anchor,
    Journal,
    JournalTooNewError,
    JournalUnreadableError,
    Lost,
    MovedTo,
    journal_of,
    read_journal,
)
from classclock.book.files.journal_writer import JournalWriter
from classclock.tally import events as ev
from classclock.tally.lanes import Lane, Person
from classclock.units.loads import Load

WALL = "2026-11-24T18:30:00.000+01:00"
ANCHOR = Anchor(boot="b1", raw=5_000_000_000, at=0, wall=WALL)
ILSE = Person("ilse", "Ilse", "i", marks=("newcomer",))
OPENED = ev.ClassOpened(0, "turntable", 'title = "x"', "kg", (ILSE,), None)
EXAMPLES: tuple[ev.Event, ...] = (
    OPENED,
    ev.SegmentStarted(10, 2, 1, 10_010, (Lane("ilse", "Ilse", "i", ("ilse",), (0, 2)),)),
    ev.Tapped(20_000, "ilse"),
    ev.Numbered(21_000, "ilse", rounds=7, reps=12),
    ev.Lifted(22_000, "ilse", Load(Decimal("82.5"), "kg"), made=False),
    ev.TookBack(23_000, 3),
    ev.SegmentEnded(24_000),
)


@pytest.fixture
def writer_at() -> Callable[[Path], JournalWriter]:
    def make(path: Path) -> JournalWriter:
        return JournalWriter(path, wall=lambda: WALL)

    return make


def written(path: Path, events: tuple[ev.Event, ...] = EXAMPLES) -> None:
    writer = JournalWriter(path, wall=lambda: WALL)
    writer.open_new(ANCHOR)
    for event in events:
        writer.append(event)
    writer.close()


def test_what_was_written_is_read_back_in_order(tmp_path: Path) -> None:
    path = tmp_path / "journals" / "class.jsonl"
    written(path)
    journal = read_journal(path)
    assert journal.events == EXAMPLES
    assert journal.anchors == (ANCHOR,)
    assert not journal.torn


def test_journal_and_folder_are_private_to_the_account(tmp_path: Path) -> None:
    path = tmp_path / "journals" / "class.jsonl"
    written(path)
    assert path.stat().st_mode & 0o777 == 0o600
    assert path.parent.stat().st_mode & 0o777 == 0o700


def test_a_journal_cut_at_any_byte_gives_every_whole_line(tmp_path: Path) -> None:
    path = tmp_path / "class.jsonl"
    written(path)
    data = path.read_bytes()
    for cut in range(data.index(b"\n", data.index(b"ClassOpened")) + 1, len(data) + 1):
        path.write_bytes(data[:cut])
        journal = read_journal(path)
        whole = data[:cut].count(b"\n") - 1
        assert journal.events == EXAMPLES[:whole]
        assert journal.torn == (not data[:cut].endswith(b"\n"))


@given(parts=st.lists(st.floats(0, 1), max_size=8).map(sorted))
def test_read_in_parts_it_tells_the_same(
    parts: list[float], tmp_path_factory: pytest.TempPathFactory
) -> None:
    path = tmp_path_factory.mktemp("parts") / "class.jsonl"
    written(path)
    lost, again = Lost(2, ("ilse",), WALL, WALL), Anchor("b1", 9_000_000_000, 4_000, WALL)
    moved = MovedTo("elsewhere", WALL)
    with path.open("ab") as more:
        more.write(lost.line() + again.line() + moved.line() + b'{"n":')
    whole = path.read_bytes()
    opened = whole.find(b"\n", whole.find(b"\n") + 1) + 1
    journal = None
    for part in (*parts, 1.0):
        cut = opened + round(part * (len(whole) - opened))
        journal = journal_of(path, whole[:cut], journal)
    assert journal == read_journal(path)


def test_rejoining_drops_a_torn_line_and_goes_on_behind_the_last_whole_one(
    tmp_path: Path, writer_at: Callable[[Path], JournalWriter]
) -> None:
    path = tmp_path / "class.jsonl"
    written(path)
    with path.open("ab") as file:
        file.write(b'{"n":7,"event":"Tap')
    journal = read_journal(path)
    writer = writer_at(path)
    writer.go_on(held_again(path), journal, ANCHOR)
    assert writer.append(ev.Tapped(30_000, "ilse")) == 7
    writer.close()
    assert read_journal(path).events == (*EXAMPLES, ev.Tapped(30_000, "ilse"))


def test_a_damaged_line_within_the_journal_is_named_with_its_number(tmp_path: Path) -> None:
    path = tmp_path / "class.jsonl"
    written(path)
    lines = path.read_bytes().splitlines(keepends=True)
    path.write_bytes(b"".join([*lines[:3], b"{oops}\n", *lines[4:]]))
    with pytest.raises(JournalUnreadableError) as damaged:
        read_journal(path)
    assert damaged.value.line == 4


def test_two_instances_cannot_run_one_journal(
    tmp_path: Path, writer_at: Callable[[Path], JournalWriter]
) -> None:
    path = tmp_path / "class.jsonl"
    first = writer_at(path)
    first.open_new(ANCHOR)
    first.append(OPENED)
    with pytest.raises(JournalInUseError):
        held_again(path)
    with pytest.raises(FileExistsError):
        writer_at(path).open_new(ANCHOR)
    first.close()
    held = held_again(path)
    assert held is not None
    held.close()


def test_a_disk_that_refuses_stops_nothing_and_everything_is_written_when_it_can_be(
    tmp_path: Path,
    writer_at: Callable[[Path], JournalWriter],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    path = tmp_path / "class.jsonl"
    writer = writer_at(path)
    writer.open_new(ANCHOR)
    writer.append(EXAMPLES[0])
    real_write = os.write

    def nearly_full(file: int, data: bytes) -> int:
        if len(data) <= 10:
            raise OSError(28, "No space left on device")
        return real_write(file, data[:10])

    with monkeypatch.context() as patched:
        patched.setattr(os, "write", nearly_full)
        for event in EXAMPLES[1:]:
            writer.append(event)
        assert writer.fault == "the disk is full"
        assert writer.on_disk < writer.number == len(EXAMPLES)
    writer.try_again()
    writer.settle(5)
    assert (writer.fault, writer.on_disk) == ("", len(EXAMPLES))
    writer.close()
    assert read_journal(path).events == EXAMPLES


def test_a_class_without_a_folder_can_be_moved_to_another_place(
    tmp_path: Path, writer_at: Callable[[Path], JournalWriter]
) -> None:
    blocked = tmp_path / "a file, no folder"
    blocked.write_text("")
    writer = writer_at(blocked / "class.jsonl")
    writer.open_new(ANCHOR)
    for event in EXAMPLES:
        writer.append(event)
    assert writer.fault
    assert writer.on_disk == 0
    writer.move_to(tmp_path / "elsewhere" / "class.jsonl")
    assert (writer.fault, writer.on_disk) == ("", len(EXAMPLES))
    writer.close()
    assert read_journal(tmp_path / "elsewhere" / "class.jsonl").events == EXAMPLES


def test_in_the_same_boot_the_raw_clock_is_right_whatever_the_time_of_day_says(
    tmp_path: Path,
) -> None:
    path = tmp_path / "class.jsonl"
    written(path)
    journal = read_journal(path)
    an_hour_off = datetime.fromisoformat(WALL) - timedelta(hours=1)
    at, check = journal.moment(boot="b1", raw=5_000_000_000 + 65_432_000_000, wall=an_hour_off)
    assert (at, check) == (65_432, False)


def test_after_a_reboot_the_time_of_day_is_used_and_the_clock_is_to_be_checked(
    tmp_path: Path,
) -> None:
    path = tmp_path / "class.jsonl"
    written(path)
    later = datetime.fromisoformat(WALL) + timedelta(seconds=90)
    at, check = read_journal(path).moment(boot="b2", raw=1, wall=later)
    assert (at, check) == (24_000 + 90_000, True)


def test_a_raw_clock_that_reads_less_than_it_did_is_another_boots_after_all(
    tmp_path: Path,
) -> None:
    path = tmp_path / "class.jsonl"
    written(path)
    later = datetime.fromisoformat(WALL) + timedelta(seconds=90)
    journal = read_journal(path)
    assert journal.moment(boot="b1", raw=ANCHOR.raw, wall=later) == (24_000, False)
    assert journal.moment(boot="b1", raw=ANCHOR.raw - 1, wall=later) == (114_000, True)


def test_a_time_of_day_before_the_last_line_takes_nothing_off(tmp_path: Path) -> None:
    path = tmp_path / "class.jsonl"
    written(path)
    earlier = datetime.fromisoformat(WALL) - timedelta(hours=1)
    assert read_journal(path).moment(boot="b2", raw=1, wall=earlier) == (24_000, True)


def test_a_moment_is_to_the_nearest_millisecond() -> None:
    assert ANCHOR.at_raw(ANCHOR.raw + 1_499_999) == 1
    assert ANCHOR.at_raw(ANCHOR.raw + 1_500_000) == 2


def test_a_sped_up_class_is_rejoined_at_its_own_speed(tmp_path: Path) -> None:
    anchor = Anchor(boot="b1", raw=0, at=0, wall=WALL, rate=20)
    assert anchor.at_raw(3_000_000_000) == 60_000


@pytest.mark.parametrize("event", EXAMPLES, ids=lambda event: type(event).__name__)
def test_every_kind_of_event_survives_its_line(event: ev.Event) -> None:
    line = json.loads(event_line(event, 3, WALL))
    assert line["n"] == 3
    assert event_of(line) == event


def test_no_kind_of_event_is_left_out_of_the_journal() -> None:
    assert set(NAMED.values()) == set(get_args(ev.Event))
    assert all(name == kind.__name__ for name, kind in NAMED.items())


@pytest.mark.parametrize(
    "line",
    [
        b'{"n":9,"event":"Tapped","wall":"2026-11-24T18:30:00+01:00","at":1,"lane":"ilse"}',
        b'{"n":7,"event":"Tapped","wall":"2026-11-24T18:30:00+01:00","at":1}',
        b'{"n":7,"event":"Tapped","wall":"yesterday","at":1,"lane":"ilse"}',
        b'{"n":7,"wall":"2026-11-24T18:30:00+01:00","at":1}',
        b'{"anchor":{"boot":"b1"}}',
        b'{"anchor":7}',
        b"7",
    ],
)
def test_a_last_line_that_is_whole_and_makes_no_sense_was_not_torn_and_is_said(
    tmp_path: Path, line: bytes
) -> None:
    """It isn't left out: going on would write over what somebody meant."""
    path = tmp_path / "class.jsonl"
    written(path)
    with path.open("ab") as file:
        file.write(line + b"\n")
    with pytest.raises(JournalUnreadableError) as damaged:
        read_journal(path)
    assert damaged.value.line == len(EXAMPLES) + 2


def test_a_last_line_that_lost_its_middle_is_torn(tmp_path: Path) -> None:
    path = tmp_path / "class.jsonl"
    written(path)
    data = path.read_bytes()
    end = len(data) - 20
    path.write_bytes(data[:end] + b"\0" * 10 + data[end + 10 :])
    journal = read_journal(path)
    assert (journal.torn, journal.events) == (True, EXAMPLES[:-1])
    assert journal.whole == len(data) - len(data.splitlines(keepends=True)[-1])


@pytest.mark.parametrize(
    ("lines", "line", "why"),
    [
        ((), 1, "no class was opened in it"),
        ((ANCHOR.line(),), 1, "no class was opened in it"),
        ((event_line(OPENED, 0, WALL),), 1, "no class was opened in it"),
        ((ANCHOR.line(), event_line(EXAMPLES[2], 0, WALL)), 2, "the class's opening is missing"),
    ],
)
def test_without_its_opening_it_is_no_class(
    tmp_path: Path, lines: tuple[bytes, ...], line: int, why: str
) -> None:
    path = tmp_path / "class.jsonl"
    path.write_bytes(b"".join(lines))
    with pytest.raises(JournalUnreadableError) as damaged:
        read_journal(path)
    assert (damaged.value.line, damaged.value.why) == (line, why)
    assert str(damaged.value) == f"{path}:{line}: {why}"


def test_a_file_that_is_too_large_is_not_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "class.jsonl"
    written(path)
    monkeypatch.setattr("classclock.book.files.journal.MAX_BYTES", path.stat().st_size)
    assert read_journal(path).events == EXAMPLES
    monkeypatch.setattr("classclock.book.files.journal.MAX_BYTES", path.stat().st_size - 1)
    with pytest.raises(JournalUnreadableError, match=r":1: this file is too large for a journal"):
        read_journal(path)


@pytest.mark.parametrize(
    ("events", "left_open"),
    [
        ((), True),
        ((ev.ClassClosed(30_000),), False),
        ((ev.ClassClosed(30_000), ev.SegmentChosen(31_000, 0)), True),
        ((ev.ClassClosed(30_000), ev.EmergencyNoted(31_000, "ice")), False),
        ((ev.SegmentChosen(29_000, 1), ev.ClassClosed(30_000)), False),
    ],
)
def test_a_class_is_unfinished_until_it_is_closed_and_again_when_the_coach_goes_back(
    tmp_path: Path,
    events: tuple[ev.Event, ...],
    left_open: bool,  # noqa: FBT001  a case of the test
) -> None:
    path = tmp_path / "class.jsonl"
    written(path, (*EXAMPLES, *events))
    assert read_journal(path).unfinished == left_open
    later = {"n": len(EXAMPLES) + len(events), "event": "Sneezed", "wall": WALL, "at": 40_000}
    with path.open("ab") as file:
        file.write(json.dumps(later).encode() + b"\n")
    with pytest.raises(JournalTooNewError) as too_new:
        read_journal(path)
    assert too_new.value.unfinished == left_open


@given(st.binary(max_size=400))
def test_no_bytes_behind_a_good_start_end_in_a_traceback(tail: bytes) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "class.jsonl"
        path.write_bytes(ANCHOR.line() + event_line(OPENED, 0, WALL) + tail)
        with contextlib.suppress(JournalUnreadableError):
            assert read_journal(path).events[0] == OPENED


def test_a_moment_is_told_as_the_time_of_day_by_the_anchor_before_it() -> None:
    later = Anchor("b2", 7, 60_000, "2026-11-24T18:45:00.000+01:00", rate=20)
    journal = Journal(
        Path("class.jsonl"), (ANCHOR, later), (OPENED,), 0, torn=False, last_wall=WALL
    )
    told = {at: journal.time_of_day(at).isoformat() for at in (0, 59_500, 60_000, 70_000)}
    assert told == {
        0: "2026-11-24T18:30:00+01:00",
        59_500: "2026-11-24T18:30:59.500000+01:00",
        60_000: "2026-11-24T18:45:00+01:00",
        70_000: "2026-11-24T18:45:00.500000+01:00",
    }
