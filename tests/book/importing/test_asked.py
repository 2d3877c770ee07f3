"""What can't be told from a sheet is asked, once for all that it holds for; answers are kept to."""

from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.book.importing.book_known import BookKnown
from classclock.book.importing.powers import Usual
from classclock.book.importing.spreadsheet import SheetReading, Told, read_spreadsheet
from tests.book.importing.made_workbooks import ods, xlsx
from tests.book.importing.messy_sheets import messy_sheets

TODAY = date(2026, 11, 25)
KNOWN = BookKnown(
    {"turntable": "rounds", "front squat": "load", "third rail": "time", "headway": "reps"},
    {
        ("front squat", False): Usual(60, 70),
        ("third rail", True): Usual(480, 700),
        ("headway", False): Usual(80, 120),
    },
    ("Ilse", "Bram", "Agda"),
)
HEAD = "name,benchmark,score,date"


def reading(*rows: str, head: str = HEAD, known: BookKnown = KNOWN, **said: Any) -> SheetReading:
    raw = "\n".join((head, *rows)).encode()
    return read_spreadsheet(raw, "old.csv", unit="kg", known=known, today=TODAY, told=Told(**said))


def asked(done: SheetReading) -> dict[str, tuple[str, ...]]:
    return {one.key: tuple(choice.value for choice in one.choices) for one in done.questions}


def scores(done: SheetReading) -> list[str]:
    assert not done.questions
    assert not done.findings
    return [row.score.score for row in done.rows]


def test_a_bare_number_on_a_timed_benchmark_is_asked_about_once_for_all_of_them() -> None:
    rows = [f"Ilse,Third Rail,{n},2024-03-0{n % 9 + 1}" for n in range(500, 505)]
    done = reading(*rows)
    assert asked(done) == {"numbers:third rail": ("reps", "seconds", "leave-out")}
    assert done.questions[0].about == "500 (line 2), 501 (line 3), 502 (line 4), and 2 more"
    said = reading(*rows, answers={"numbers:third rail": "seconds"})
    assert scores(said) == ["8:20", "8:21", "8:22", "8:23", "8:24"]
    left = reading(*rows, answers={"numbers:third rail": "leave-out"})
    assert (scores(left), left.left_out) == ([], 5)


def test_a_bare_number_on_a_benchmark_that_nobody_knows_may_be_anything() -> None:
    rows = ("Ilse,Loop,85,2024-03-01", "Bram,Loop,90,2024-03-01")
    assert asked(reading(*rows)) == {
        "numbers:loop": ("load", "reps", "rounds", "seconds", "leave-out")
    }
    assert scores(reading(*rows, answers={"numbers:loop": "load"})) == ["85 kg", "90 kg"]


def test_what_the_sheet_itself_says_elsewhere_is_not_asked() -> None:
    rows = ("Ilse,Loop,85,2024-03-01", "Bram,Loop,90 kg,2024-03-01")
    assert scores(reading(*rows)) == ["85 kg", "90 kg"]
    head = "name,benchmark,score (s),date"
    assert scores(reading("Ilse,Third Rail,600,2024-03-01", head=head)) == ["10:00"]
    head = "name,benchmark,Score (lb),date"
    assert scores(reading("Ilse,Loop,185,2024-03-01", head=head)) == ["185 lb"]


def test_a_time_and_reps_at_the_cap_are_one_timed_benchmark_whichever_comes_first() -> None:
    rows = ("Ilse,Loop,70 reps,2024-03-01", "Bram,Loop,8:31,2024-03-01")
    assert [row.score.kind for row in reading(*rows).rows] == ["time", "time"]


def test_times_of_day_are_asked_about_once_a_column() -> None:
    rows = ("Ilse,Third Rail,12:03:00,2024-03-01", "Bram,Loop,9:30:00,2024-03-01")
    assert asked(reading(*rows)) == {"times": ("minutes", "hours", "leave-out")}
    assert scores(reading(*rows, answers={"times": "minutes"})) == ["12:03", "9:30"]


