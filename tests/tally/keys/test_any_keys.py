"""Whatever is typed, in whatever phase: it means something, or it is said why not."""

from typing import get_args

from hypothesis import given
from hypothesis import strategies as st

from classclock.plan.formats.counting import CountsBy
from classclock.tally.keys.lone_keys import KeyPhase
from tests.tally.keys.conftest import play

SIGNS = "nbx0123789.,:+*/->"


@given(
    typed=st.text(SIGNS, min_size=1, max_size=12),
    phase=st.sampled_from(get_args(KeyPhase)),
    counts_by=st.sampled_from(get_args(CountsBy)),
    options=st.sampled_from([0, 3, 12]),
)
def test_any_keys_have_an_answer(
    typed: str, phase: KeyPhase, counts_by: CountsBy, options: int
) -> None:
    for pressed in play(typed, phase=phase, counts_by=counts_by, options=options):
        pending = pressed.state.pending
        assert pressed.command is None or pending == "", "what was meant is no longer pending"
