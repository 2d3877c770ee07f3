"""Notes, holds and accidents of a class that was really held, and who may read them."""

import json
from pathlib import Path
from typing import Any

import pytest

from classclock.book.files.journal import read_journal
from classclock.commands.command_line import main
from classclock.live.replaying import replayed
from classclock.report.happenings_text import LOCAL_RULES
from classclock.screens.live.class_actions import note, note_emergency, take_in
from classclock.tally import events as ev
from classclock.tally.notes import typed_note

HOSTILE = "[red]\x1b[2J=cmd()<script>"


@pytest.fixture
def held(coach: Any, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Any:
    """A class with a hold, an accident and two notes; 18:30 is its first minute."""
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(tmp_path))
    (tmp_path / "club.toml").write_text(
        'name = "Depot"\n[emergency]\naddress = "0 Points Row"\n', "utf-8"
    )
    jot(coach, "the heater is out: cold")
    coach.start()
    coach.wind(60)
    coach.type("<enter>")
    coach.start()
    coach.wind(252)
    coach.type("nib<space>")
    note_emergency(coach.session, "Noor, ankle, ice, 18:36")
    coach.wind(65)
    coach.type("<space>")
    coach.wind(60)
    jot(coach, "n: left knee, stopped")
    coach.wind(700)
    coach.type("4n4i4b")
    jot(coach, "Noor: walks home with Ilse")
    for _ in range(2):
        coach.wind(2)
        coach.type("<enter>")
    coach.session.save()
    return coach


def jot(coach: Any, line: str) -> None:
    typed = typed_note(line, coach.session.live.record.people)
    outcome = note(coach.session, typed.text, typed.about.id if typed.about else None)
    assert outcome.text == "noted in the class's journal, nowhere else"


def said(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str]:
    capsys.readouterr()
    status = main(words)
    out = capsys.readouterr()
    return status, out.out + out.err


def test_the_command_tells_what_happened_and_when(held: Any, capsys: Any) -> None:
    status, words = said(capsys, "notes")
    assert status == 0
    assert words.split("\n") == [
        "Depot Tuesday",
        "24 November 2026, 18:30, Depot, 0 Points Row",
        "",
        "Accidents",
        "  18:35:36  Noor, ankle, ice, 18:36  (Turntable, 4:12)",
        "",
        "The clock was held",
        "  18:35:36  to 18:36:41, 1:05  (Turntable, 4:12)",
        "",
        "Notes",
        "  18:30:00  the heater is out: cold  (Warm-up, before its start)",
        "  18:37:41  Noor: left knee, stopped  (Turntable, 5:12)",
        "  18:49:21  Noor: walks home with Ilse  (Turntable, after its end)",
        "",
        LOCAL_RULES,
        "",
    ]


def test_its_json_and_its_page_say_the_same(held: Any, capsys: Any, tmp_path: Path) -> None:
    _, printed = said(capsys, "notes", "--json")
    told = json.loads(printed)
    assert [(one["kind"], one["text"]) for one in told["happened"]] == [
        ("note", "the heater is out: cold"),
        ("hold", "to 18:36:41, 1:05"),
        ("accident", "Noor, ankle, ice, 18:36"),
        ("note", "Noor: left knee, stopped"),
        ("note", "Noor: walks home with Ilse"),
    ]
    page = tmp_path / "file.html"
    assert said(capsys, "notes", "--html", str(page)) == (0, f"{page}\n")
    html = page.read_text("utf-8")
    for word in ("18:35:36", "Noor, ankle, ice", "Turntable, 4:12", "Who saw it", "0 Points Row"):
        assert word in html


def test_a_report_has_notes_only_where_the_coach_says_so(
    held: Any, capsys: Any, tmp_path: Path
) -> None:
    page = tmp_path / "tonight.html"
    for plain in (["--text"], ["--json"], ["--html", str(page)]):
        _, words = said(capsys, "report", *plain)
        words += page.read_text("utf-8") if page.exists() else ""
        assert "knee" not in words
        assert "heater" not in words
        assert '"notes"' not in words
        assert "Notes" not in words
    _, words = said(capsys, "report", "--text", "--notes", "--html", str(page))
    for line in ("the heater is out: cold", "Noor: left knee, stopped"):
        assert line in words
        assert line in page.read_text("utf-8")
    assert "ankle" not in words + page.read_text("utf-8")
    assert "knee" in said(capsys, "report", "--notes", "--json")[1]


