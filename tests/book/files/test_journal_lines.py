"""How far a journal is written, and on disk."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.book.files.journal_lines import JournalLines
from classclock.tally import events as ev

TAP = ev.Tapped(1_000, "ilse")


@pytest.fixture
def lines() -> JournalLines:
    lines = JournalLines()
    lines.add(b"anchor\n")
    for line in (b"opened\n", b"tap\n", b"another tap\n"):
        lines.add(line, TAP)
    return lines


def test_an_event_is_there_once_the_last_byte_of_its_line_is(lines: JournalLines) -> None:
    ends = {7: 0, 13: 0, 14: 1, 17: 1, 18: 2, 29: 2, 30: 3}
    for length, events in ends.items():
        lines.written = lines.synced = length
        assert (lines.events_written, lines.events_synced) == (events, events)


def test_whole_is_where_the_last_whole_line_ends(lines: JournalLines) -> None:
    for written, whole in ((0, 0), (6, 0), (7, 7), (13, 7), (14, 14), (29, 18), (30, 30)):
        lines.written = written
        assert lines.whole == whole
    assert lines.line_after(14) == b"tap\n"


def test_what_was_read_from_a_file_is_in_it_until_the_file_is_gone() -> None:
    lines = JournalLines(b"anchor\nopened\n", (TAP,))
    assert (lines.all_synced, lines.events_synced) == (True, 1)
    lines.add(b"anchor\n")
    lines.add(b"tap\n", TAP)
    assert (lines.all_written, lines.events_synced) == (False, 1)
    lines.written = lines.synced = len(lines.data)
    assert (lines.all_synced, lines.events_synced) == (True, 2)
    lines.lost()
    assert (lines.events_written, lines.events_synced, lines.whole) == (0, 0, 0)
    lines.synced = 13
    assert lines.events_synced == 0
    lines.synced = 14
    assert lines.events_synced == 1


@given(st.lists(st.tuples(st.binary(max_size=9), st.booleans())), st.integers(0, 300))
def test_as_many_events_are_there_as_lines_that_tell_one(
    told: list[tuple[bytes, bool]], length: int
) -> None:
    lines, by_hand, end = JournalLines(), 0, 0
    for text, tells in told:
        line = text.replace(b"\n", b"") + b"\n"
        lines.add(line, TAP if tells else None)
        end += len(line)
        by_hand += tells and end <= length
    lines.synced = length
    assert lines.events_synced == by_hand
