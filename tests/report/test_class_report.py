"""A class's report, to print and to send."""

import json
import re
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.book.files.saved_results import read_results
from classclock.commands.command_line import main
from classclock.plan.care import AFTER_A_CLASS, STOP
from classclock.records.bests import standing
from classclock.records.class_entries import read_class
from classclock.records.document import ResultsDocument, plain_values
from classclock.report.class_html import class_html
from classclock.report.class_layout import class_layout, parts_of
from classclock.report.class_report import ClassReport, LaneLine, PieceReport, class_report
from classclock.report.class_text import class_lines
from classclock.report.paper import ems
from tests.report.printed import Printed, needs_a_printer

SCORES = ("12+3", "10:31", "112.5 kg", "none made")
CAUTION = "Step down from the box, don't jump."


@pytest.fixture
def held(depot: Any) -> ResultsDocument:
    lanes = [
        depot.rounds("Noor", 8, 3, rank=1, each=110),
        depot.rounds("Ilse", 7, 12, rank=2, modification="step-up", note="corrected: <b>x</b>"),
        depot.rounds("Bram", 3, 0, rank=None, status="stopped"),
        depot.rounds("Tuva", 0, 0, rank=None, status="absent"),
    ]
    squats = depot.squats(depot.lifted("Noor", "60 kg", "70 kg", "/80 kg"))
    document: ResultsDocument = depot.document(
        "2026-11-24", squats, depot.turntable(*lanes, caution=[CAUTION]), title="Turntable Tuesday"
    )
    return document


def test_the_text_is_short_enough_for_a_message(depot: Any, held: ResultsDocument) -> None:
    before = read_class(depot.document("2026-10-02", depot.turntable(depot.rounds("Noor", 7, 12))))
    now = next(entry for entry in read_class(held).entries if entry.piece == 1)
    standings = {(1, 0): standing(now.result, [before.entries[0].result])}
    assert class_lines(class_report(held, standings)) == (
        "Turntable Tuesday",
        "Tuesday 24 November 2026, 18:30",
        "",
        "Strength, intervals, 12:30",
        "1. Noor 70 kg",
        "",
        "Turntable, rounds and reps in 16:00",
        "1. Noor 8+3, new best, before 7+12",
        "2. Ilse 7+12 (step-up)",
        "- Bram 3+0 (stopped early)",
        "",
        *AFTER_A_CLASS,
    )


def test_a_piece_that_was_made_shorter_says_what_was_planned(depot: Any) -> None:
    fitted = {"length_s": 480, "planned_s": 720}
    cut = depot.third_rail(depot.timed("Noor", "60 reps"), **fitted)
    (_, _, _, heading, *_) = class_lines(class_report(depot.document("2026-11-24", cut)))
    assert heading == "Third Rail, for time, cap 8:00 of 12:00 planned"


def test_a_ribbon_stands_along_the_time_of_the_piece(held: ResultsDocument) -> None:
    ribbon = class_report(held).pieces[1].lanes[0].ribbon
    assert ribbon is not None
    assert ribbon.length == 960
    assert ribbon.rounds[0] == (0, 110)
    assert ribbon.rounds[-1] == (770, 880)
    assert ribbon.going == (880, 960)


def test_a_round_whose_moment_is_not_known_ends_the_ribbon(depot: Any) -> None:
    lane = depot.rounds("Ilse", 3, splits=[60, None, 60])
    report = class_report(depot.document("2026-11-24", depot.turntable(lane)))
    ribbon = report.pieces[0].lanes[0].ribbon
    assert ribbon is not None
    assert (ribbon.rounds, ribbon.going) == (((0, 60),), None)


def test_loads_tried_are_said_once_with_their_unit(depot: Any) -> None:
    same = depot.lifted("Ilse", "60 kg", "70 kg", "/80 kg")
    mixed = depot.lifted("Bram", "60 kg", "135 lb")
    report = class_report(depot.document("2026-11-24", depot.squats(same, mixed)))
    assert [lane.tried for lane in report.pieces[0].lanes] == [
        "60, 70; missed 80",
        "60 kg, 135 lb",
    ]


# -- the page --------------------------------------------------------------------------


def test_the_page_shows_scores_ribbons_and_cautions(held: ResultsDocument) -> None:
    html = class_html(class_report(held)).decode()
    assert CAUTION.replace("'", "&#39;") in html
    assert html.count("<svg") == 3
    assert "8 rounds: 1:50, 1:50" in html
    assert "Tuva" not in html  # absent