def test_hours_that_are_meant_are_asked_about_again_where_nobody_works_so_long() -> None:
    row = "Ilse,Third Rail,12:03:00,2024-03-01"
    done = reading(row, answers={"times": "hours"})
    assert asked(done) == {"far:third rail": ("take", "leave-out")}
    assert "beyond what people can do" in done.questions[0].words


@pytest.mark.parametrize(
    ("benchmark", "score"),
    [
        ("front squat", "9999 kg"),  # beyond people
        ("front squat", "825 lb"),  # beyond the book: 374 kg where the most is 70
        ("turntable", "999+9999"),
        ("turntable", "7+999"),
        ("third rail", "3:00:01"),
        ("third rail", "0:03"),
        ("third rail", "3:59"),  # less than half of the book's fastest, 8:00
        ("third rail", "35:01"),  # over three times its slowest, 11:40
        ("headway", "241 reps"),
        ("loop", "3001 reps"),
    ],
)
def test_what_lies_beyond_the_book_or_beyond_people_is_asked_about(
    benchmark: str, score: str
) -> None:
    row = f"Ilse,{benchmark},{score},2024-03-01"
    done = reading(row)
    assert asked(done) == {f"far:{benchmark}": ("take", "leave-out")}
    assert score in done.questions[0].about
    assert len(scores(reading(row, answers={f"far:{benchmark}": "take"}))) == 1


@pytest.mark.parametrize(
    ("benchmark", "score"),
    [("front squat", "140 kg"), ("third rail", "4:00"), ("third rail", "35:00"), ("loop", "9+9")],
)
def test_what_a_good_or_a_slow_day_brings_is_not_asked_about(benchmark: str, score: str) -> None:
    assert len(scores(reading(f"Ilse,{benchmark},{score},2024-03-01"))) == 1


def test_a_slip_of_the_decimal_mark_stands_out_in_the_sheet_itself() -> None:
    usual = [f"Ilse,Press,{kg} kg,2024-03-0{n}" for n, kg in enumerate((40, 42.5, 45, 41), 1)]
    assert asked(reading(*usual, "Bram,Press,425 kg,2024-03-05")) == {
        "far:press": ("take", "leave-out")
    }


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


@pytest.mark.parametrize("written", ["Agdaa", "agd\u00e1", "Agda B"])
def test_a_name_near_to_one_in_the_book_is_asked_about(written: str) -> None:
    row = f"{written},Turntable,7+1,2024-03-01"
    done = reading(row)
    assert list(asked(done).values()) == [("Agda", "new", "leave-out")]
    assert "did you mean Agda?" in done.questions[0].words
    key = done.questions[0].key
    assert reading(row, answers={key: "Agda"}).rows[0].name == "Agda"
    assert reading(row, answers={key: "new"}).rows[0].name != "Agda"


def test_all_questions_of_a_kind_can_be_answered_at_once() -> None:
    rows = [f"{name},Turntable,7+1,2024-03-01" for name in ("Agdaa", "Ilsee", "Brams")]
    done = reading(*rows, answers={"name:*": "new", "name:Ilsee": "Ilse"})
    assert [row.name for row in done.rows] == ["Agdaa", "Ilse", "Brams"]
    assert not done.not_asked


def test_a_letter_in_four_is_another_name() -> None:
    assert asked(reading("Agta,Turntable,7+1,2024-03-01")) == {}


def test_a_name_near_to_one_that_stands_in_the_sheet_more_often_is_asked_about() -> None:
    rows = ["Saoirse,Turntable,7+1,2024-03-01", "Saoirse,Turntable,7+2,2024-03-02"]
    assert list(asked(reading("Saorise,Turntable,7+1,2024-03-03", *rows)).values()) == [
        ("Saoirse", "new", "leave-out")
    ]


