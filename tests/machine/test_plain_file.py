"""What isn't a file is refused at once: whoever reads from a pipe waits until somebody writes."""

import os
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from classclock.machine.plain_file import NoFileError, open_file, read_file, read_file_or_pipe

pytestmark = pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes here")


def test_a_file_is_read_whole_and_from_where_one_is(tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    path.write_bytes(b"title = 1\r\n\x1a" + bytes(100_000))
    assert read_file(path) == path.read_bytes()
    with open_file(path) as opened:
        assert opened.read(5) == b"title"


def test_a_pipe_or_a_device_is_no_file(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    if sys.platform == "win32":
        pytest.skip("no folder has a pipe there")
    os.mkfifo(pipe)
    for path in (pipe, Path("/dev/zero")):
        with pytest.raises(NoFileError, match="a pipe or a device, no file"):
            read_file(path)


def test_a_folder_and_what_is_missing_are_said_as_ever(tmp_path: Path) -> None:
    with pytest.raises(IsADirectoryError):
        read_file(tmp_path)
    with pytest.raises(FileNotFoundError):
        read_file(tmp_path / "missing")


def test_a_pipe_is_read_where_somebody_writes_and_no_other(tmp_path: Path) -> None:
    reading, writing = os.pipe()
    os.write(writing, b"seconds,keys\n")
    os.close(writing)
    assert read_file_or_pipe(Path(f"/dev/fd/{reading}")) == b"seconds,keys\n"
    os.close(reading)
    named = tmp_path / "taps.csv"
    if sys.platform == "win32":
        pytest.skip("no folder has a pipe there")
    os.mkfifo(named)
    with pytest.raises(NoFileError, match="into which nobody writes"):
        read_file_or_pipe(named)
    with pytest.raises(NoFileError, match="a pipe or a device, no file"):
        read_file_or_pipe(Path("/dev/zero"))


def test_a_pipe_is_waited_for_while_somebody_has_it_open(tmp_path: Path) -> None:
    reading, writing = os.pipe()

    def write() -> None:
        os.write(writing, b"1,n\n")
        os.close(writing)

    with ThreadPoolExecutor() as pool:
        read = pool.submit(read_file_or_pipe, Path(f"/dev/fd/{reading}"))
        pool.submit(write)
        assert read.result(timeout=10) == b"1,n\n"
    os.close(reading)
