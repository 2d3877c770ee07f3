"""The pinned pictures: drawn, kept as files, and how one that looks otherwise is told."""

import asyncio
import os
import sys
from collections.abc import Iterator
from contextlib import chdir
from difflib import unified_diff
from importlib.metadata import version
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple
from unittest.mock import patch

from classclock.screens.canvas.look import Look
from classclock.units.cell_dots import CellDots
from tests.screens.picture_text import picture_text
from tests.screens.pinned_class import MOMENTS, PinnedClass
from tests.screens.roles import THEME

FOLDER = Path(__file__).parent / "pinned"


class View(NamedTuple):
    """A window of so many columns and rows, with letters of such dots."""

    columns: int
    rows: int
    dots: CellDots = "sextants"

    def __str__(self) -> str:
        size = f"{self.columns}x{self.rows}"
        return size if self.dots == "sextants" else f"{size}-{self.dots}"


VIEWS = (
    View(60, 18),
    View(120, 36),
    View(213, 60),
    View(120, 36, "quadrants"),
    View(120, 36, "halves"),
)
"""The least window, a laptop's, a TV's; and a laptop's in terminals that can draw less."""
_DECIDE = ("textual", "pillow")
"""What else has a say in where a cell or a dot of a letter comes."""
_ELSEWHERE = ("NO_COLOR", "CLASSCLOCK_BOOK")
"""Variables of whoever draws them that would change what is seen."""


def drawn_under() -> str:
    """The versions of what draws, as far as a picture can depend on them."""
    python = f"python {sys.version_info.major}.{sys.version_info.minor}"
    others = (f"{name} {'.'.join(version(name).split('.')[:2])}" for name in _DECIDE)
    return ", ".join([*others, python])


def draw(view: View) -> dict[str, str]:
    """By file name, each moment of the class so seen."""
    clean = {name: value for name, value in os.environ.items() if name not in _ELSEWHERE}
    with patch.dict(os.environ, clean, clear=True), TemporaryDirectory() as empty, chdir(empty):
        look = Look(THEME).with_dots(view.dots)
        seen = asyncio.run(PinnedClass(Path("club"), look).pictures(view.columns, view.rows))
    return {f"{moment}-{view}.txt": picture_text(seen[moment]) for moment in MOMENTS}


def kept(name: str) -> tuple[str, str]:
    """What a file's picture was drawn under, and the picture."""
    under, _, picture = (FOLDER / name).read_text("utf-8").partition("\n")
    return under, picture


def keep(name: str, picture: str) -> None:
    (FOLDER / name).write_text(f"{drawn_under()}\n{picture}", "utf-8")


def differences(name: str, picture: str) -> Iterator[str]:
    """The lines of a picture that are otherwise than in its file; nothing if all are the same."""
    pinned = kept(name)[1]
    return unified_diff(
        pinned.split("\n"), picture.split("\n"), f"pinned/{name}", "now", n=0, lineterm=""
    )
