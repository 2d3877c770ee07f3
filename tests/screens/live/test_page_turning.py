"""Pages that turn by themselves, until a key has come."""

from hypothesis import given
from hypothesis import strategies as st

from classclock.screens.live.page_turning import PageOn, PageTurns

MOMENTS = st.integers(0, 10**9)


@given(MOMENTS, MOMENTS)
def test_a_page_stands_for_eight_seconds(since: int, later: int) -> None:
    on = PageTurns(since=since).on(since + later)
    assert (on.number, on.by_hand) == (later // 8_000, False)


@given(MOMENTS, MOMENTS, MOMENTS, st.integers(-3, 3))
def test_once_a_key_has_turned_them_they_never_turn_by_themselves(
    since: int, struck: int, later: int, by: int
) -> None:
    # WCAG 2.2, 2.2.2 Pause, Stop, Hide: of what updates by itself there is a way to stop it.
    turns = PageTurns(since=since)
    before = turns.on(since + struck).number
    stopped = turns.turned(by, since + struck)
    assert stopped.on(since + struck + later) == PageOn(before + by, by_hand=True)


@given(st.integers(-50, 50), st.integers(1, 12))
def test_after_the_last_comes_the_first_and_before_the_first_the_last(at: int, count: int) -> None:
    assert PageOn(at).of(count) in range(count)
    assert PageOn(at + 1).of(count) == (PageOn(at).of(count) + 1) % count
