"""A journal read as it grows: whatever part of it is there, the class is as it was then."""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from classclock.book.files.event_lines import NAMED
from classclock.book.files.journal import JournalTooNewError, JournalUnreadableError, read_journal
from classclock.clock.class_clock import ClassClock
from classclock.clock.source import MS, WoundSource
from classclock.following.followed_class import FollowedClass
from classclock.following.growing_journal import GrowingJournal
from classclock.live.replaying import before_it_opened
from classclock.live.session_opening import open_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.settings.club import Club
from classclock.tally.keys.strokes import NAMED_KEYS
from classclock.tally.lane_keys import people_named
from classclock.wall.board_content import board_now
from classclock.wall.seen.started_content import StartedContent
from tests.following.conftest import PLAN, plan_of

WALL = datetime.fromisoformat("2026-11-24T18:30:00+01:00")
STEPS = st.one_of(
    st.sampled_from(["i", "b", "n", "-b", "7i", "4+n", "<backspace>", "<space>", "==", "/i"]),
    st.sampled_from(["<enter>", "<enter>", "<down>", "<up>", ":i2", ".b", ">ib", "0<enter>"]),
    st.integers(1, 90),
)
"""Keys that are typed, and seconds that go by."""


def content(seen: Any) -> object:
    """All that the room sees of a class as it stands."""
    record = seen.live.record
    if record.sheet is None and not record.closed:
        return board_now(seen)
    started = StartedContent(seen)
    match started.screen:
        case "wall":
            return started.wall()
        case "settle":
            return started.settle()
        case "summary":
            return started.summary()


class Class:
    """A class that is typed at, and what the room saw of it whenever so many bytes were written."""

    def __init__(self, folder: Path) -> None:
        self.source = WoundSource(start=5_000 * MS, wall=WALL)
        self.session = open_session(
            PlanFile("turntable", PLAN, plan_of(PLAN)),
            people_named(("Ilse", "Bram", "Noor")),
            folder=folder,
            club=Club(),
            source=self.source,
            sound=False,
        )
        self.seen: list[tuple[int, int, object]] = []
        self.look()

    def look(self) -> None:
        size = self.session.journal.path.stat().st_size
        self.seen.append((size, self.source.now(), content(self.session)))

    def do(self, step: str | int) -> None:
        if isinstance(step, int):
            self.source.jump(step * 1000 * MS)
        while isinstance(step, str) and step:
            named = next((name for name in NAMED_KEYS if step.startswith(name)), step[0])
            step = step[len(named) :]
            self.source.jump(800 * MS)  # beyond the guard of a key that repeats by itself
            self.session.key(named, 0.0)
        self.look()


def followed(growing: GrowingJournal, folder: Path, at: int) -> FollowedClass:
    """The class as somebody who follows it sees it at this reading."""
    assert growing.journal is not None
    assert growing.record is not None
    then = WoundSource(start=at, wall=WALL)
    then.set_wall(datetime.fromtimestamp(WALL.timestamp() + (at / MS - 5_000) / 1000, WALL.tzinfo))
    return FollowedClass(
        growing,
        growing.journal,
        growing.record,
        folder=folder,
        club=Club(),
        clock_of=lambda _: ClassClock(then, 5_000 * MS),
    )


