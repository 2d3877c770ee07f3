"""A month as it is written and asked for."""

from calendar import monthrange
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.records.month import month_of, read_month


def test_a_month_is_written_with_its_year() -> None:
    month = read_month("2026-11")
    assert (month.first, month.last) == (date(2026, 11, 1), date(2026, 11, 30))
    assert (str(month), month.words) == ("2026-11", "November 2026")


@pytest.mark.parametrize(
    "written", ["2026-13", "2026-00", "2026-1", "11-2026", "0000-01", "٢٠٢٦-11", ""]
)
def test_anything_else_is_none(written: str) -> None:
    with pytest.raises(ValueError, match=r"month|year"):
        read_month(written)


@given(st.dates())
def test_every_day_is_within_its_month_and_the_next_day_after_the_last_isnt(day: date) -> None:
    month = month_of(day)
    assert month.first <= day <= month.last
    # The length of a month as Python's calendar has it.
    assert month.last.day == monthrange(day.year, day.month)[1]
    assert read_month(str(month)) == month
