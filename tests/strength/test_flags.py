from collections.abc import Callable

import pytest

from classclock.book.files.event_lines import event_line, event_of
from classclock.plan.reading.plan_reading import parse_plan
from classclock.strength.flags import NO_RECORD, flags
from classclock.tally.events import FlagAcknowledged
from classclock.tally.record import ClassRecord
from classclock.units.loads import Load

AsLoad = Callable[[str], Load]


def test_loads_within_what_was_handled_raise_no_flag(kg: AsLoad) -> None:
    assert flags([kg("60"), None, kg("70")], kg("90"), kg("80")) == ()


def test_a_load_above_the_recorded_maximum_is_flagged(kg: AsLoad) -> None:
    found = flags([kg("70"), kg("92.5")], kg("90"), kg("90"))
    assert found == ("92.5 kg is above the recorded maximum, 90 kg",)


def test_just_ten_percent_above_the_heaviest_is_no_flag(kg: AsLoad) -> None:
    assert flags([kg("88")], kg("100"), kg("80")) == ()
    assert flags([kg("88.001")], kg("100"), kg("80")) == (
        "88.001 kg is more than 10 % above the heaviest so far, 80 kg",
    )


def test_both_can_be_flagged_at_once(kg: AsLoad) -> None:
    assert len(flags([kg("100")], kg("90"), kg("80"))) == 2


def test_a_planned_load_without_a_record_is_chosen_together(kg: AsLoad) -> None:
    assert flags([None, kg("20")], None, None) == (NO_RECORD,)
    assert NO_RECORD == "no record: choose the load together"


@pytest.mark.parametrize("prescribed", [[], [None, None]])
def test_loads_nobody_planned_raise_no_flag(kg: AsLoad, prescribed: list[Load | None]) -> None:
    assert flags(prescribed, kg("90"), kg("80")) == ()
    assert flags(prescribed, None, None) == ()


def test_pounds_and_kilograms_are_compared_by_weight(kg: AsLoad) -> None:
    assert flags([kg("200 lb")], kg("90"), kg("90")) == (
        "200 lb is above the recorded maximum, 90 kg",
    )


def test_a_flag_that_was_read_stays_read_for_that_person_and_segment() -> None:
    plan, _ = parse_plan(
        'title = "Depot"\n[[segment]]\nname = "Squat"\nformat = "countdown"\ntime = "8:00"',
        "depot.toml",
    )
    assert plan is not None
    read = FlagAcknowledged(500, "ilse", 0, NO_RECORD)
    line = event_line(read, 3, "2026-11-24T18:30:00.000+01:00")
    assert b'"FlagAcknowledged"' in line
    record = ClassRecord(plan).apply(0, read)
    assert record.acknowledged == {("ilse", 0, NO_RECORD)}
    assert record.apply(1, read).acknowledged == record.acknowledged
    fields = {"event": "FlagAcknowledged", "at": 500, "person_id": "ilse", "segment": 0}
    assert event_of({**fields, "text": NO_RECORD}) == read