@settings(
    max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(steps=st.lists(STEPS, min_size=5, max_size=30))
def test_the_room_sees_what_the_class_shows_however_much_of_it_is_read(
    steps: list[str | int], tmp_path_factory: pytest.TempPathFactory
) -> None:
    folder = tmp_path_factory.mktemp("club")
    one = Class(folder)
    try:
        for step in ("<down>", "<enter>", 12, *steps):
            one.do(step)
    finally:
        one.session.close()
    path = one.session.journal.path
    data = path.read_bytes()
    growing = GrowingJournal(path)
    for size, at, shown in one.seen:
        growing.take(data[:size])
        assert content(followed(growing, folder, at)) == shown


@settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(cuts=st.lists(st.floats(0, 1), min_size=1, max_size=12))
def test_every_part_of_its_bytes_folds_to_the_whole_lines_in_it(
    cuts: list[float], whole_class: tuple[Path, bytes]
) -> None:
    path, data = whole_class
    journal = read_journal(path)
    growing = GrowingJournal(path)
    for part in sorted(cuts):
        read = data[: round(part * len(data))]
        growing.take(read)
        number = max(0, read.count(b"\n") - 1)  # the first line is an anchor
        assert (growing.journal is None) == (number == 0)
        if growing.journal is not None:
            record = before_it_opened(journal)
            for at, event in enumerate(journal.events[:number]):
                record = record.apply(at, event)
            assert growing.record == record


@pytest.fixture(scope="session")
def whole_class(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, bytes]:
    """A class's journal, and its bytes."""
    one = Class(tmp_path_factory.mktemp("whole"))
    for step in ("<down>", "<enter>", 12, 30, "i", "n", 20, "b", "-n", 960, "5i", "*", "<enter>"):
        one.do(step)
    one.session.close()
    path = one.session.journal.path
    return path, path.read_bytes()


Grown = Callable[[bytes], GrowingJournal]


@pytest.fixture
def grown(tmp_path: Path) -> Grown:
    """A journal of which these bytes are there."""

    def make(data: bytes) -> GrowingJournal:
        path = tmp_path / "class.jsonl"
        path.write_bytes(data)
        growing = GrowingJournal(path)
        growing.look()
        return growing

    return make


def test_a_class_that_is_only_begun_is_not_there_yet(
    whole_class: tuple[Path, bytes], grown: Grown
) -> None:
    _, data = whole_class
    growing = grown(data[: data.find(b"\n") + 1])
    assert growing.journal is None
    growing.path.write_bytes(data)
    assert growing.look()
    assert not growing.look()


def test_a_file_put_in_its_place_tells_the_rest_too(
    whole_class: tuple[Path, bytes], grown: Grown
) -> None:
    _, data = whole_class
    half = data.find(b"\n", len(data) // 2) + 1
    growing = grown(data[:half])
    beside = growing.path.with_name("beside")
    beside.write_bytes(data)
    beside.replace(growing.path)
    assert growing.look()
    assert growing.journal is not None
    assert growing.journal.whole == len(data)


def test_a_line_whose_end_came_without_its_middle_waits_for_the_next_look(
    whole_class: tuple[Path, bytes], grown: Grown
) -> None:
    _, data = whole_class
    half = data.find(b"\n", len(data) // 2) + 1
    growing = grown(data[:half] + b"\0\0\0\n")
    assert growing.journal is not None
    assert growing.journal.whole == half
    growing.path.write_bytes(data)
    growing.look()
    assert growing.journal.whole == len(data)


def test_what_a_later_version_wrote_is_refused_with_its_name(
    whole_class: tuple[Path, bytes], grown: Grown
) -> None:
    _, data = whole_class
    later = data + b'{"n":99,"event":"LightsOut","wall":"2026-11-24T18:50:00+01:00"}\n'
    with pytest.raises(JournalTooNewError, match=r"LightsOut.*later classclock"):
        grown(later)
    assert "LightsOut" not in NAMED


def test_what_is_no_journal_is_refused(grown: Grown) -> None:
    with pytest.raises(JournalUnreadableError):
        grown(b'{"anchor": 1}\n{}\n')


def test_it_goes_on_where_the_class_has_moved_to(
    whole_class: tuple[Path, bytes], grown: Grown, tmp_path: Path
) -> None:
    _, data = whole_class
    half = data.find(b"\n", len(data) // 2) + 1
    moved = b'{"moved":{"to":"elsewhere","wall":"2026-11-24T18:50:00+01:00"}}\n'
    growing = grown(data[:half] + moved)
    assert growing.journal is not None
    assert growing.journal.moved is not None
    elsewhere = tmp_path / "elsewhere.jsonl"
    elsewhere.write_bytes(data)
    growing.go_on_in(elsewhere)
    assert growing.look()
    assert growing.journal.whole == len(data)
