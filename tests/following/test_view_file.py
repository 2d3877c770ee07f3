"""What a class tells those that follow it."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.following.view_file import (
    VERSION,
    LaterViewError,
    ToldView,
    ViewFile,
    read_view,
    view_path,
)
from classclock.wall.seen.page_turning import PageOn, PageTurns
from classclock.wall.seen.room_values import RoomView

COUNTS = st.integers(-(2**40), 2**40)
PAGES = st.builds(PageOn, COUNTS, st.booleans())
VIEWS = st.builds(
    RoomView,
    segment=COUNTS,
    lesson=COUNTS,
    selected=st.text(max_size=3),
    turns=st.builds(PageTurns, PAGES, COUNTS, st.booleans()),
    saved=st.lists(st.text(max_size=20), max_size=2).map(tuple),
    readings=COUNTS,
    card=st.booleans(),
    sharing=st.booleans(),
)


@given(room=VIEWS, journal=st.text(max_size=30))
def test_what_is_told_is_heard(
    room: RoomView, journal: str, tmp_path_factory: pytest.TempPathFactory
) -> None:
    path = tmp_path_factory.mktemp("told") / "class.jsonl"
    told = ToldView(journal, room)
    assert ViewFile(path).write(told)
    assert read_view(view_path(path)) == told


def test_it_is_for_this_account_alone_and_leaves_nothing_beside_it(tmp_path: Path) -> None:
    ViewFile(tmp_path / "class.jsonl").write(ToldView("here"))
    (file,) = tmp_path.iterdir()
    assert file.stat().st_mode & 0o777 == 0o600


def test_once_the_class_is_left_nothing_is_told_any_more(tmp_path: Path) -> None:
    file = ViewFile(tmp_path / "class.jsonl")
    file.write(ToldView("here"))
    file.take_away()
    file.write(ToldView("there"))
    assert list(tmp_path.iterdir()) == []


def test_where_it_can_t_be_written_that_is_all(tmp_path: Path) -> None:
    file = ViewFile(tmp_path / "gone" / "class.jsonl")
    assert not file.write(ToldView("here"))
    file.take_away()
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    "written", [b"", b"{", b"[]", b'{"version": 1}', b'{"journal": 5}', b"\xff"]
)
def test_what_makes_no_sense_tells_nothing(tmp_path: Path, written: bytes) -> None:
    path = tmp_path / "class.view"
    path.write_bytes(written)
    assert read_view(path) is None
    assert read_view(tmp_path / "none.view") is None


def test_a_later_version_s_is_refused_in_words_whatever_is_in_it(tmp_path: Path) -> None:
    path = tmp_path / "class.view"
    path.write_text(f'{{"version": {VERSION + 1}, "mood": "loud"}}', "utf-8")
    with pytest.raises(LaterViewError, match="later classclock: update this one"):
        read_view(path)


def test_more_than_is_known_in_one_of_this_version_is_no_reason_to_refuse_it(
    tmp_path: Path,
) -> None:
    path = tmp_path / "class.view"
    path.write_text('{"version": 1, "journal": "here", "more": 1}', "utf-8")
    assert read_view(path) == ToldView("here")
