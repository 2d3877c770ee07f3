"""Times as a plan writes them."""

import isodate
import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.units.times import parse_time, show_time


@pytest.mark.parametrize(
    ("written", "seconds"),
    [("PT20S", 20), ("PT12M", 720), ("PT3M50S", 230), ("PT1H30M", 5400), ("PT0.5S", 0.5)],
)
def test_a_duration_by_iso_8601_reads_as_isodate_reads_it(written: str, seconds: float) -> None:
    assert parse_time(written) == seconds * 1000
    assert parse_time(written) == isodate.parse_duration(written).total_seconds() * 1000


# isodate takes "PT" as no time and "-PT5S" as less than none; a class can do neither.
@pytest.mark.parametrize(
    "written", ["PT", "-PT5S", "PT5S3M", "P1D", "", "16", "1:75", "1:60:00", "a", "1:2"]
)
def test_what_is_no_time_is_refused_with_an_example(written: str) -> None:
    with pytest.raises(ValueError, match='write "mm:ss"'):
        parse_time(written)


def test_minutes_may_be_more_than_an_hour_where_no_hours_are_written() -> None:
    assert parse_time("90:00") == parse_time("1:30:00") == 5_400_000
    assert parse_time("1:59:59") == 7_199_000


@given(st.integers(0, 99), st.integers(0, 59), st.integers(0, 59))
def test_every_duration_reads_as_isodate_reads_it(hours: int, minutes: int, seconds: int) -> None:
    written = f"PT{hours}H{minutes}M{seconds}S"
    assert parse_time(written) == isodate.parse_duration(written).total_seconds() * 1000


@given(st.integers(0, 100 * 3600 - 1))
def test_a_time_that_is_shown_reads_back(seconds: int) -> None:
    assert parse_time(show_time(seconds * 1000)) == seconds * 1000


def test_the_hour_rolls_over_after_59_59_and_not_before() -> None:
    # NIST SP 960-12, table 3: no roll-over before one hour.
    assert [show_time(3_599_000), show_time(3_600_000)] == ["59:59", "1:00:00"]