def test_text_and_page_say_what_is_an_emergency_and_then_when_to_rest(
    held: ResultsDocument,
) -> None:
    # Common practice, no source.
    emergency, rest = AFTER_A_CLASS
    for sign in ("Chest pain", "fainting", "dark urine"):
        assert sign in emergency
    assert "rest, and ask your doctor" in rest
    html = class_html(class_report(held)).decode()
    assert html.index(emergency) < html.index(rest)


def test_a_caution_of_several_pieces_stands_once_at_the_first(depot: Any) -> None:
    first = depot.squats(depot.lifted("Noor", "60 kg"), caution=[STOP, "Nobody walks behind."])
    second = depot.turntable(depot.rounds("Noor", 8), caution=[STOP, CAUTION])
    report = class_report(depot.document("2026-11-24", first, second))
    assert [piece.caution for piece in report.pieces] == [
        (STOP, "Nobody walks behind."),
        (CAUTION,),
    ]


def test_the_page_asks_nothing_of_any_address_and_runs_nothing(held: ResultsDocument) -> None:
    html = class_html(class_report(held)).decode()
    assert not re.findall(r"https?:|//|url\(|@import|<script|<link|<img|<iframe", html)


def test_no_mark_reason_or_markup_of_a_name_stands_in_the_page(
    held: ResultsDocument, tmp_path: Path
) -> None:
    values = json.loads(json.dumps(plain_values(held)))
    values["pieces"][1]["lanes"][0]["athlete"] = "<img src=x>\u202eNoor"
    values["people"][0]["marks"] = ["under 18"]
    path = tmp_path / "strange.json"
    path.write_text(json.dumps(values), "utf-8")
    html = class_html(class_report(read_results(path))).decode()
    assert "<img" not in html
    assert "&lt;img src=x&gt;\\u202eNoor" in html
    assert "under 18" not in html
    assert "corrected" not in html


def crowd(depot: Any, pieces: int) -> ResultsDocument:
    """The most people that a class has, in some pieces, each with long words."""
    names = [f"Saoirse-Marie {letter}" for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZ"]
    made = [
        depot.turntable(
            *(depot.rounds(name, 8, 3, modification="step-up, seated press") for name in names),
            caution=[STOP, f"{number}: {CAUTION}"],
        )
        for number in range(pieces)
    ]
    document: ResultsDocument = depot.document("2026-11-24", *made)
    return document


TIDY = shutil.which("tidy")


@pytest.mark.skipif(TIDY is None, reason="Debian's tidy isn't installed")
@pytest.mark.parametrize("pieces", [0, 1, 3])
def test_a_validator_finds_no_fault_in_the_page(depot: Any, tmp_path: Path, pieces: int) -> None:
    # HTML Tidy 5: exit status 0 is no error and no warning.
    path = tmp_path / "report.html"
    path.write_bytes(class_html(class_report(crowd(depot, pieces), club="Line 0 Depot")))
    done = subprocess.run(
        [str(TIDY), "-e", "-q", str(path)], capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stderr) == (0, "")


# ISO 216: A4 is 210 mm x 297 mm, in points of 1/72 inch 595.28 x 841.89.
UPRIGHT = (595, 842)


@needs_a_printer
@pytest.mark.parametrize("pieces", [1, 2, 3])
def test_the_page_prints_on_one_sheet_of_a4(depot: Any, tmp_path: Path, pieces: int) -> None:
    html = class_html(class_report(crowd(depot, pieces), club="Line 0 Depot"))
    printed = Printed(html, tmp_path)
    assert (len(printed.sheets), printed.size) == (1, UPRIGHT)


TWELVE = (
    *("Noor", "Ilse", "Bram", "Tuva", "Nadia", "Wilhelmina", "Saoirse-Marie O'Brien", "Jo"),
    *("Pavel", "Roberta", "Casimir", "Maximiliana"),
)


def class_of_twelve(depot: Any, pieces: int) -> ResultsDocument:
    """A strength piece, rounds, a time, pairs and reps, with all that can be said of a lane."""
    lifted = [
        depot.lifted(name, f"{42.5 + number} kg", f"{102.5 + number} kg", "/120 kg")
        for number, name in enumerate(TWELVE)
    ]
    rounds = [depot.rounds(name, 8, 12, modification="step-up, seated press") for name in TWELVE]
    timed = [depot.timed(name, "10:31", status="stopped") for name in TWELVE]
    pairs = [
        depot.rounds(f"{one} + {other}", 6)
        for one, other in zip(TWELVE[::2], TWELVE[1::2], strict=True)
    ]
    made = (
        depot.squats(*lifted, caution=[STOP]),
        depot.turntable(*rounds, caution=[STOP, CAUTION]),
        depot.third_rail(*timed),
        depot.piece("Interchange", "rounds-in-time", pairs),
        depot.piece("Signals", "interval", [depot.reps(name, 108) for name in TWELVE]),
    )
    document: ResultsDocument = depot.document("2026-11-24", *made[:pieces])
    return document


@needs_a_printer
@pytest.mark.parametrize("pieces", [1, 3, 5])
def test_a_class_of_twelve_is_one_sheet_with_every_name_and_score_whole(
    depot: Any, tmp_path: Path, pieces: int
) -> None:
    report = class_report(class_of_twelve(depot, pieces), club="Line 0 Depot")
    printed = Printed(class_html(report), tmp_path)
    assert (len(printed.sheets), printed.size) == (1, UPRIGHT)
    (sheet,) = printed.sheets
    assert "…" not in sheet
    for piece in report.pieces:
        for lane in piece.lanes:
            for part in parts_of(lane.name):
                assert part in sheet
            assert lane.score in sheet
    assert sheet.index(TWELVE[-1]) < sheet.index(STOP)


@needs_a_printer
def test_more_than_a_sheet_holds_goes_on_with_whole_pieces(depot: Any, tmp_path: Path) -> None:
    report = class_report(crowd(depot, 5))
    first, second = Printed(class_html(report), tmp_path).sheets
    last = "Saoirse-Marie Z"
    assert first.count(last) + second.count(last) == 5
    for sheet in (first, second):
        assert sheet.count(last) == sheet.count("rounds and reps in 16:00")


@given(
    st.lists(
        st.lists(
            st.tuples(st.text("aWi é+-", min_size=1, max_size=50), st.sampled_from(SCORES)),
            max_size=26,
        ),
        max_size=6,
    )
)
def test_names_are_larger_than_headings_and_words_beside_them(
    pieces: list[list[tuple[str, str]]],
) -> None:
    lanes = [
        tuple(LaneLine(1, name, score, "step-up", "", None, None, "") for name, score in piece)
        for piece in pieces
    ]
    report = ClassReport(
        "Tuesday",
        "24 November",
        "",
        tuple(
            PieceReport("Turntable", "", provisional=False, caution=(), lanes=one) for one in lanes
        ),
    )
    layout = class_layout(report, lambda lane, _: lane.modification)
    assert layout.size >= 8.5
    for other in (layout.title, layout.piece, layout.aside):
        assert other < layout.size
    for score in {score for piece in pieces for _, score in piece}:
        assert layout.score > ems(score)


# -- the command -----------------------------------------------------------------------


@pytest.fixture
def club(depot: Any, monkeypatch: pytest.MonkeyPatch) -> Any:
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(depot.folder))
    return depot


