"""A mutant put into a copy of the tree, and the tests of its room run against it."""

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import count
from pathlib import Path
from typing import Literal, get_args

from classclock.clock.source import raw_now
from tests.mutants.mutant import Mutant
from tests.signals import end_all

Fate = Literal["killed", "timed out", "survived"]
FATES: tuple[Fate, ...] = get_args(Fate)
_LEAVE_OUT = shutil.ignore_patterns(".*", "__pycache__", "build", "dist")
_PATIENCE, _AT_LEAST = 4, 10
"""How many times as long as without a mutant its tests may take, and seconds that it may anyway."""


_ASKS_A_TYPE_CHECKER = (
    "tests/tally/test_nothing_falls_through.py"
    "::test_one_more_in_a_union_is_not_typed_until_each_of_its_rules_is_written"
)
"""It takes as long as all others together, and sees what isn't typed, not what is wrong."""


class FailsAnywayError(Exception):
    """The tests of a room fail without a mutant too."""


class Copy:
    """A copy of the tree, for one mutant at a time."""

    def __init__(self, tree: Path, folder: Path) -> None:
        self.root = folder
        shutil.copytree(tree, folder, ignore=_LEAVE_OUT)
        self._times = count(1)
        self._limits: dict[str, float] = {}

    def fate(self, mutant: Mutant) -> Fate:
        """What becomes of it.

        Raises:
            FailsAnywayError: its room's tests fail without it too.
        """
        limit = self._limit(mutant.room)
        with self._mutated(mutant):
            passed = self._passes(mutant.room, limit)
        if passed is None:
            return "timed out"
        return "survived" if passed else "killed"

    def _limit(self, room: str) -> float:
        if room not in self._limits:
            began = raw_now()
            if not self._passes(room, None):
                raise FailsAnywayError(f"tests/{room} fails as it is: mend that first")
            self._limits[room] = _AT_LEAST + _PATIENCE * (raw_now() - began) / 1e9
        return self._limits[room]

    @contextmanager
    def _mutated(self, mutant: Mutant) -> Iterator[None]:
        path = self.root / mutant.path
        stat = path.stat()
        path.write_bytes(mutant.applied)
        # Python takes compiled code for the source's by second and size, which may both be alike.
        at = int(stat.st_mtime) - next(self._times)
        os.utime(path, (at, at))
        try:
            yield
        finally:
            path.write_bytes(mutant.source)
            os.utime(path, ns=(stat.st_atime_ns, stat.st_mtime_ns))

    def _passes(self, room: str, limit: float | None) -> bool | None:
        """Whether the room's tests pass; None if they aren't through within so many seconds."""
        process = subprocess.Popen(
            [
                *(sys.executable, "-m", "pytest", f"tests/{room}", "-x", "-q"),
                *("--deselect", _ASKS_A_TYPE_CHECKER),
                *("-p", "tests.mutants.steady", "-p", "no:cacheprovider", "-m", "not real_time"),
            ],
            cwd=self.root,
            env={**os.environ, "PYTHONPATH": str(self.root)},
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
        try:
            return process.wait(limit) == 0
        except subprocess.TimeoutExpired:
            return None
        finally:
            if process.poll() is None:
                end_all(process.pid)
                process.wait()
