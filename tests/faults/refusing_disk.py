"""A disk that refuses whatever is written into one folder, for as long as it is told to."""

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

_BY_DESCRIPTOR = ("write", "fsync", "fdatasync", "ftruncate")
_BY_NAME = ("replace", "rename")


class RefusingDisk:
    def __init__(self, folder: Path, patch: pytest.MonkeyPatch) -> None:
        self._folder = str(folder)
        self._number = 0
        self.refused = 0
        """How many calls were refused."""
        for call in _BY_DESCRIPTOR:
            patch.setattr(os, call, self._guarded(getattr(os, call), self._of_descriptor))
        for call in _BY_NAME:
            patch.setattr(os, call, self._guarded(getattr(os, call), self._of_name))
        patch.setattr(os, "open", self._guarded(os.open, self._made))

    def refuse(self, number: int) -> None:
        """From now on answer with this error."""
        self._number = number

    def mend(self) -> None:
        self._number = 0

    def _guarded(self, real: Callable[..., Any], path_of: Callable[..., str]) -> Callable[..., Any]:
        def call(first: Any, *others: Any, **named: Any) -> Any:
            if self._number and path_of(first, *others[:1]).startswith(self._folder):
                self.refused += 1
                raise OSError(self._number, os.strerror(self._number))
            return real(first, *others, **named)

        return call

    @staticmethod
    def _of_descriptor(file: int, *_: object) -> str:
        return str(Path(f"/proc/self/fd/{file}").readlink())

    @staticmethod
    def _of_name(path: Any, *_: object) -> str:
        return str(path)

    @staticmethod
    def _made(path: Any, flags: int = 0) -> str:
        """Only what is to be made: files that are there can be read."""
        return str(path) if flags & os.O_CREAT else ""
