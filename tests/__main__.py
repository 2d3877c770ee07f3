"""Every check in one command: format, lint, types, the import contract, the tests."""

import os
import subprocess
import sys
from pathlib import Path

IMPORT_CONTRACT = "import sys; from importlinter.cli import lint_imports; sys.exit(lint_imports())"

UNCOMPILED = "PYTHONDONTWRITEBYTECODE"


def mypy_as_on(platform: str) -> tuple[str, ...]:
    """Find what has no such name on another system; benchmarks are for this one alone."""
    packages = ("-p", "classclock", "-p", "tests", "--follow-imports", "silent")
    return (
        "-m",
        "mypy",
        "--platform",
        platform,
        "--cache-dir",
        f".mypy_cache/{platform}",
        *packages,
    )


TOGETHER = (
    (
        ("-m", "ruff", "format", "--check", "."),
        ("-m", "ruff", "check", "."),
        ("-m", "mypy"),
        *(mypy_as_on(platform) for platform in ("darwin", "win32")),
        ("-c", IMPORT_CONTRACT),
    ),
    # Screens wait for their keys, and terminals for their programs: more of them than cores.
    (
        (
            *("-m", "pytest", "-n", "4", "--dist", "worksteal", "-m", "not real_time"),
            *("--hypothesis-profile", "quick"),
        ),
    ),
    (
        (
            *("-m", "pytest", "-n", "4", "--dist", "worksteal", "-m", "real_time"),
            *("--ignore", "tests/sound"),
        ),
    ),
    # What is recorded as it is heard has the machine to itself.
    (("-m", "pytest", "-m", "real_time", "tests/sound"),),
)
"""Checks that run at the same time, one group after the other."""


def main() -> int:
    root = Path(__file__).parent.parent
    # What is compiled once serves each worker, and each program that a test starts.
    environment = {name: value for name, value in os.environ.items() if name != UNCOMPILED}
    for checks in TOGETHER:
        running = []
        for check in checks:
            print("--", *check, flush=True)  # noqa: T201  what is being checked, for who waits
            running.append(subprocess.Popen([sys.executable, *check], cwd=root, env=environment))
        status = max(map(abs, [one.wait() for one in running]))
        if status:
            return status
    return 0


if __name__ == "__main__":
    sys.exit(main())
