"""A piece scored by load: made, missed, planned."""

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.tally import commands as cmd
from classclock.units.loads import Load


@pytest.fixture
def heavy_single(rehearsal: Any) -> Any:
    """Work up to a heavy single in 12:00."""
    return rehearsal(format="countdown", time="12:00", score="load")


@pytest.fixture
def squats(rehearsal: Any) -> Any:
    sets = [{"reps": 3, "load": load} for load in ("60 kg", "65 kg", "70 kg")]
    return rehearsal(format="interval", repeat=3, steps=[{"work": "2:00"}], score="load", sets=sets)


def test_a_number_is_the_load_made_in_the_clubs_unit(heavy_single: Any) -> None:
    heavy_single.do(cmd.SetNumber("Noor", Decimal("82.5")), "3:00")
    assert heavy_single.score("Noor").score == "82.5 kg"
    assert heavy_single.score("Noor").load_kg == Decimal("82.5")


def test_the_heaviest_made_is_the_score_and_a_miss_counts_nothing(heavy_single: Any) -> None:
    heavy_single.number("Noor", 80, "3:00")
    heavy_single.number("Noor", 85, "5:00")
    heavy_single.do(cmd.Miss("Noor", Decimal(90)), "7:00")
    heavy_single.number("Noor", 82, "9:00")
    assert heavy_single.score("Noor").score == "85 kg"
    tried = [(str(a.load), a.made) for a in heavy_single.tally("Noor").attempts]
    assert tried == [("80 kg", True), ("85 kg", True), ("90 kg", False), ("82 kg", True)]


def test_a_tap_is_the_planned_load_of_the_set_made(squats: Any) -> None:
    squats.tap("Noor", "1:00", "3:00", "5:00")
    assert [str(a.load) for a in squats.tally("Noor").attempts] == ["60 kg", "65 kg", "70 kg"]


def test_a_missed_call_does_not_shift_the_sets_that_follow(squats: Any) -> None:
    squats.tap("Noor", "1:00", "5:00")
    assert [str(a.load) for a in squats.tally("Noor").attempts] == ["60 kg", "70 kg"]


def test_early_in_a_set_a_tap_belongs_to_the_one_before_if_that_is_missing(squats: Any) -> None:
    squats.tap("Noor", "2:05")
    assert squats.tally("Noor").attempts[0].number == 1


def test_the_lanes_own_planned_loads_come_before_the_plans(rehearsal: Any) -> None:
    own = {"Noor": {"loads": (Load(Decimal(50), "kg"), None)}}
    piece = rehearsal(
        lane=own,
        format="interval",
        repeat=2,
        steps=[{"work": "2:00"}],
        score="load",
        sets=[{"reps": 3, "percent": 70}, {"reps": 3, "percent": 80}],
    )
    piece.tap("Noor", "1:00")
    assert piece.score("Noor").score == "50 kg"
    assert piece.tap("Noor", "3:00") == "no load is planned for Noor: type it, as in 60n"


def test_a_planned_miss_is_kept_as_an_attempt(squats: Any) -> None:
    squats.do(cmd.Miss("Noor"), "1:00")
    (missed,) = squats.tally("Noor").attempts
    assert (str(missed.load), missed.made) == ("60 kg", False)
    assert squats.score("Noor").score == "none made"
    assert squats.score("Noor").rank is None


def test_a_choice_of_loads_goes_by_the_lanes_own(rehearsal: Any) -> None:
    piece = rehearsal(
        lane={"Noor": {"load": "lighter"}},
        format="countdown",
        time="5:00",
        score="load",
        load={"heavier": "60 kg", "lighter": "40 kg"},
    )
    piece.tap("Noor", "1:00")
    assert piece.score("Noor").score == "40 kg"
    assert "no load is planned for Bram" in piece.tap("Bram", "1:00")


