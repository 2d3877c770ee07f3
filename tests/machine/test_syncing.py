"""Which order each system is given, so that what was written outlasts a power cut.

macOS: its manual page of fsync(2): "fsync() will flush all data from the host to the drive …, the
drive itself may not physically write the data to the platters for quite some time", and F_FULLFSYNC
asks it to. Windows: Python's documentation of os.fsync names _commit().
"""

import errno
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from classclock.machine import syncing
from tests.machine.elsewhere import as_on, module_of

FULL = 51
"""F_FULLFSYNC in macOS's <sys/fcntl.h>."""


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What the system was asked for, in order."""
    said: list[str] = []

    def saying(name: str) -> Callable[[int], None]:
        return lambda file: said.append(f"{name} {_kind(file)}")

    monkeypatch.setattr(os, "fsync", saying("fsync"))
    monkeypatch.setattr(os, "fdatasync", saying("fdatasync"))
    return said


def _kind(file: int) -> str:
    return "folder" if Path(f"/dev/fd/{file}").is_dir() else "file"


def macos(monkeypatch: pytest.MonkeyPatch, said: list[str], refusing: int = 0) -> Any:
    def fcntl(file: int, order: int) -> None:
        assert order == FULL
        if refusing:
            raise OSError(refusing, os.strerror(refusing))
        said.append(f"full {_kind(file)}")

    monkeypatch.delattr(os, "fdatasync")
    stand_in = module_of("fcntl", fcntl=fcntl, F_FULLFSYNC=FULL)
    return as_on("darwin", syncing.__name__, monkeypatch, fcntl=stand_in)


def _both(module: Any, folder: Path) -> None:
    with (folder / "journal").open("wb") as file:
        module.sync(file.fileno())


def test_linux_syncs_the_file_s_bytes_and_the_folder_s_names(
    tmp_path: Path, asked: list[str]
) -> None:
    _both(syncing, tmp_path)
    syncing.sync_folder(tmp_path)
    assert asked == ["fdatasync file", "fsync folder"]


def test_macos_is_asked_to_empty_the_disk_s_own_memory(
    tmp_path: Path, asked: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    _both(macos(monkeypatch, asked), tmp_path)
    assert asked == ["full file"]


@pytest.mark.parametrize("number", [errno.ENOTSUP, errno.ENOTTY, errno.EINVAL])
def test_macos_falls_back_where_the_file_system_can_t(
    tmp_path: Path, asked: list[str], monkeypatch: pytest.MonkeyPatch, number: int
) -> None:
    _both(macos(monkeypatch, asked, number), tmp_path)
    assert asked == ["fsync file"]


@pytest.mark.parametrize("number", [errno.EIO, errno.ENOSPC])
def test_macos_hides_no_disk_that_fails(
    tmp_path: Path, asked: list[str], monkeypatch: pytest.MonkeyPatch, number: int
) -> None:
    with pytest.raises(OSError, match=os.strerror(number)):
        _both(macos(monkeypatch, asked, number), tmp_path)
    assert asked == []


def test_windows_syncs_files_alone_and_opens_no_folder(
    tmp_path: Path, asked: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delattr(os, "fdatasync")
    _both(as_on("win32", syncing.__name__, monkeypatch), tmp_path)
    assert asked == ["fsync file"]