def test_the_latest_class_is_reported_with_what_the_book_knows(
    club: Any, held: ResultsDocument, capsys: Any, tmp_path: Path
) -> None:
    club.held("2026-10-02", club.turntable(club.rounds("Noor", 7, 12)))
    club.save(held)
    assert main(["report"]) == 0
    assert "1. Noor 8+3, new best, before 7+12" in capsys.readouterr().out
    page = tmp_path / "report.html"
    assert main(["report", "--html", str(page)]) == 0
    assert "new best: 18 reps more than 7+12 of 2 October 2026" in page.read_text("utf-8")


def test_an_earlier_class_is_reported_as_it_stood_then(
    club: Any, held: ResultsDocument, capsys: Any
) -> None:
    path = club.held("2026-10-02", club.turntable(club.rounds("Noor", 7, 12)))
    club.save(held)
    assert main(["report", str(path)]) == 0
    assert "1. Noor 7+12, first time" in capsys.readouterr().out


def test_without_its_book_a_class_is_still_reported(
    club: Any, held: ResultsDocument, capsys: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    club.save(held)
    monkeypatch.setenv("CLASSCLOCK_BOOK", "postgresql+psycopg://coach@127.0.0.1:1/depot")
    assert main(["report"]) == 0
    shown = capsys.readouterr()
    assert "1. Noor 8+3" in shown.out
    assert "the report says nothing of bests this time" in shown.err


def test_a_file_that_is_no_results_file_is_said(club: Any, capsys: Any, tmp_path: Path) -> None:
    wrong = tmp_path / "wrong.json"
    document = club.values("2026-11-24", club.turntable(club.rounds("Noor", 8)))
    del document["pieces"][0]["lanes"][0]["splits"]
    for text, said in (("{}", "no results file"), (json.dumps(document), "damaged: 'splits'")):
        wrong.write_text(text, "utf-8")
        assert main(["report", str(wrong)]) == 1
        assert said in capsys.readouterr().err
    assert main(["report"]) == 1
    assert "no results in" in capsys.readouterr().err
