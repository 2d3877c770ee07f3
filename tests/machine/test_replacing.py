"""A file put in another's place while somebody reads it, which Windows refuses."""

import time
from pathlib import Path
from typing import Any

import pytest

from classclock.machine import replacing
from classclock.machine.whole_file import write_whole
from tests.machine.elsewhere import as_on


class Reader:
    """Somebody who has the file open for so many tries."""

    def __init__(self, patch: pytest.MonkeyPatch, tries: int) -> None:
        self.left = tries
        self.waited_s = 0.0
        replace, unlink = Path.replace, Path.unlink

        def refused(act: Any) -> Any:
            def acting(path: Path, *arguments: Any, **named: Any) -> Any:
                if self.left:
                    self.left -= 1
                    raise PermissionError(13, "it is being used by another process")
                return act(path, *arguments, **named)

            return acting

        patch.setattr(Path, "replace", refused(replace))
        patch.setattr(Path, "unlink", refused(unlink))
        patch.setattr(time, "sleep", self._wait)

    def _wait(self, seconds: float) -> None:
        self.waited_s += seconds


@pytest.fixture
def windows(monkeypatch: pytest.MonkeyPatch) -> Any:
    return as_on("win32", replacing.__name__, monkeypatch)


def test_a_new_file_takes_the_other_s_place(tmp_path: Path) -> None:
    new, old = tmp_path / "new", tmp_path / "old"
    new.write_text("new")
    old.write_text("old")
    replacing.put_in_place(new, old)
    assert old.read_text() == "new"
    assert not new.exists()
    replacing.take_away(old)
    replacing.take_away(old)
    assert not old.exists()


@pytest.mark.parametrize("act", ["put_in_place", "take_away"])
def test_windows_is_asked_again_until_the_reader_has_closed_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, windows: Any, act: str
) -> None:
    new, old = tmp_path / "new", tmp_path / "old"
    new.write_text("new")
    old.write_text("old")
    reader = Reader(monkeypatch, 40)
    if act == "put_in_place":
        windows.put_in_place(new, old)
        assert old.read_text() == "new"
    else:
        windows.take_away(old)
        assert not old.exists()
    assert reader.waited_s > 0


def test_windows_is_asked_for_two_seconds_and_then_the_error_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, windows: Any
) -> None:
    path = tmp_path / "old"
    path.write_text("old")
    reader = Reader(monkeypatch, 1_000_000)
    with pytest.raises(PermissionError, match="another process"):
        windows.take_away(path)
    assert 1.5 < reader.waited_s <= 2
    reader.left = 0
    assert path.read_text() == "old"


def test_other_errors_and_other_systems_are_not_asked_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, windows: Any
) -> None:
    reader = Reader(monkeypatch, 0)
    with pytest.raises(FileNotFoundError):
        windows.put_in_place(tmp_path / "missing", tmp_path / "old")
    reader.left = 1
    with pytest.raises(PermissionError):
        replacing.take_away(tmp_path / "old")
    assert reader.waited_s == 0


def test_a_save_that_a_reader_keeps_out_leaves_what_stood_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "results.json"
    write_whole(path, b"before")
    Reader(monkeypatch, 1)
    with pytest.raises(PermissionError):
        write_whole(path, b"after")
    assert path.read_bytes() == b"before"
    assert [one.name for one in tmp_path.iterdir()] == ["results.json"]
