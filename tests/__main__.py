"""Every check in one command: format, lint, types, the import contract, the tests."""

import subprocess
import sys
from pathlib import Path

IMPORT_CONTRACT = "import sys; from importlinter.cli import lint_imports; sys.exit(lint_imports())"
CHECKS = (
    ("-m", "ruff", "format", "--check", "."),
    ("-m", "ruff", "check", "."),
    ("-m", "mypy"),
    # What has another name, or none, on other systems; each with a cache of its own.
    ("-m", "mypy", "--platform", "darwin", "--cache-dir", ".mypy_cache/darwin"),
    ("-m", "mypy", "--platform", "win32", "--cache-dir", ".mypy_cache/win32"),
    ("-c", IMPORT_CONTRACT),
    ("-m", "pytest", "-n", "2", "-m", "not real_time"),
    # What is recorded as it is heard has the machine to itself.
    ("-m", "pytest", "-m", "real_time"),
)


def main() -> int:
    root = Path(__file__).parent.parent
    for check in CHECKS:
        print("--", *check, flush=True)  # noqa: T201  what is being checked, for who waits
        status = subprocess.run([sys.executable, *check], cwd=root, check=False).returncode
        if status:
            return status
    return 0


if __name__ == "__main__":
    sys.exit(main())
