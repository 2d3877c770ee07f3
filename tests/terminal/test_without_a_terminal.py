"""A screen without a keyboard: one sentence, and nothing is begun."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

BASH = shutil.which("bash") or pytest.skip("no bash", allow_module_level=True)


@pytest.mark.parametrize("closed", ["<&-", "2>&-"])
@pytest.mark.parametrize("command", ["run turntable --athletes Bo", "demo", "new", ""])
def test_a_screen_needs_something_to_read_keys_from_and_to_draw_on(
    command: str, closed: str, tmp_path: Path
) -> None:
    environment = {
        **os.environ,
        "CLASSCLOCK_CLUB": str(tmp_path / "depot"),
        "TMPDIR": str(tmp_path),
    }
    done = subprocess.run(
        [BASH, "-c", f"{sys.executable} -m classclock {command} {closed}"],
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
        env=environment,
        cwd=tmp_path,
    )
    assert done.returncode == 1
    said = done.stderr.splitlines()
    assert len(said) == (1 if closed == "<&-" else 0)  # there is nowhere to say it
    assert all(line.startswith("a screen needs a terminal") for line in said)
    assert [*tmp_path.iterdir()] == []
