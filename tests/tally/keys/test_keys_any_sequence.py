"""Whatever is typed, however fast, in whatever phase."""

from typing import get_args

from hypothesis import example, given
from hypothesis import strategies as st

from classclock.plan.formats.counting import CountsBy
from classclock.tally.commands import BringBack, CountCommand, Select, TakeBack
from classclock.tally.keys.forms import LONGEST
from classclock.tally.keys.guard import GUARD_MS, HELD_MS, ONE_READ_MS
from classclock.tally.keys.key_language import press
from classclock.tally.keys.key_state import KeyContext, KeyState, Pressed, lapse
from classclock.tally.keys.lone_keys import KeyPhase
from classclock.tally.keys.strokes import SIGNS, Stroke

KEYS = {"n": "p-noor", "i": "p-ilse", "b": "p-bram"}
MOST_PENDING = LONGEST + 1

contexts = st.builds(
    KeyContext,
    keys=st.sampled_from([KEYS, {}, {"n": "p-noor"}]),
    phase=st.sampled_from(get_args(KeyPhase)),
    counts_by=st.sampled_from(get_args(CountsBy)),
    can_change_time=st.booleans(),
    all_in=st.booleans(),
)
known = st.sampled_from(sorted(SIGNS))
signs = known | st.sampled_from("nibNIB0123456789+:*/->.,") | st.characters() | st.text(max_size=4)
waits = st.integers(0, 300) | st.integers(0, 5_000)


def sequences(
    keys: st.SearchStrategy[str],
) -> st.SearchStrategy[list[tuple[str, int, KeyContext]]]:
    return st.lists(st.tuples(keys, waits, contexts), max_size=40)


def play(sequence: list[tuple[str, int, KeyContext]]) -> list[Pressed]:
    state, real, came = KeyState(), 0, []
    for sign, wait, context in sequence:
        real += wait
        came.append(press(state, Stroke(sign, real, real), context))
        state = came[-1].state
    return came


@given(sequences(signs))
def test_no_sequence_raises_or_piles_up(sequence: list[tuple[str, int, KeyContext]]) -> None:
    for pressed in play(sequence):
        assert len(pressed.state.pending) <= MOST_PENDING
        assert set(pressed.state.struck) <= SIGNS
        assert pressed.notice != ""


@given(sequences(signs), contexts)
def test_escape_always_empties(
    sequence: list[tuple[str, int, KeyContext]], context: KeyContext
) -> None:
    assert play([*sequence, ("<escape>", 0, context)])[-1].state.pending == ""


@given(sequences(signs))
def test_waiting_always_empties(sequence: list[tuple[str, int, KeyContext]]) -> None:
    for pressed in play(sequence)[-1:]:
        late = pressed.state.lapses_at
        assert lapse(pressed.state, late or 0)[0].pending == ""


@given(sequences(signs.filter(lambda sign: sign.lower() not in KEYS)))
def test_without_a_lanes_letter_only_backspace_changes_the_count(
    sequence: list[tuple[str, int, KeyContext]],
) -> None:
    for (sign, _, _), pressed in zip(sequence, play(sequence), strict=True):
        assert not isinstance(pressed.command, Select)
        if isinstance(pressed.command, CountCommand):
            assert sign == "<backspace>"
            assert pressed.command in (TakeBack(), BringBack())


@given(sequences(signs))
def test_a_stroke_that_means_something_leaves_nothing_half_typed_unless_it_is_a_key_of_its_own(
    sequence: list[tuple[str, int, KeyContext]],
) -> None:
    for pressed in play(sequence):
        if isinstance(pressed.command, CountCommand):
            assert pressed.state.pending == ""


@given(st.lists(st.integers(0, 2_000), max_size=30), st.sampled_from("nib"))
@example([0, 660, *[40] * 28], "n")
def test_bare_taps_of_one_key_count_when_the_one_before_is_long_enough_ago(
    gaps: list[int], key: str
) -> None:
    context = KeyContext(KEYS, "running", "rounds")
    came = play([(key, gap, context) for gap in gaps])
    counted = [pressed.command is not None for pressed in came]
    assert counted == [number == 0 or gap > GUARD_MS for number, gap in enumerate(gaps)]


ROWS = ("12b", "7+12n", "2n", "11i", "3:12i", ":n1", ":b2", "*n", "-b", ".i", "n", "b")
within = st.just(0) | st.integers(HELD_MS + 1, 400)
"""Between two signs of a row: only a keyboard strikes one key twice in less, but for a file."""
between = st.integers(0, ONE_READ_MS - 1) | st.integers(HELD_MS + 1, 2_500)
"""Between two rows, for the same reason: a key that bounces begins no row."""


@given(st.lists(st.tuples(st.sampled_from(ROWS), between, within), max_size=12))
@example([(":n1", 0, 0), ("12b", 900, 0)])
@example([(":n1", 0, 0), ("11i", 900, 0)])
def test_whatever_comes_before_a_row_counts_whole_or_not_at_all(
    rows: list[tuple[str, int, int]],
) -> None:
    context = KeyContext(KEYS, "running", "rounds")
    state, real = KeyState(), 0
    for row, wait, gap in rows:
        real += wait
        came: list[Pressed] = []
        for sign in row:
            pressed = press(state, Stroke(sign, real, real), context)
            state, came = pressed.state, [*came, pressed]
            real += gap
        alone = play([(sign, gap, context) for sign in row])
        meant = [pressed.command for pressed in alone if pressed.command is not None]
        counted = [pressed.command for pressed in came if pressed.command is not None]
        assert counted in ([], meant)
        assert counted == meant or came[-1].notice
        assert state.pending == ""
