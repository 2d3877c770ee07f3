"""An outside reader reads the screens: few here, more by `python -m readable --read`."""

from shutil import which

import pytest

from classclock.screens.canvas.cells import Drawing, place
from classclock.screens.canvas.look import Look
from readable.bitmap import BOLD, FONT
from readable.made_class import Kind, Seen, Size, seen
from readable.marked_look import marked
from readable.reader import Found, read
from readable.room_texts import Wanted
from readable.script import State

pytestmark = pytest.mark.skipif(
    not (which("tesseract") and FONT.exists() and BOLD.exists()),
    reason="Debian's tesseract-ocr and fonts-dejavu-core",
)
SIZE, FINE = Size(120, 36), Size(213, 60)


def alone(text: str, rows: int, size: Size) -> Seen:
    """A screen with nothing but this name on it."""
    look = marked(Look())
    wide = size.columns - 2
    drawn: Drawing = (
        look.letters(text, wide, rows) if rows > 1 else look.text(text, wide, bold=True)
    )
    page = place(drawn, size.columns, size.rows, look.theme.ground, down="middle")
    return Seen(Kind(1, 0), "board", size, (page,), (Wanted("name", (text,)),), look.ledger)


@pytest.mark.parametrize("text", ["Saoirse", "Wilhelmina", "Dagny"])
def test_terminal_text_is_read_at_the_laptop_but_not_from_the_back(text: str) -> None:
    # Under 2.5 minutes of arc, of which ISO 9241-3 asks 16.
    (found,) = read(alone(text, 1, FINE), ("name",))
    assert (found.sharp, found.far) == (1, 0)


@pytest.mark.parametrize("text", ["Saoirse", "Wilhelmina", "Dagny"])
def test_letters_of_five_rows_are_read_from_the_back(text: str) -> None:
    # Under 23 minutes of arc: ISO 9241-3 prefers 20 to 22.
    (found,) = read(alone(text, 5, SIZE), ("name",))
    assert (found.sharp, found.far) == (1, 1)


async def test_names_and_scores_are_read_from_the_back_at_the_settle() -> None:
    found: dict[str, Found] = {}
    states: tuple[State, ...] = ("settle",)
    async for screen in seen(Kind(8, 0), (SIZE,), states):
        found = {one.role: one for one in read(screen, ("key", "name", "tally"))}
    for role, one in found.items():
        assert one.far >= one.count - 1, (role, one.otherwise)
    assert set(found) == {"key", "name", "tally"}
