"""What a share of a piece comes to, worked out by hand beside the tool's.

Lower by at least 50, 30, 20, 10 % in weeks 1 to 4: CSCCa and NSCA joint consensus guidelines,
Strength Cond J 41(3) (2019) 1, by a secondary copy and from memory.
"""

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from classclock.plan.reading.plan_reading import parse_plan
from classclock.planning.cap_fit import Basis, Past
from classclock.planning.portions import less_offer, portion, usually
from classclock.records.result import Result, Terms, rounds_worth
from classclock.records.returning import LOWER, FirstWeeks
from classclock.tally.counting.portion_words import portion_in
from classclock.tally.counting.work import Work
from classclock.tally.lanes import Lane, Portion
from classclock.tally.piece import Piece

PLAN = """
title = "Depot"

[[segment]]
name = "Turntable"
benchmark = "turntable"
format = "rounds-in-time"
time = "16:00"

  [[segment.station]]
  movement = "box step-over"
  reps = 6
  options = [{ name = "step-up", reps = 4 }]

  [[segment.station]]
  movement = "dumbbell push press"
  reps = 9

  [[segment.station]]
  movement = "bodyweight squat"
  reps = 12

[[segment]]
name = "Third Rail"
benchmark = "third-rail"
format = "capped-for-time"
cap = "12:00"
rounds = 5

  [[segment.station]]
  movement = "kettlebell swing"
  reps = 15

  [[segment.station]]
  movement = "push-up"
  reps = 9
  options = [{ name = "push-up, hands on the wall", reps = 6 }]

[[segment]]
name = "Siding"
format = "capped-for-time"
cap = "9:00"
scheme = [21, 15, 9]

  [[segment.station]]
  movement = "burpee"

[[segment]]
name = "Points"
format = "interval"
repeat = 8
steps = [{ work = "0:20" }, { rest = "0:10" }]
score = "total"

  [[segment.station]]
  movement = "row"
  metres = 500
"""
TURNTABLE, THIRD_RAIL, SIDING, POINTS = range(4)
GONE = date(2026, 10, 26)
"""The last day before the break."""


def piece(number: int, text: str = PLAN) -> Piece:
    plan, findings = parse_plan(text, "depot.toml")
    assert plan is not None, findings
    return Piece.of(plan.segment[number], "kg")


def lane(*options: int) -> Lane:
    return Lane("piet", "Piet", "p", ("piet",), options)


def week(number: int) -> FirstWeeks:
    away = timedelta(days=35)
    return FirstWeeks(GONE + away, number, away, GONE)


def rounds(day: date, full: int, odd: int, modification: str = "") -> Past:
    terms = Terms(modification, "", "16:00")
    total, worth = full * 27 + odd, rounds_worth(full, odd)
    moment = day.toordinal()
    named = ("piet", "Turntable", "turntable", day.isoformat(), moment)
    return Past(Result(*named, f"{full}+{odd}", "rounds", worth, total, terms))


def capped(day: date, reps: int) -> Past:
    terms, named = Terms("", "", "12:00"), ("piet", "Third Rail", "third-rail", day.isoformat())
    return Past(Result(*named, day.toordinal(), f"{reps} reps", "time", reps, reps, terms))


def basis(*past: Past) -> Basis:
    return Basis({"piet": past})


def test_the_first_returner_half_of_the_rounds() -> None:
    # Piet, five weeks away. His last three before: 7+13, 8+0, 8+5 of 6 + 9 + 12 = 27 reps a round,
    # 202, 216 and 221 reps, all in 16:00: the middle one is 216. Half of it is 108 reps,
    # 108 / 27 = 4 whole rounds.
    before = (rounds(GONE - timedelta(days=9), 7, 13), rounds(GONE - timedelta(days=4), 8, 0))
    done = basis(*before, rounds(GONE, 8, 5))
    offer = less_offer(piece(TURNTABLE), lane(), week(1), done)
    assert offer is not None
    assert offer.usual is not None
    assert (offer.usual.total, offer.usual.score) == (216, "8+0")
    assert offer.words == "about half: 4 rounds"
    assert offer.portion == Portion("about half: 4 rounds", rounds=4)


def test_the_second_returner_counts_from_before_the_break_not_from_last_week() -> None:
    # Week 2, at least 30 % less. Before the break 6+9: 6 * 27 + 9 = 171 reps. 70 % is 119.7, so
    # 119: 119 / 27 = 4.4, four whole rounds. Last week's 3+0 would have made it 56.7, two rounds.
    done = basis(rounds(GONE, 6, 9), rounds(GONE + timedelta(days=36), 3, 0))
    offer = less_offer(piece(TURNTABLE), lane(), week(2), done)
    assert offer is not None
    assert offer.words == "about 70 %: 4 rounds"


