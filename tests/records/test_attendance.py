from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from classclock.records.attendance import first_day, weeks

DAYS = st.dates(date(2020, 1, 1), date(2030, 12, 31))


def test_the_last_twelve_weeks_are_shown_from_monday_to_sunday() -> None:
    came = [date(2026, 11, 23), date(2026, 11, 24), date(2026, 11, 22), date(2026, 9, 1)]
    found = weeks(came, date(2026, 11, 25))
    assert len(found) == 12
    assert (found[-1].monday, found[-1].classes) == (date(2026, 11, 23), 2)
    assert found[-2].classes == 1
    assert sum(week.classes for week in found) == 3  # 1 September is older
    assert first_day(date(2026, 11, 25)) == found[0].monday == date(2026, 9, 7)


@given(st.lists(DAYS, max_size=40), DAYS)
def test_weeks_are_those_of_iso_8601(days: list[date], today: date) -> None:
    # ISO 8601 weeks as Python's own calendar has them (date.isocalendar).
    for week in weeks(days, today):
        calendar = week.monday.isocalendar()
        assert calendar.weekday == 1
        same = [day for day in days if day.isocalendar()[:2] == calendar[:2]]
        assert week.classes == len(same)
    assert weeks(days, today)[-1].monday <= today < weeks(days, today)[-1].monday + timedelta(7)
