"""A plan of the club's with comments in it, and a coach who writes it."""

from collections.abc import Callable
from contextlib import AbstractAsyncContextManager
from pathlib import Path
from typing import Any

import pytest

from classclock.drafts.plan_being_written import PlanOnDisk
from classclock.plan.settings.club import Club
from classclock.screens.canvas.look import Look
from classclock.screens.pages.editor.plan_editor_screen import PlanEditorScreen

COMMENTED = """\
# ours since the spring
title = "Sandbox Sunday"  # ask Noor

[[segment]]
name = "Warm-up"
format = "countdown"
time = "8:00"   # or nine

# the box is at the west rail
[[segment]]
name = "Sandbox"
format = "rounds-in-time"
time = "12:00"

  [[segment.station]]
  movement = "box step-over" # both feet
  reps = 6
"""


Write = Callable[..., AbstractAsyncContextManager[Any]]


@pytest.fixture
def commented() -> str:
    return COMMENTED


@pytest.fixture
def sunday(tmp_path: Path) -> Path:
    path = tmp_path / "sunday.toml"
    path.write_text(COMMENTED)
    return path


@pytest.fixture
def write(tmp_path: Path, open_page: Any) -> Write:
    """Opens the editor on a plan in the club of `tmp_path`."""

    def opened(
        plan: PlanOnDisk, size: tuple[int, int] = (120, 36)
    ) -> AbstractAsyncContextManager[Any]:
        editor = PlanEditorScreen(Look(), plan, folder=tmp_path, club=Club())
        opened: AbstractAsyncContextManager[Any] = open_page(editor, size)
        return opened

    return opened