def test_the_third_returner_fewer_reps_of_a_set_amount_that_they_never_finished() -> None:
    # Week 3, at least 20 % less. The work is 5 * (15 + 9) = 120 reps; before the break the cap of
    # 12:00 came at 96. 80 % of 96 is 76.8 reps, which is 64 % of the 120: of 15 that leaves 9.6, so
    # 9, of 9 it leaves 5.76, so 5. Five rounds of 14 are 70 reps, not more than 76.8.
    offer = less_offer(piece(THIRD_RAIL), lane(), week(3), basis(capped(GONE, 96)))
    assert offer is not None
    assert (offer.words, offer.portion.percent) == ("about 80 %: 9+5 a round", 64)
    agreed = Lane("piet", "Piet", "p", ("piet",), portion=offer.portion)
    assert Work(piece(THIRD_RAIL), agreed).total == 70


@pytest.mark.parametrize(
    ("number", "usual", "words"),
    [
        # Half of 21, 15 and 9, rounded down; half of eight intervals; without a score the time.
        (SIDING, None, "about half: 10-7-4"),
        (POINTS, None, "about half: 4 of 8 intervals"),
        (TURNTABLE, None, "about half: 8 minutes"),
        # Half of 50 reps is less than a round of 27.
        (TURNTABLE, 50, "about half: 25 reps"),
    ],
)
def test_it_comes_out_in_what_the_piece_is_counted_in(
    number: int, usual: int | None, words: str
) -> None:
    found = portion(piece(number), lane(), usual, 50)
    assert found is not None
    agreed = Lane("piet", "Piet", "p", ("piet",), portion=found)
    assert portion_in(piece(number).segment, agreed) == (words,)


def test_amounts_are_those_of_the_options_in_use() -> None:
    offer = less_offer(piece(THIRD_RAIL), lane(0, 1), week(1), Basis())
    assert offer is not None
    assert offer.words == "about half: 7+3 a round"


def test_nothing_is_proposed_where_nothing_whole_would_be_left() -> None:
    text = """
title = "Depot"
[[segment]]
name = "Dash"
format = "capped-for-time"
cap = "1:00"
rounds = 1
  [[segment.station]]
  movement = "rope climb"
  reps = 1
"""
    assert portion(piece(0, text), lane(), None, 50) is None
    longer = text.replace("1:00", "5:00")
    assert portion(piece(0, longer), lane(), None, 50) == Portion("about half: 2 minutes")


def test_scores_from_after_the_break_are_not_what_is_usual() -> None:
    done = basis(rounds(GONE + timedelta(days=35), 4, 0))
    assert usually(piece(TURNTABLE), lane(), done, GONE) is None
    assert usually(piece(TURNTABLE), lane(), done, None) is None


@settings(max_examples=60)
@given(
    st.lists(st.integers(1, 40), min_size=1, max_size=4),
    st.integers(1, 12),
    st.integers(0, 400),
    st.sampled_from(LOWER),
)
def test_it_is_never_more_than_agreed_and_in_rounds_as_many_as_there_may_be(
    reps: list[int], times: int, usual: int, lower: int
) -> None:
    stations = "".join(f'[[segment.station]]\nmovement = "m{n}"\nreps = {n}\n' for n in reps)
    head = 'title = "x"\n[[segment]]\nname = "A"\n'
    most = usual * (100 - lower) / 100
    capped_piece = piece(
        0, f'{head}format = "capped-for-time"\ncap = "20:00"\nrounds = {times}\n{stations}'
    )
    whole = times * sum(reps)
    found = portion(capped_piece, lane(), min(usual, whole), lower)
    assert found is not None
    agreed = Lane("piet", "Piet", "p", ("piet",), portion=found)
    if found.percent < 100:
        total = Work(capped_piece, agreed).total
        assert total is not None
        assert 0 < total <= most
    open_piece = piece(0, f'{head}format = "rounds-in-time"\ntime = "20:00"\n{stations}')
    found = portion(open_piece, lane(), usual, lower)
    assert found is not None
    if found.rounds is not None:
        assert found.rounds * sum(reps) <= most < (found.rounds + 1) * sum(reps)
    else:
        assert most < sum(reps)
