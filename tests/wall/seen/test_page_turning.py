"""Pages that turn by themselves, until a key has come."""

from hypothesis import given
from hypothesis import strategies as st

from classclock.wall.seen.page_turning import PageOn, PageTurns

MOMENTS = st.integers(0, 10**9)


@given(MOMENTS, MOMENTS)
def test_a_page_stands_for_eight_seconds(since: int, later: int) -> None:
    on = PageTurns(since=since).on(since + later)
    assert (on.number, on.by_hand) == (later // 8_000, False)


@given(MOMENTS, MOMENTS, MOMENTS, st.integers(-3, 3), st.integers(0, 9))
def test_once_a_key_has_turned_them_they_never_turn_by_themselves(
    since: int, struck: int, later: int, by: int, shown: int
) -> None:
    # WCAG 2.2, 2.2.2 Pause, Stop, Hide: of what updates by itself there is a way to stop it.
    stopped = PageTurns(since=since).turned(by, shown)
    assert stopped.on(since + struck + later) == PageOn(shown + by, by_hand=True)
    assert stopped.anew(since + struck).on(since + struck + later) == PageOn()


@given(MOMENTS, MOMENTS, MOMENTS)
def test_what_begins_anew_and_no_key_has_stopped_turns_on(
    since: int, passed: int, later: int
) -> None:
    anew = PageTurns(since=since).anew(since + passed)
    assert anew.on(since + passed + later) == PageOn(later // 8_000)


@given(st.integers(-50, 50), st.integers(1, 12))
def test_after_the_last_comes_the_first_and_before_the_first_the_last(at: int, count: int) -> None:
    assert PageOn(at).of(count) in range(count)
    assert PageOn(at + 1).of(count) == (PageOn(at).of(count) + 1) % count


@given(st.integers(-40, 40), st.integers(1, 12), st.integers(1, 12))
def test_one_that_stays_is_as_far_on_where_there_are_more_or_fewer(
    at: int, among: int, count: int
) -> None:
    shown = PageOn(at, by_hand=True, among=among).of(count)
    assert shown in range(count)
    assert PageOn(at, by_hand=True, among=among).of(among) == at % among
    assert shown / count <= (at % among) / among < (shown + 1) / count


def test_two_pages_of_each_piece_begin_with_the_piece_that_is_on() -> None:
    assert [PageOn(at, by_hand=True, among=3).of(6) for at in range(3)] == [0, 2, 4]
