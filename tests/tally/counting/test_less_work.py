"""Less than the whole piece, as it was agreed: counted as an option is."""

from collections.abc import Callable
from typing import Any

import pytest

from classclock.tally import commands as cmd
from classclock.tally.lanes import Portion
from classclock.tally.scores.on_for import on_for

MIN = 60_000
HALF = {"Ilse": {"portion": Portion("about half", 50)}}
FOUR_ROUNDS = {"Ilse": {"portion": Portion("about half: 4 rounds", rounds=4)}}


def test_a_set_amount_is_done_when_what_was_agreed_is(
    rehearsal: Callable[..., Any], third_rail: dict[str, Any]
) -> None:
    # Half of 10 and 15 reps: 5 and 7, five rounds of 12 are 60 of the 125.
    piece = rehearsal(**third_rail, lane=HALF)
    piece.tap("Ilse", "1:00", "2:00", "3:00", "4:00")
    assert "at most 11 odd reps" in piece.number("Ilse", 13, "4:30")
    piece.tap("Ilse", "5:00")
    score = piece.score("Ilse")
    assert (score.score, score.total_reps, score.round_reps) == ("5:00", 60, (12,) * 5)
    assert score.modification == "about half: 5+7 a round"
    assert score.portion == "about half: 5+7 a round"
    piece.tap("Bram", "2:00")
    assert (piece.score("Bram").round_reps, piece.score("Bram").modification) == ((25,), "")


def test_as_many_rounds_as_possible_count_as_ever_and_say_what_was_agreed(
    rehearsal: Callable[..., Any], turntable: dict[str, Any]
) -> None:
    piece = rehearsal(**turntable, lane=FOUR_ROUNDS)
    piece.tap("Ilse", "2:00", "4:00", "6:00", "8:00", "10:00")
    score = piece.score("Ilse", settled=True)
    assert (score.score, score.modification) == ("5+0", "about half: 4 rounds")


def test_nobody_is_on_for_more_than_was_agreed_nor_for_less_than_is_done(
    rehearsal: Callable[..., Any], turntable: dict[str, Any]
) -> None:
    piece = rehearsal(**turntable, lane=FOUR_ROUNDS)
    for moments, there in ((("2:00", "4:00"), 4), (("6:00", "8:00", "10:00"), 5)):
        piece.tap("Ilse", *moments)
        told = on_for(piece.sheet.piece, piece.tally("Ilse"), elapsed=11 * MIN, cap=16 * MIN)
        assert told is not None
        assert told.rounds == there


@pytest.mark.parametrize(("option", "words"), [(0, ""), (2, "step-up, about half: 4 rounds")])
def test_as_written_in_the_middle_is_all_of_it_and_another_option_changes_nothing_of_it(
    rehearsal: Callable[..., Any], turntable: dict[str, Any], option: int, words: str
) -> None:
    piece = rehearsal(**turntable, lane=FOUR_ROUNDS)
    piece.do(cmd.ChangeOption("Ilse", option), "3:00")
    assert piece.score("Ilse").modification == words