def test_825_for_82_5_is_doubtful_until_settled(rehearsal: Any) -> None:
    handled = {"Noor": {"heaviest": Load(Decimal(80), "kg")}}
    piece = rehearsal(lane=handled, format="countdown", time="12:00", score="load")
    piece.number("Noor", 88, "2:00")
    assert piece.tally("Noor").doubts == (), "110 % of 80 is 88"
    piece.number("Noor", 825, "3:00")
    assert piece.tally("Noor").doubts == ("825 kg is far above earlier",)
    piece.settle("13:00")
    assert piece.tally("Noor").doubts == ()


def test_without_a_record_the_pieces_own_lifts_are_what_was_handled(heavy_single: Any) -> None:
    heavy_single.number("Noor", 80, "2:00")
    assert heavy_single.tally("Noor").doubts == (), "nothing speaks against a first lift"
    heavy_single.number("Noor", 88, "3:00")
    assert heavy_single.tally("Noor").doubts == (), "110 % of 80 is 88"
    heavy_single.number("Noor", 825, "4:00")
    assert heavy_single.tally("Noor").doubts == ("825 kg is far above earlier",)
    heavy_single.settle("13:00")
    assert heavy_single.tally("Noor").doubts == ()


def test_a_missed_load_was_not_handled(heavy_single: Any) -> None:
    heavy_single.do(cmd.Miss("Noor", Decimal(80)), "2:00")
    heavy_single.number("Noor", 825, "3:00")
    assert heavy_single.tally("Noor").doubts == ()


def test_without_a_record_what_the_plan_has_is_no_slip_of_the_fingers(rehearsal: Any) -> None:
    piece = rehearsal(
        format="interval",
        repeat=2,
        steps=[{"work": "2:00"}],
        score="load",
        lift="front squat",
        sets=[{"reps": 3, "load": "40 kg"}, {"reps": 3, "load": "60 kg"}],
    )
    piece.tap("Noor", "1:00", "3:00")
    assert piece.score("Noor").score == "60 kg"
    assert piece.tally("Noor").doubts == ()


loads = st.decimals(Decimal(1), Decimal(400), places=1)


@given(record=st.none() | loads, typed=st.lists(st.tuples(loads, st.booleans()), max_size=8))
def test_whatever_is_lifted_a_doubt_is_one_tenth_above_all_that_was_handled_before(
    rehearsal: Any, record: Decimal | None, typed: list[tuple[Decimal, bool]]
) -> None:
    lane = {"Noor": {"heaviest": None if record is None else Load(record, "kg")}}
    piece = rehearsal(lane=lane, format="countdown", time="12:00", score="load")
    handled, expected = [] if record is None else [record], []
    for load, made in typed:
        call = cmd.SetNumber("Noor", load) if made else cmd.Miss("Noor", load)
        assert piece.do(call, "2:00") == ""
        expected.append(bool(handled) and all(load > before * 11 / 10 for before in handled))
        handled += [load] if made else []
    assert [tried.doubtful for tried in piece.tally("Noor").attempts] == expected


def test_no_load_is_zero(heavy_single: Any) -> None:
    assert heavy_single.number("Noor", 0, "2:00") == "0 is no load: / and the key is a miss"


def test_misses_belong_to_a_lift(rehearsal: Any, turntable: Any) -> None:
    assert "counts no loads" in rehearsal(**turntable).do(cmd.Miss("Noor"), "1:00")


def test_full_rounds_do_not_belong_to_a_lift(heavy_single: Any) -> None:
    assert "counts loads, not rounds" in heavy_single.number("Noor", 5, "1:00", rounds=3)


def test_pounds_and_kilograms_rank_together_by_what_they_weigh(rehearsal: Any) -> None:
    """1 lb is 0.45359237 kg exactly (the 1959 agreement; NIST SP 811): 225 lb 102.05828325 kg."""
    piece = rehearsal(format="countdown", time="12:00", score="load")
    piece.number("Ilse", 102, "1:00")
    piece.do(cmd.Correct("Bram", "225 lb", "his own bar"), "12:30")
    assert piece.score("Bram").load_kg == Decimal("102.05828325")
    assert piece.ranks() == {"Bram": 1, "Ilse": 2, "Noor": None}
