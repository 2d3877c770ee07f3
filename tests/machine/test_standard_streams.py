"""What is said comes out whole: in any encoding, on a full disk, to somebody who stops reading."""

import io
import json
import os
import shutil
import subprocess
import sys
from contextlib import redirect_stdout
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.machine.standard_streams import (
    OutputLostError,
    all_said,
    lose_no_sign,
    say,
    say_document,
    say_wrong,
)

BASH = shutil.which("bash") or pytest.skip("no bash", allow_module_level=True)


def said(encoding: str, *lines: str, monkeypatch: pytest.MonkeyPatch) -> bytes:
    raw = io.BytesIO()
    with monkeypatch.context() as patch:
        patch.setattr(sys, "stdout", io.TextIOWrapper(raw, encoding, newline="\n"))
        lose_no_sign()
        say(*lines)
        say_document(json.dumps(lines, ensure_ascii=False))
        return raw.getvalue()


@pytest.mark.parametrize("encoding", ["cp1252", "cp437", "latin-1", "ascii", "utf-8"])
@given(text=st.text(st.characters(exclude_characters="\\", exclude_categories=["Cs"]), max_size=20))
def test_what_an_encoding_lacks_is_an_escape_and_documents_are_utf_8(
    encoding: str, text: str
) -> None:
    with pytest.MonkeyPatch.context() as monkeypatch:
        line, document, _ = said(encoding, text, monkeypatch=monkeypatch).split(b"\n")
    assert json.loads(document.decode("utf-8")) == [text]
    # Python's own escapes (Language Reference, 2.5.1), read back by its own codec.
    shown = line.decode(encoding).encode("ascii", "backslashreplace").decode("unicode_escape")
    plain = text.encode("ascii", "backslashreplace").decode("unicode_escape")
    assert shown == plain


def test_a_line_break_within_a_line_is_an_escape(capsys: pytest.CaptureFixture[str]) -> None:
    say("Noor\n\x1b[2J", "Bram")
    say_wrong("Ilse\r\n")
    assert capsys.readouterr() == ("Noor\\n\\x1b[2J\nBram\n", "Ilse\\r\\n\n")


def test_whoever_collects_the_text_gets_documents_too() -> None:
    with redirect_stdout(io.StringIO()) as collected:
        say("Noor")
        say_document('["Ž\\u0085"]')
    assert collected.getvalue() == 'Noor\n["Ž\\u0085"]\n'


def test_output_that_was_closed_from_the_start_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdout", None)
    all_said()  # nothing was to be said
    with pytest.raises(OutputLostError, match="it is closed"):
        say("Noor")


def ends(command: str, tmp_path: Path) -> tuple[int, str, str]:
    """What a shell line with classclock in it comes to; `$?` of the program in its last word."""
    line = command.replace("classclock", f"{sys.executable} -m classclock")
    environment = {**os.environ, "CLASSCLOCK_CLUB": str(tmp_path / "depot")}
    done = subprocess.run(
        [BASH, "-c", f"{line}; exit ${{PIPESTATUS[0]}}"],
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
        env=environment,
        cwd=tmp_path,
    )
    return done.returncode, done.stdout, done.stderr


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full")
@pytest.mark.parametrize("command", ["bar 80", "bar 80 --json", "check turntable", "--help"])
def test_a_full_disk_is_one_sentence(command: str, tmp_path: Path) -> None:
    status, _, err = ends(f"classclock {command} >/dev/full", tmp_path)
    assert (status, err.count("\n")) == (1, 1)
    assert err.startswith("standard output can't be written to (No space left on device)")


def test_closed_output_is_one_sentence(tmp_path: Path) -> None:
    status, _, err = ends("classclock bar 80 >&-", tmp_path)
    assert (status, err.count("\n")) == (1, 1)
    assert err.startswith("standard output can't be written to (it is closed)")


def test_a_reader_who_stops_changes_neither_the_status_nor_what_is_done(tmp_path: Path) -> None:
    # 83 kg can't be loaded: status 1, whoever reads how much of it.
    assert ends("classclock bar 83 | true", tmp_path) == (1, "", "")
    assert ends("classclock bar 80 | true", tmp_path) == (0, "", "")
    status, out, err = ends("classclock bar 83 | head -1", tmp_path)
    assert (status, out.count("\n"), err) == (1, 1, "")
