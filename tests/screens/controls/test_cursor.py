"""A place in a list: whatever the keys and however the list changes, it is in it."""

from hypothesis import given
from hypothesis import strategies as st

from classclock.screens.controls.cursor import PAGE, Cursor

MOVES = ("<up>", "<down>", "<pageup>", "<pagedown>", "<home>", "<end>")
counts = st.integers(0, 60)


@given(st.lists(st.tuples(st.sampled_from(MOVES), counts)), counts)
def test_it_is_always_in_the_list_however_long_that_is_now(
    keys: list[tuple[str, int]], last: int
) -> None:
    cursor = Cursor()
    for sign, count in keys:
        assert cursor.sign(sign, count)
        assert 0 <= cursor.at <= max(0, count - 1)
    assert 0 <= cursor.within(last) <= max(0, last - 1)
    items = range(last)
    assert cursor.lit(items) == (items[cursor.within(last)] if last else None)


@given(st.integers(1, 60), st.integers(0, 59), st.integers(-70, 70))
def test_a_step_goes_as_far_as_the_list_does(count: int, at: int, by: int) -> None:
    cursor = Cursor(at % count)
    cursor.step(by, count)
    assert cursor.at == min(max(at % count + by, 0), count - 1)


@given(st.integers(1, 60), st.integers(0, 59), st.integers(-70, 70))
def test_going_round_comes_back_after_as_many_steps_as_there_are(
    count: int, at: int, by: int
) -> None:
    cursor = Cursor(at % count)
    for _ in range(count):
        cursor.round(by, count)
    assert cursor.at == at % count


def test_home_and_end_are_the_first_and_the_last_and_a_page_is_twenty() -> None:
    cursor = Cursor()
    places = []
    for sign in ("<end>", "<pageup>", "<home>", "<pagedown>", "<f7>"):
        cursor.sign(sign, 100)
        places.append(cursor.at)
    assert places == [99, 99 - PAGE, 0, PAGE, PAGE]
    assert not cursor.sign("<f7>", 100)


@given(st.lists(st.text(max_size=3), unique=True, min_size=1), st.data())
def test_it_keeps_its_item_when_the_list_is_in_another_order(
    items: list[str], data: st.DataObject
) -> None:
    cursor = Cursor(data.draw(st.integers(0, len(items) - 1)))
    stood_on = cursor.lit(items)
    assert stood_on is not None
    other = data.draw(st.permutations(items))
    cursor.follow(stood_on, other)
    assert cursor.lit(other) == stood_on
    gone = [item for item in other if item != stood_on]
    cursor.follow(stood_on, gone)
    assert cursor.at == 0


@given(st.integers(1, 60), st.integers(0, 80), st.integers(1, 40))
def test_it_is_in_view_and_no_room_is_left_empty(count: int, at: int, fitting: int) -> None:
    cursor = Cursor(at)
    first = cursor.first_in_view(fitting, count)
    assert first <= cursor.within(count) < first + fitting
    assert first >= 0
    assert first + fitting <= max(count, fitting)