def test_a_benchmark_near_to_one_in_the_book_is_asked_about() -> None:
    row = "Ilse,Turn table,7+1,2024-03-01"
    assert asked(reading(row)) == {"benchmark:turn table": ("turntable", "new", "leave-out")}
    done = reading(row, answers={"benchmark:turn table": "turntable"})
    assert done.rows[0].benchmark == "turntable"


@pytest.mark.parametrize(
    "head",
    ["Athlete,Lift,Result,Day", "WHO,Exercise,Score (kg),When", "Name:,Piece,points,Date done"],
)
def test_headings_go_by_many_names(head: str) -> None:
    done = reading("Ilse,Front squat,60 kg,2024-03-01", head=head)
    assert scores(done) == ["60 kg"]
    assert [one.taken_for for one in done.columns] == ["name", "benchmark", "score", "date"]


def test_headings_that_nobody_knows_are_asked_about_and_what_was_said_is_remembered() -> None:
    head, row = "Lid,Onderdeel,Uitslag,Datum", "Ilse,Turntable,7+1,2024-03-01"
    done = reading(row, head=head)
    assert set(asked(done)) == {f"column:{one}" for one in ("name", "benchmark", "score", "date")}
    assert done.questions[0].choices[0].words == '"Lid", as in Ilse'
    answers = {
        f"column:{one}": str(place)
        for place, one in enumerate(("name", "benchmark", "score", "date"), start=1)
    }
    done = reading(row, head=head, answers=answers)
    assert scores(done) == ["7+1"]
    assert scores(reading(row, head=head, remembered=done.to_remember)) == ["7+1"]


def test_the_coach_says_which_column_is_what() -> None:
    head, row = "Name,Old name,Piece,Result,Date", "I.,Ilse,Turntable,7+1,2024-03-01"
    done = reading(row, head=head, columns={"old name": "name", "Name": "-"})
    assert done.rows[0].name == "Ilse"
    done = reading(row, head=head, columns={"Nickname": "name"})
    assert 'no column is called "Nickname". It has "Name"' in str(done.findings[0])


def test_two_columns_that_may_be_the_score_are_asked_about() -> None:
    head = "name,lift,reps,weight,date"
    done = reading("Ilse,Front squat,3,60,2024-03-01", head=head)
    assert asked(done) == {"column:score": ("3", "4")}
    done = reading("Ilse,Front squat,3,60,2024-03-01", head=head, answers={"column:score": "4"})
    assert scores(done) == ["60 kg"]


@pytest.mark.parametrize("written", ["15", "15kg", "15,0 kg", "15.0", "15 KG"])
def test_loads_and_lengths_are_kept_as_classes_keep_them(written: str) -> None:
    head = f"{HEAD};load;work".replace(",", ";")
    row = f"Ilse;Turntable;7+1;2024-03-01;{written};600"
    done = reading(row, head=head)
    assert (done.rows[0].loads, done.rows[0].work) == ("15 kg", "10:00")


def test_a_short_bare_length_may_be_minutes() -> None:
    head, row = f"{HEAD},work", "Ilse,Turntable,7+1,2024-03-01,16"
    assert asked(reading(row, head=head)) == {"lengths": ("minutes", "seconds", "leave-out")}
    assert reading(row, head=head, answers={"lengths": "minutes"}).rows[0].work == "16:00"
    assert reading(row, head=f"{HEAD},cap (min)").rows[0].work == "16:00"


@pytest.mark.parametrize(
    ("more", "said"),
    [("heavy,", 'Write "22.5 kg"'), (",long", "Write how long it was, as in 16:00")],
)
def test_terms_that_cant_be_read_are_findings(more: str, said: str) -> None:
    done = reading(f"Ilse,Turntable,7+1,2024-03-01,{more}", head=f"{HEAD},load,work")
    assert said in str(done.findings[0])


def test_an_answer_that_nobody_asked_for_is_told() -> None:
    row = "Ilse,Turntable,7+1,2024-03-01"
    assert reading(row, answers={"days": "day-first"}).not_asked == ("days",)


