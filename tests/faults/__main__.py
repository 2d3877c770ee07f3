"""Every fault as often as it takes to believe it, and a table of what was seen.

`python -m tests.faults [PERCENT] [pytest's own options]`: the whole takes about half an hour;
PERCENT of it less. `-k sound` and the like choose.
"""

import sys
from pathlib import Path
from textwrap import wrap

import pytest
from msgspec import Struct, field

from classclock.clock.source import raw_now

_ROOM, _TIMES, _WORDS = 20, 8, 78
_TESTS = Path(__file__).parents[1]
_LETTERS = _TESTS / "screens" / "canvas" / "test_drawing_letters.py"
_WHERE = (
    _TESTS / "faults",
    _TESTS / "terminal",
    _TESTS / "sound" / "test_sounds.py",
    _TESTS / "screens" / "canvas" / "test_theme.py",
    f"{_LETTERS}::test_large_digits_have_the_standards_proportions",
    f"{_LETTERS}::test_plain_digits_have_the_standards_proportions",
    f"{_LETTERS}::test_dot_capitals_and_digits_are_of_more_than_five_by_seven_dots",
)
"""What breaks things on purpose; and what terminals, ears and eyes are promised."""


class Fault(Struct):
    """One row: a test, with all that it was tried with."""

    room: str
    name: str
    times: int = 0
    tried: int = 0
    failed: int = 0
    seen: list[str] = field(default_factory=list)

    @property
    def verdict(self) -> str:
        if self.failed:
            return f"FAILED {self.failed} of {self.tried}" if self.tried > 1 else "FAILED"
        return "passed" if self.tried else "not tried"

    def __str__(self) -> str:
        words = self.name.removeprefix("test_").replace("_", " ")
        lines = wrap(f"{words}: {self.verdict}", _WORDS)
        for seen in self.seen:
            lines += wrap(seen, _WORDS, initial_indent="  > ", subsequent_indent="    ")
        head = f"{self.room:<{_ROOM}}{f'{self.times} x':<{_TIMES}}"
        return head + f"\n{' ' * len(head)}".join(lines)


class Table:
    """Prints each fault as soon as it has been tried."""

    def __init__(self) -> None:
        self.faults: list[Fault] = []
        self._began = raw_now()

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.when != "call" and report.passed:
            return
        file, _, called = report.nodeid.partition("::")
        name, _, example = called.partition("[")
        fault = self._fault(Path(file).stem.removeprefix("test_").replace("_", " "), name)
        if report.skipped:
            return
        noted = dict(report.user_properties)
        fault.tried += 1
        fault.times += int(str(noted.get("times", 1)))
        where = f"{example.removesuffix(']')}: " if example else ""
        if "seen" in noted:
            fault.seen.append(f"{where}{noted['seen']}")
        if report.failed:
            fault.failed += 1
            fault.seen.append(f"{where}{_why(report)}")

    def pytest_sessionfinish(self) -> None:
        self._show_last()
        failed = sum(bool(fault.failed) for fault in self.faults)
        tried = sum(fault.times for fault in self.faults)
        minutes = (raw_now() - self._began) / 60e9
        print(  # noqa: T201  a table
            f"\n{len(self.faults)} faults, tried {tried} times in {minutes:.0f} min, "
            f"{failed} failed"
        )

    def _fault(self, room: str, name: str) -> Fault:
        if not self.faults or (self.faults[-1].room, self.faults[-1].name) != (room, name):
            self._show_last()
            self.faults.append(Fault(room, name))
        return self.faults[-1]

    def _show_last(self) -> None:
        if self.faults:
            print(self.faults[-1], flush=True)  # noqa: T201  a table


def _why(report: pytest.TestReport) -> str:
    crash = getattr(report.longrepr, "reprcrash", None)
    return str(crash.message if crash is not None else report.longrepr)[:1500]


def main() -> int:
    percent, options = "100", sys.argv[1:]
    if {"-h", "--help"} & set(options):  # pytest's own needs the reporter that is off here
        print(__doc__)  # noqa: T201  what a script answers
        return 0
    if options and options[0].isdecimal():
        percent, *options = options
    quiet = ("-p", "no:terminalreporter", "-p", "no:cacheprovider", "-p", "no:xdist")
    where = map(str, _WHERE)
    return int(pytest.main([*where, "--thorough", percent, *quiet, *options], plugins=[Table()]))


if __name__ == "__main__":
    sys.exit(main())
