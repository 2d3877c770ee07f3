"""Whatever a sheet holds, its questions come to an end, and answers are kept to."""

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from classclock.book.importing.spreadsheet import Told, read_spreadsheet
from tests.book.importing.messy_sheets import messy_sheets
from tests.book.importing.read_sheets import KNOWN, TODAY, reading


def test_an_answer_that_nobody_asked_for_is_told() -> None:
    row = "Ilse,Turntable,7+1,2024-03-01"
    assert reading(row, answers={"days": "day-first"}).not_asked == ("days",)


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