# -- kinds of files ------------------------------------------------------------------

WEST = "name;benchmark;score;date\nJos\u00e9;Turntable;7+1;2024-01-01\n"


@pytest.mark.parametrize(
    ("raw", "kind"),
    [
        (WEST.encode(), "text in UTF-8, with ; between the columns"),
        (WEST.encode("utf-8-sig"), "text in UTF-8, with ; between the columns"),
        (WEST.encode("latin-1"), "text in Western European (cp1252), with ; between the columns"),
        (WEST.encode("utf-16"), "text in UTF-16, with ; between the columns"),
        (WEST.encode("utf-16-be"), "text in UTF-16, with ; between the columns"),
        (f"sep=;\r\n{WEST}".encode(), "text in UTF-8, with ; between the columns"),
        (f"SEP=;\n{WEST}".encode("utf-16"), "text in UTF-16, with ; between the columns"),
    ],
)
def test_text_is_read_in_whatever_it_was_saved(raw: bytes, kind: str) -> None:
    done = read_spreadsheet(raw, "old.csv", unit="kg", known=KNOWN, today=TODAY)
    assert (done.kind, done.rows[0].name) == (kind, "Jos\u00e9")


def test_lines_are_counted_from_the_first_of_the_file() -> None:
    raw = f"sep=;\r\n{WEST}".encode()
    done = read_spreadsheet(raw, "old.csv", unit="kg", known=KNOWN, today=TODAY)
    assert done.rows[0].line == 3


@pytest.mark.parametrize(
    ("name", "encoding"),
    [
        ("\u0141ucja", "cp1250"),
        ("S\u0142awek", "cp1250"),
        ("\u041c\u0430\u0440\u0438\u044f", "cp1251"),
    ],
)
def test_letters_that_nothing_tells_are_asked_about(name: str, encoding: str) -> None:
    raw = f"name,benchmark,score,date\n{name},Turntable,7+1,2024-01-01\n".encode(encoding)

    def read(**answers: str) -> SheetReading:
        told = Told(answers)
        return read_spreadsheet(raw, "old.csv", unit="kg", known=KNOWN, today=TODAY, told=told)

    (question,) = read().questions
    assert (question.key, question.about) == ("encoding", "line 2")
    assert name in [one.words.partition(",")[0] for one in question.choices]
    assert read(encoding=encoding).rows[0].name == name


@pytest.mark.parametrize(
    "name", ["Jos\u00e9", "Zo\u00eb", "\u00d6zge", "Bj\u00f6rn \u00c5", "O\u2019Brien"]
)
def test_names_of_the_west_are_read_without_a_question(name: str) -> None:
    raw = f"name,benchmark,score,date\n{name},Turntable,7+1,2024-01-01\n".encode("cp1252")
    done = read_spreadsheet(raw, "old.csv", unit="kg", known=KNOWN, today=TODAY)
    assert [row.name for row in done.rows] == [name]


def test_another_encoding_can_be_said() -> None:
    raw = "name,benchmark,score,date\n\u0141ucja,Turntable,7+1,2024-01-01".encode("cp1250")
    told = Told(encoding="cp1250")
    done = read_spreadsheet(raw, "old.csv", unit="kg", known=KNOWN, today=TODAY, told=told)
    assert done.rows[0].name == "\u0141ucja"
    told = Told(encoding="klingon")
    done = read_spreadsheet(raw, "old.csv", unit="kg", known=KNOWN, today=TODAY, told=told)
    assert 'no text in "klingon"' in str(done.findings[0])


