"""What the app and the player say to each other."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.sound import messages
from classclock.sound.messages import KINDS, SoundOrder, SoundStatus

names = st.text(max_size=40)
moments = st.integers(min_value=0, max_value=2**63 - 1)
orders: st.SearchStrategy[SoundOrder] = st.one_of(
    st.builds(messages.Schedule, names, st.sampled_from(KINDS), moments),
    st.builds(messages.Volume, st.integers(0, 100)),
    st.builds(messages.Mute, st.booleans()),
    st.sampled_from([messages.Cancel(), messages.Ask(), messages.Quit()]),
)
statuses: st.SearchStrategy[SoundStatus] = st.one_of(
    st.builds(messages.Ready, names),
    st.builds(messages.SoundNotice, names, st.booleans()),
    st.builds(messages.Skipped, names),
    st.just(messages.Alive()),
)


@given(orders)
def test_an_order_arrives_as_it_was_given(order: SoundOrder) -> None:
    assert messages.read_order(messages.line(order)) == order


@given(statuses)
def test_a_status_arrives_as_it_was_said(status: SoundStatus) -> None:
    assert messages.read_status(messages.line(status)) == status


@given(orders)
def test_an_order_is_one_line_that_a_pipe_takes_whole(order: SoundOrder) -> None:
    text = messages.line(order)
    assert text.count(b"\n") == 1
    assert len(text) <= 512  # PIPE_BUF is at least 512: POSIX, limits.h


@pytest.mark.parametrize(
    "text",
    [
        b"",
        b"{",
        b"[]",
        b'{"message": "dance"}',
        b'{"message": "schedule", "id": "1", "sound": "gong", "due": 5}',
        b'{"message": "schedule", "id": "1", "sound": ["go"], "due": 5}',
        b'{"message": "schedule", "id": "1", "sound": "go", "due": 5.5}',
        b'{"message": "volume", "level": 101}',
        b"\xff",
    ],
)
def test_a_line_that_is_no_order_is_refused(text: bytes) -> None:
    with pytest.raises(ValueError):  # noqa: PT011 - json's own words, or ours
        messages.read_order(text)
