"""Scores as people write them; what may mean several things has several readings."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.book.importing.old_scores import score_readings
from classclock.records.result import ScoreKind, finish_worth, load_worth, rounds_worth


@pytest.mark.parametrize(
    ("written", "kind", "score", "worth"),
    [
        ("7+12", "rounds", "7+12", rounds_worth(7, 12)),
        ("7 + 12", "rounds", "7+12", rounds_worth(7, 12)),
        ("7+12 reps", "rounds", "7+12", rounds_worth(7, 12)),
        ("7 rounds", "rounds", "7+0", rounds_worth(7, 0)),
        ("7 rounds + 12 reps", "rounds", "7+12", rounds_worth(7, 12)),
        ("7 Rounds, 12 reps", "rounds", "7+12", rounds_worth(7, 12)),
        ("8:31", "time", "8:31", finish_worth(511)),
        ("12'03", "time", "12:03", finish_worth(723)),
        ("12'03\"", "time", "12:03", finish_worth(723)),
        ("12\u203203\u2033", "time", "12:03", finish_worth(723)),
        ("12m03s", "time", "12:03", finish_worth(723)),
        ("12 min 3 sec", "time", "12:03", finish_worth(723)),
        ("12 min", "time", "12:00", finish_worth(720)),
        ("723 s", "time", "12:03", finish_worth(723)),
        ("PT12M3S", "time", "12:03", finish_worth(723)),
        ("0:12:03", "time", "12:03", finish_worth(723)),
        # Up to the next whole second, as World Athletics has it for times by hand.
        ("8:31.2", "time", "8:32", finish_worth(512)),
        ("8:31,2", "time", "8:32", finish_worth(512)),
        ("1:02:03", "time", "1:02:03", finish_worth(3723)),
        ("112 reps", "reps", "112 reps", 112),
        ("85 kg", "load", "85 kg", load_worth(Decimal(85))),
        ("82,5kg", "load", "82.5 kg", load_worth(Decimal("82.5"))),
        ("85 kilos", "load", "85 kg", load_worth(Decimal(85))),
        # 0.45359237 kg to the pound, exactly (NIST SP 811).
        ("185 lb", "load", "185 lb", load_worth(Decimal("83.91458845"))),
        ("185lbs", "load", "185 lb", load_worth(Decimal("83.91458845"))),
    ],
)
def test_a_score_is_read_as_people_write_it(
    written: str, kind: str, score: str, worth: int
) -> None:
    (one,) = score_readings(written, "kg", None).items()
    assert (one[0], one[1].kind, one[1].score, one[1].worth) == ("said", kind, score, worth)


@pytest.mark.parametrize(
    ("written", "kind", "meant"),
    [
        ("85", "load", {"said": "85 lb"}),
        ("112", "reps", {"said": "112 reps"}),
        # Nothing says whether it is a time in seconds, or work that the cap cut off.
        ("723", "time", {"reps": "723 reps", "seconds": "12:03"}),
        ("12.03", "time", {"seconds": "0:13", "minutes": "12:03"}),
        ("7", "rounds", {"rounds": "7+0"}),
        ("12:03:00", "time", {"minutes": "12:03", "hours": "12:03:00"}),
        ("12:03:00", None, {"minutes": "12:03", "hours": "12:03:00"}),
        (
            "85",
            None,
            {"load": "85 lb", "reps": "85 reps", "rounds": "85+0", "seconds": "1:25"},
        ),
        ("82,5", None, {"load": "82.5 lb", "seconds": "1:23"}),
    ],
)
def test_a_number_that_may_mean_several_things_says_which(
    written: str, kind: ScoreKind | None, meant: dict[str, str]
) -> None:
    readings = score_readings(written, "lb", kind)
    assert {sense: one.score for sense, one in readings.items()} == meant


@pytest.mark.parametrize("written", ["seven", "400m", "3x5 at 85", "7-12", "\u0667+\u0661", "0:00"])
def test_what_is_no_score_says_what_to_write(written: str) -> None:
    with pytest.raises(ValueError, match=r"as in 7\+12"):
        score_readings(written, "kg", None)


def test_another_kind_of_score_than_the_benchmark_has_is_refused() -> None:
    with pytest.raises(ValueError, match="This benchmark has other scores"):
        score_readings("8:31", "kg", "rounds")


@given(st.text(max_size=12), st.sampled_from([None, "rounds", "time", "reps", "load"]))
def test_whatever_is_written_is_read_or_refused(written: str, kind: ScoreKind | None) -> None:
    try:
        readings = score_readings(written, "kg", kind)
    except ValueError:
        return
    assert readings
