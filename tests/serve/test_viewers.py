"""What each viewer has yet to be sent."""

from hypothesis import given
from hypothesis import strategies as st
from msgspec.json import decode

from classclock.serve.shown_class import RoomParts
from classclock.serve.viewers import MOST_VIEWERS, Viewers

NAMES = ("screen", "clock", "wall", "lane 0")
CHANGES = st.lists(
    st.tuples(st.dictionaries(st.sampled_from(NAMES), st.integers(0, 3)), st.booleans()),
    max_size=20,
)


def whole(parts: dict[str, int]) -> RoomParts:
    return {name: parts.get(name) for name in NAMES}


@given(CHANGES)
def test_whoever_reads_now_and_then_knows_all_as_it_is_now(
    changes: list[tuple[dict[str, int], bool]],
) -> None:
    viewers = Viewers()
    viewers.show(whole({}))
    viewer = viewers.join()
    assert viewer is not None
    known: RoomParts = {}
    for parts, reads in changes:
        viewers.show(whole(parts))
        if reads:
            known |= decode(viewer.taken() or b"{}")
    known |= decode(viewer.taken() or b"{}")
    assert known == whole(changes[-1][0] if changes else {})
    assert viewer.taken() == b"", "nothing is sent twice"


@given(CHANGES)
def test_however_long_nobody_reads_no_more_waits_than_there_is(
    changes: list[tuple[dict[str, int], bool]],
) -> None:
    viewers = Viewers()
    viewer = viewers.join()
    assert viewer is not None
    for parts, _ in changes:
        viewers.show(whole(parts))
    assert len(decode(viewer.taken() or b"{}")) <= len(NAMES)


def test_what_stays_as_it_is_isnt_sent_again() -> None:
    viewers = Viewers()
    viewers.show({"screen": "board", "lanes": 2})
    viewer = viewers.join()
    assert viewer is not None
    assert decode(viewer.taken()) == {"screen": "board", "lanes": 2}
    viewers.show({"screen": "board", "lanes": 3})
    assert decode(viewer.taken()) == {"lanes": 3}


def test_there_are_no_more_than_there_may_be() -> None:
    viewers = Viewers()
    joined = [viewers.join() for _ in range(MOST_VIEWERS)]
    assert None not in joined
    assert viewers.join() is None
    first = joined[0]
    assert first is not None
    viewers.leave(first)
    assert viewers.join() is not None


def test_once_the_address_holds_no_longer_all_are_told() -> None:
    viewers = Viewers()
    viewer = viewers.join()
    assert viewer is not None
    viewers.end_all()
    assert viewer.over
    assert len(viewers) == 0
