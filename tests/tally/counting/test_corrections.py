"""A score set right at the settle, as people write it, with a reason."""

from typing import Any

import pytest

from classclock.tally import commands as cmd


def _correct(piece: Any, score: str, reason: str = "counted by her partner") -> str:
    said: str = piece.do(cmd.Correct("Noor", score, reason), "17:00")
    return said


@pytest.mark.parametrize(
    ("written", "score", "total"),
    [
        ("7+12", "7+12", 201),
        ("7 + 12", "7+12", 201),
        ("7", "7+0", 189),
        ("7 rounds", "7+0", 189),
        ("112 reps", "4+4", 112),
    ],
)
def test_rounds_are_corrected_as_they_are_written(
    rehearsal: Any, turntable: Any, written: str, score: str, total: int
) -> None:
    piece = rehearsal(**turntable)
    piece.tap("Noor", "2:00", "2:10")
    assert _correct(piece, written) == ""
    assert (piece.score("Noor").score, piece.score("Noor").total_reps) == (score, total)


@pytest.mark.parametrize(
    "written", ["8:31", "many", "", "7+12+3", "-7", "85 kg", "1e3", "\u0667+\u0661"]
)
def test_what_is_no_score_here_is_refused_with_what_to_write(
    rehearsal: Any, turntable: Any, written: str
) -> None:
    assert _correct(rehearsal(**turntable), written).endswith(
        "write rounds and odd reps, as in 7+12"
    )


def test_as_many_rounds_as_can_be_written_are_read_from_their_reps(
    rehearsal: Any, turntable: Any
) -> None:
    piece = rehearsal(**turntable)
    assert _correct(piece, f"{999 * 27 + 26} reps") == ""
    assert piece.score("Noor").score == "999+26"
    assert _correct(piece, f"{1000 * 27} reps") == (
        "1000 rounds can't be: write rounds and odd reps, as in 7+12"
    )


def test_odd_reps_of_a_whole_round_are_written_as_a_round(rehearsal: Any, turntable: Any) -> None:
    assert "not less than the round of 27" in _correct(rehearsal(**turntable), "7+27")


@pytest.mark.parametrize(
    ("written", "score", "time_s"), [("8:31", "8:31", 511), ("8:31.4", "8:32", 512)]
)
def test_a_finish_is_corrected_as_a_time(
    rehearsal: Any, third_rail: Any, written: str, score: str, time_s: int
) -> None:
    piece = rehearsal(**third_rail)
    piece.tap("Noor", "1:00")
    assert _correct(piece, written) == ""
    assert (piece.score("Noor").score, piece.score("Noor").time_s) == (score, time_s)
    assert piece.score("Noor").flags == ()


def test_a_finish_corrected_to_an_earlier_time_keeps_the_rounds_before_it(
    rehearsal: Any, third_rail: Any
) -> None:
    piece = rehearsal(**third_rail)
    piece.tap("Noor", "1:00", "2:00", "3:00", "4:00", "5:30")
    _correct(piece, "5:00")
    rounds = piece.tally("Noor").rounds
    assert [r.at for r in rounds] == [60_000, 120_000, 180_000, 240_000, 300_000]
    assert rounds[4].split == 60_000


def test_a_finish_is_corrected_to_reps_where_the_work_was_not_done(
    rehearsal: Any, third_rail: Any
) -> None:
    piece = rehearsal(**third_rail)
    piece.do(cmd.FinishNow("Noor"), "8:00")
    assert _correct(piece, "112") == ""
    score = piece.score("Noor")
    assert (score.score, score.status, score.rounds, score.reps) == ("112 reps", "capped", 4, 12)


def test_a_time_beyond_the_cap_is_refused(rehearsal: Any, third_rail: Any) -> None:
    assert _correct(rehearsal(**third_rail), "12:01") == "12:01 is not within the cap of 12:00"


def test_the_whole_work_needs_a_time(rehearsal: Any, third_rail: Any) -> None:
    assert "write the time" in _correct(rehearsal(**third_rail), "125")
    assert "write the time" in _correct(rehearsal(**third_rail), "5+0")


@pytest.mark.parametrize("written", ["85 kg", "85", "85,0"])
def test_a_load_is_corrected(rehearsal: Any, written: str) -> None:
    piece = rehearsal(format="countdown", time="12:00", score="load")
    piece.number("Noor", 825, "3:00")
    assert _correct(piece, written) == ""
    assert piece.score("Noor").load_kg == 85


def test_pounds_stay_pounds(rehearsal: Any) -> None:
    piece = rehearsal(format="countdown", time="12:00", score="load")
    _correct(piece, "185 lb")
    assert piece.score("Noor").score == "185 lb"


@pytest.mark.parametrize("rule", ["total", "lowest", "best"])
def test_an_interval_score_is_corrected_as_a_whole(rehearsal: Any, headway: Any, rule: str) -> None:
    piece = rehearsal(**{**headway, "score": rule})
    piece.number("Noor", 9, "0:20")
    _correct(piece, "112")
    score = piece.score("Noor", settled=True)
    assert (score.score, score.rank, score.total_reps) == ("112 reps", 1, 112)


def test_reps_are_corrected(rehearsal: Any) -> None:
    piece = rehearsal(format="countdown", time="2:00", score="reps")
    _correct(piece, "31 reps")
    assert piece.score("Noor").score == "31 reps"


def test_a_correction_keeps_its_reason(rehearsal: Any, turntable: Any) -> None:
    piece = rehearsal(**turntable)
    _correct(piece, "7+12", " two rounds were never called ")
    assert piece.tally("Noor").corrected == "two rounds were never called"
    assert piece.score("Noor").note == "corrected: two rounds were never called"


def test_a_correction_without_a_reason_is_refused(rehearsal: Any, turntable: Any) -> None:
    assert _correct(rehearsal(**turntable), "7+12", "  ").startswith("say why")


def test_a_correction_is_taken_back_like_any_entry(rehearsal: Any, turntable: Any) -> None:
    piece = rehearsal(**turntable)
    piece.tap("Noor", "2:00")
    _correct(piece, "7+12")
    piece.do(cmd.TakeBack("Noor"), "17:10")
    assert piece.score("Noor").score == "1+?"


def test_settled_scores_can_still_be_corrected(rehearsal: Any, turntable: Any) -> None:
    piece = rehearsal(**turntable)
    piece.settle("16:30")
    assert _correct(piece, "7+12") == ""
    assert piece.score("Noor").score == "7+12"


@pytest.mark.parametrize("score", ["load", "lowest"])
def test_what_is_typed_after_a_correction_is_refused_where_the_correction_is_the_whole_score(
    rehearsal: Any, score: str
) -> None:
    piece = rehearsal(format="interval", repeat=3, steps=[{"work": "2:00"}], score=score)
    piece.number("Noor", 60, "1:00")
    assert _correct(piece, "85") == ""
    said = piece.number("Noor", 90, "17:10")
    assert said == "Noor's score was corrected: correct it again, or -n takes that back"
    assert piece.do(cmd.TakeBack("Noor"), "17:20") == ""
    assert piece.number("Noor", 90, "17:30") == ""
