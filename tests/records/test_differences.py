from typing import Any

import pytest

from classclock.records.differences import differences
from classclock.records.document import ResultsDocument


@pytest.fixture
def held(depot: Any) -> Any:
    """A class with one lane of Ilse's, in which this is otherwise."""

    def make(piece: dict[str, Any] | None = None, **lane: Any) -> ResultsDocument:
        lanes = {**depot.rounds("Ilse", 7, 12), **lane}
        made: ResultsDocument = depot.document(
            "2026-11-24", depot.turntable(lanes, **(piece or {}))
        )
        return made

    return make


def test_equal_documents_differ_nowhere(held: Any) -> None:
    assert differences(held(), held()) == ()


def test_each_field_that_is_another_is_said_with_both_values(held: Any) -> None:
    assert differences(held(), held(rounds=6, splits=[70, None], note="late")) == (
        "Turntable, Ilse: rounds 7, saved was 6",
        "Turntable, Ilse: note '', saved was 'late'",
        "Turntable, Ilse: splits [60, 60, 60, 60, 60, 60, 60], saved was [70, None]",
    )


def test_joined_picture_signs_stay_together(held: Any) -> None:
    sign = "\U0001f469\u200d\U0001f692"
    assert differences(held(modification=sign), held(options=[sign])) == (
        f"Turntable, Ilse: modification '{sign}', saved was ''",
        f"Turntable, Ilse: options [], saved was ['{sign}']",
    )


def test_earlier_bests_are_left_out(held: Any) -> None:
    assert differences(held(), held(best_before="6+3")) == ()


def test_lanes_and_pieces_that_only_one_has_are_said(held: Any) -> None:
    assert differences(held(), held(key="b")) == (
        "Turntable, Ilse: not in the saved results",
        "Turntable, Ilse: not in the journal",
    )
    assert differences(held(), held({"attempt": 2})) == (
        "Turntable: only in the journal",
        "Turntable: only saved",
    )