@pytest.mark.parametrize("make", [xlsx, ods])
def test_a_workbook_says_numbers_times_and_days_as_they_were_typed(make: Any) -> None:
    rows = [
        ["Name", "Benchmark", "Score", "Date"],
        ["Ilse", "Front squat", 62.5, date(2024, 3, 1)],
        ["Bram", "Headway", 112, "4 March 2024"],
        ["Bram", "Turntable", "7+12", date(2024, 3, 1)],
    ]
    done = read_spreadsheet(make({"A": rows}), "old", unit="kg", known=KNOWN, today=TODAY)
    assert scores(done) == ["62.5 kg", "112 reps", "7+12"]
    assert [row.day for row in done.rows] == ["2024-03-01", "2024-03-04", "2024-03-01"]
    assert [row.line for row in done.rows] == [2, 3, 4]


@pytest.mark.parametrize("make", [xlsx, ods])
@given(cut=st.integers(min_value=0, max_value=400), at=st.integers(min_value=0))
def test_no_damaged_workbook_makes_it_fail(make: Any, cut: int, at: int) -> None:
    raw = make({"A": [["Name", "Benchmark", "Score", "Date"], ["Ilse", "Headway", 1, "1.1.2024"]]})
    place = at % len(raw)
    read_spreadsheet(raw[:place] + raw[place + cut :], "old", unit="kg", known=KNOWN, today=TODAY)


def test_five_messy_sheets_are_read_once_all_that_they_ask_is_answered() -> None:
    answers = {
        "notebook.csv": {"days": "day-first", "benchmark:front squat": "front squat"},
        "board.xlsx": {"sheet": "Records", "times": "minutes"},
        "ledger.ods": {
            **{f"column:{one}": str(n) for n, one in enumerate(("name", "benchmark"), 1)},
            "column:score": "3",
            "column:date": "4",
            "numbers:switchback": "reps",
            "lengths": "minutes",
        },
        "phone.txt": {},
        "slips.csv": {
            "name:Ilsee": "Ilse",
            "numbers:third rail": "seconds",
            "times": "minutes",
            "benchmark:turn table": "turntable",
            "far:turntable": "leave-out",
            "far:front squat": "leave-out",
        },
    }
    for file, raw in messy_sheets().items():
        needed: dict[str, str] = {}
        for _ in range(4):
            told = Told(answers=needed)
            done = read_spreadsheet(raw, file, unit="kg", known=KNOWN, today=TODAY, told=told)
            assert not done.findings
            needed |= {one.key: answers[file][one.key] for one in done.questions}
        assert not done.questions
        assert done.rows
        assert needed.keys() == answers[file].keys() - {"benchmark:front squat"}


CELLS = st.sampled_from(
    [
        *(
            "Ilse",
            "Ilsee",
            "Bram",
            "Agdaa",
            "Noor",
            "?",
            "",
            "Turntable",
            "Turn table",
            "Third Rail",
        ),
        *("7+12", "723", "12:03:00", "85", "82,5", "9999 kg", "12.03", "0", "31:20:00", "8:31"),
        *("01/02/2024", "25/12/2023", "12/25/2023", "45352", "4 March 2024", "2024-03-01", "1e9"),
        *(
            "16",
            "600",
            "3 reps",
            "22,5/15",
            "heavy",
            "=1+1",
            "'+7",
            "\u0667",
            "a\u0301",
            "\x1b[31m",
        ),
    ]
)
HEADS = st.permutations(["name", "benchmark", "Score", "When", "load", "work", "time", "Other"])


@given(HEADS, st.lists(st.lists(CELLS, min_size=6, max_size=8), max_size=6), st.randoms())
def test_whatever_is_answered_the_questions_come_to_an_end(
    head: list[str], rows: list[list[str]], chance: Any
) -> None:
    lines = [";".join(cells) for cells in (head, *rows)]
    answers: dict[str, str] = {}
    for _ in range(12):
        done = reading(*lines[1:], head=lines[0], answers=answers)
        assert not {one.key for one in done.questions} & answers.keys()
        answers |= {one.key: chance.choice(one.choices).value for one in done.questions}
        if not done.questions:
            break
    assert not done.questions
    body = [line for line in lines[1:] if line.strip("; ")]
    assert len(done.rows) + len(done.findings) + done.left_out <= max(1, len(body))
