import json
from collections.abc import Callable
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from classclock.book.asking.lift_records import LiftRecord, read_lifts
from classclock.units.loads import parse_load
from tests.blank_results import LANE, PIECE
from tests.lifts_of import lifts_of

Save = Callable[..., None]


def kg(load: str) -> float:
    return float(parse_load(load, "kg").kg)


def lane(*attempts: tuple[int, str, bool], **fields: Any) -> dict[str, Any]:
    """A settled lane of Ilse's: the set, the load and whether it was made, for each attempt."""
    made = [kg(load) for _, load, good in attempts if good]
    return {
        **LANE,
        "load_kg": max(made, default=None),
        "attempts": [
            {"set": number, "load": load, "load_kg": kg(load), "made": good}
            for number, load, good in attempts
        ],
        **fields,
    }


@pytest.fixture
def save(tmp_path: Path) -> Save:
    """Save the results of one class with one piece."""

    def write(
        *lanes: dict[str, Any],
        day: int = 24,
        people: tuple[tuple[str, str], ...] = (("ilse", "Ilse"),),
        **piece: Any,
    ) -> None:
        document = {
            "title": "Depot Tuesday",
            "started": f"2026-11-{day}T18:30:00+01:00",
            "journal": "",
            "people": [{"id": id_, "name": name, "key": name[0].lower()} for id_, name in people],
            "pieces": [
                {
                    **PIECE,
                    "lift": "front squat",
                    "sets": [5, 5, 3],
                    "lanes": list(lanes),
                    **piece,
                }
            ],
        }
        (tmp_path / f"2026-11-{day}.json").write_text(json.dumps(document), encoding="utf-8")

    return write


@pytest.fixture
def records(tmp_path: Path) -> Callable[[], dict[str, LiftRecord]]:
    return lambda: lifts_of(read_lifts(tmp_path)[0], "ilse")


Records = Callable[[], dict[str, LiftRecord]]


def test_the_heaviest_made_and_the_best_estimate_are_kept_with_their_days(
    save: Save, records: Records
) -> None:
    save(lane((1, "80 kg", True), (2, "90 kg", True), (3, "95 kg", False)), day=17)
    save(lane((1, "80 kg", True), (3, "92.5 kg", True)), day=24)
    squat = records()["front squat"]
    assert str(squat.heaviest.load) == "92.5 kg"
    assert squat.heaviest.on == date(2026, 11, 24)
    # Brzycki: 90 x 36/32 is more than 92.5 x 36/34.
    assert str(squat.best) == "101.25 kg (90 kg x 5, Brzycki)"
    assert squat.best_on == date(2026, 11, 17)


def test_a_set_beyond_the_last_planned_one_is_like_the_last(save: Save, records: Records) -> None:
    save(lane((7, "68 kg", True)))
    assert records()["front squat"].heaviest.reps == 3


def test_without_planned_sets_a_load_made_counts_for_one_rep(save: Save, records: Records) -> None:
    save(lane((1, "80 kg", True)), sets=[])
    assert str(records()["front squat"].best) == "80 kg"


def test_sets_of_few_reps_are_preferred_to_unreliable_ones(save: Save, records: Records) -> None:
    save(lane((1, "60 kg", True), (2, "65 kg", True)), sets=[15, 5])
    assert str(records()["front squat"].best.lifted) == "65 kg"
    save(lane((1, "60 kg", True)), sets=[12])
    assert records()["front squat"].best.unreliable


def test_more_reps_than_say_anything_still_are_a_load_handled(save: Save, records: Records) -> None:
    save(lane((1, "40 kg", True)), sets=[25])
    squat = records()["front squat"]
    assert squat.best.measured
    assert (str(squat.best), squat.heaviest.reps) == ("40 kg", 25)


def test_pounds_stay_as_they_were_entered(save: Save, records: Records) -> None:
    save(lane((1, "135 lb", True)))
    assert str(records()["front squat"].heaviest.load) == "135 lb"


def test_a_correction_at_the_settle_decides(save: Save, records: Records) -> None:
    # 825 was typed for 82.5, and put right.
    save(lane((1, "80 kg", True), (2, "825 kg", True), load_kg=82.5))
    squat = records()["front squat"]
    assert str(squat.heaviest.load) == "82.5 kg"
    assert squat.heaviest.reps == 1


@pytest.mark.parametrize(
    "fields",
    [{"members": ["ilse", "bram"]}, {"modification": "goblet squat"}, {"members": ["bram"]}],
    ids=["shared with a partner", "another movement", "somebody else's"],
)
def test_what_was_not_lifted_alone_and_as_written_is_no_record(
    save: Save, records: Records, fields: dict[str, Any]
) -> None:
    save(lane((1, "80 kg", True), **fields))
    assert records() == {}


@pytest.mark.parametrize("piece", [{"status": "provisional"}, {"lift": None}])
def test_a_provisional_score_and_a_piece_without_a_lift_are_no_record(
    save: Save, records: Records, piece: dict[str, Any]
) -> None:
    save(lane((1, "80 kg", True)), **piece)
    assert records() == {}


def test_misses_alone_are_no_record(save: Save, records: Records) -> None:
    save(lane((1, "80 kg", False)))
    assert records() == {}


def test_what_was_lifted_in_or_after_a_class_changes_none_of_its_loads(
    save: Save, tmp_path: Path
) -> None:
    save(lane((1, "80 kg", True)), day=10)
    save(lane((1, "90 kg", True)), day=24)
    began = datetime.fromisoformat("2026-11-24T18:30:00+01:00")
    before, _ = read_lifts(tmp_path, began)
    assert lifts_of(before, "ilse")["front squat"].heaviest.load == parse_load("80 kg", "kg")
    assert len(read_lifts(tmp_path, began + timedelta(seconds=1))[0]) == 2


def test_a_file_that_is_no_results_file_is_left_out_and_named(save: Save, tmp_path: Path) -> None:
    save(lane((1, "80 kg", True)))
    broken = {
        "a.json": "{",
        "b.json": '{"title": "x", "started": "soon", "journal": "", "pieces": []}',
        "c.json": '{"title": "x", "started": "2026-11-24", "journal": "", "people": [],'
        ' "pieces": [{"lift": "squat", "status": "settled", "lanes": [3]}]}',
    }
    for name, text in broken.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    classes, unread = read_lifts(tmp_path)
    assert len(classes) == 1
    assert [error.path.name for error in unread] == list(broken)
