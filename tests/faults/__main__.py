"""Every fault as often as it takes to believe it, and a table of what was seen.

`python -m tests.faults [PERCENT] [pytest's own options]`: the whole takes about half an hour;
PERCENT of it less. `-k sound` and the like choose.
"""

import sys
from pathlib import Path
from textwrap import wrap

import pytest

_WIDTH = 100


class Table:
    """A line for each fault, printed as soon as it has been tried."""

    failed = 0

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.when != "call" and report.passed:
            return
        noted = dict(report.user_properties)
        file, _, name = report.nodeid.partition("::")
        room = Path(file).stem.removeprefix("test_")
        verdict = {"passed": "passed", "skipped": "not tried"}.get(report.outcome, "FAILED")
        self.failed += report.failed
        times = f"{noted.get('times', 1)} x"
        words = name.removeprefix("test_").replace("_", " ")
        head, *more = wrap(words, _WIDTH - 30)
        print(f"{room:<10} {times:>6}  {head:<{_WIDTH - 30}}  {verdict}")  # noqa: T201  a table
        indent = " " * 19
        seen = str(noted.get("seen", ""))
        for line in (*more, *wrap(seen, _WIDTH - 22, initial_indent="-> ")):
            print(f"{indent}{line}", flush=True)  # noqa: T201  a table

    def pytest_sessionfinish(self, session: pytest.Session) -> None:
        print(f"\n{session.testscollected} faults, {self.failed} failed")  # noqa: T201  a table


def main() -> int:
    percent, options = "100", sys.argv[1:]
    if options and options[0].isdecimal():
        percent, *options = options
    here = str(Path(__file__).parent)
    quiet = ("-p", "no:terminalreporter", "-p", "no:cacheprovider", "-p", "no:xdist")
    return int(pytest.main([here, "--thorough", percent, *quiet, *options], plugins=[Table()]))


if __name__ == "__main__":
    sys.exit(main())