@pytest.mark.parametrize("words", [["results"], ["chart"], ["athlete", "Noor"], ["report"]])
def test_nothing_else_says_them(held: Any, capsys: Any, words: list[str]) -> None:
    for more in ([], ["--json"]):
        told = said(capsys, *words, *more)[1]
        assert "knee" not in told
        assert "ankle" not in told
        assert "heater" not in told


def test_notes_change_nothing_that_is_counted(held: Any, capsys: Any) -> None:
    journal = read_journal(held.session.journal.path)
    assert replayed(journal) == held.session.live.record
    assert sum(isinstance(event, ev.Noted) for event in journal.events) == 3
    assert "The same as saved" in said(capsys, "replay", str(journal.path))[1]


def test_what_was_noted_of_somebody_is_erased_with_them(
    held: Any, capsys: Any, tmp_path: Path
) -> None:
    page = tmp_path / "file.html"
    said(capsys, "notes", "--html", str(page))
    held.session.close()
    assert said(capsys, "book", "erase", "Noor", "--yes")[0] == 0
    assert not page.exists()
    told = said(capsys, "notes")[1]
    for word in ("Noor", "knee", "walks"):
        assert word not in told
        assert word not in held.session.journal.path.read_text("utf-8")
    assert "the heater is out: cold" in told
    assert "  erased, ankle, ice, 18:36  " in told
    assert "The same as saved" in said(capsys, "replay", str(held.session.journal.path))[1]


def test_a_visitors_note_bears_the_name_that_they_got(
    coach: Any, capsys: Any, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(tmp_path))
    take_in(coach.session, "?")
    jot(coach, "visitor 1: first time on the rower")
    take_in(coach.session, "visitor 1 = Anna")
    assert "Anna: first time on the rower" in said(capsys, "notes")[1]


def test_hostile_text_comes_out_as_text(
    coach: Any, capsys: Any, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(tmp_path))
    note(coach.session, HOSTILE, None)
    note_emergency(coach.session, HOSTILE)
    page = tmp_path / "file.html"
    for words in (said(capsys, "notes")[1], said(capsys, "notes", "--json")[1]):
        assert "\x1b" not in words
        assert "[red]" in words
    said(capsys, "notes", "--html", str(page))
    assert b"<script>" not in page.read_bytes()
    assert b"&lt;script&gt;" in page.read_bytes()
    assert b"\x1b" not in page.read_bytes()


def test_every_end_of_a_hold_is_said(
    coach: Any, capsys: Any, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(tmp_path))
    coach.start()
    for keys in ("<ctrl+r>", "=", "<enter>"):
        coach.wind(10)
        coach.type("<space>")
        coach.wind(5)
        coach.type(keys)
        if keys == "=":
            coach.wind(2)
            coach.type("=")
        if keys == "<ctrl+r>":
            coach.start()
    told = said(capsys, "notes")[1]
    assert told.count("0:05; a false start, begun anew") == 1
    assert told.count("0:07; taken back, as if it had never been held") == 1
    assert told.count("0:05; ended there") == 1


def test_a_hold_that_goes_on_and_a_class_without_any(
    coach: Any, capsys: Any, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(tmp_path))
    assert "Nothing was noted, and the clock was never held." in said(capsys, "notes")[1]
    coach.start()
    coach.wind(5)
    coach.type("<space>")
    assert "until the journal ends  (Warm-up, 0:05)" in said(capsys, "notes")[1]


def test_a_journal_that_cant_be_read_is_said(capsys: Any, tmp_path: Path) -> None:
    status, words = said(capsys, "notes", "--club", str(tmp_path))
    assert (status, words) == (
        1,
        f"no journals in {tmp_path / 'journals'} yet: every class keeps one there\n",
    )
    status, words = said(capsys, "notes", str(tmp_path / "none.jsonl"))
    assert status == 1
    assert "this journal can't be read" in words
    (tmp_path / "half.jsonl").write_text("nonsense\n{}\n", "utf-8")
    assert said(capsys, "notes", str(tmp_path / "half.jsonl"))[0] == 1
