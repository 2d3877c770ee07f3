"""What a terminal's encoding lacks comes as an escape; JSON is UTF-8 whatever the encoding is."""

import io
import json
import sys
from pathlib import Path

import pytest

from classclock.commands.command_line import main

ENCODINGS = ("cp1252", "cp437", "latin-1", "ascii")
NAMES = "Žélie, Мария, نور, Tuva 🚋"


@pytest.fixture
def taps(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(tmp_path / "depot"))
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    path = tmp_path / "taps.csv"
    path.write_text("seconds,keys\n60,z\n61,t\n", "utf-8")
    return path


def printed(encoding: str, monkeypatch: pytest.MonkeyPatch, *words: str) -> bytes:
    raw = io.BytesIO()
    with monkeypatch.context() as patch:
        patch.setattr(sys, "stdout", io.TextIOWrapper(raw, encoding))
        main(words)
        return raw.getvalue()


@pytest.mark.parametrize("encoding", ENCODINGS)
def test_every_command_prints_in_any_encoding(
    encoding: str, taps: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    rehearse = ("rehearse", "turntable", "--athletes", NAMES, "--taps", str(taps))
    for words in (("bar", "82.5"), ("check", "turntable", "--athletes", NAMES), rehearse):
        whole = printed("utf-8", monkeypatch, *words).decode()
        shown = printed(encoding, monkeypatch, *words).decode(encoding)
        # Escapes take more room, so that a table's cells are cut elsewhere: look at the first line.
        first = whole.splitlines()[0]
        assert shown.startswith(first.encode(encoding, "backslashreplace").decode(encoding))
        if words is rehearse:
            assert r"\u041c" in shown  # the first letter of Мария, which none of these has
            assert "Мария" in whole


@pytest.mark.parametrize("encoding", ENCODINGS)
def test_json_is_utf_8(encoding: str, taps: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    words = ("rehearse", "turntable", "--athletes", NAMES, "--taps", str(taps), "--json")
    document = printed(encoding, monkeypatch, *words)
    assert "Мария" in document.decode("utf-8")
    people = json.loads(document)["people"]
    assert ", ".join(person["name"] for person in people) == NAMES
