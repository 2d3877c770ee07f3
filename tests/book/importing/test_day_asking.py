"""Days that may be two, and a sheet's count of days, are asked about."""

from tests.book.importing.read_sheets import asked, reading


def test_days_that_may_be_two_are_asked_about_unless_the_sheet_tells() -> None:
    rows = ("Ilse,Turntable,7+1,03/04/2024", "Bram,Turntable,7+2,05-06-24")
    assert asked(reading(*rows)) == {"days": ("day-first", "month-first", "leave-out")}
    days = {
        order: [row.day for row in reading(*rows, answers={"days": order}).rows]
        for order in ("day-first", "month-first")
    }
    assert days["day-first"] == ["2024-04-03", "2024-06-05"]
    assert days["month-first"] == ["2024-03-04", "2024-05-06"]
    assert not reading(*rows, "Bram,Turntable,7+3,25/12/2023").questions


def test_a_sheets_count_of_days_is_asked_about() -> None:
    row = "Ilse,Turntable,7+1,45352"
    done = reading(row)
    assert asked(done) == {"day-numbers": ("days", "leave-out")}
    # ECMA-376 part 1, 18.17.4.1: in the 1900 date system 1 March 2024 is day 45352.
    assert done.questions[0].choices[0].words == "yes: 45352 is 1 March 2024"
    assert reading(row, answers={"day-numbers": "days"}).rows[0].day == "2024-03-01"
