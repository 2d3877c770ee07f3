"""How the question about letters is drawn: one name in all three ways, side by side."""

from pathlib import Path

from classclock.screens.canvas.cells import Drawing, above, beside
from classclock.screens.canvas.letters.dot_type import ROWS
from classclock.screens.canvas.look import Look
from classclock.screens.controls.question_drawing import QuestionPage, draw_question
from classclock.screens.pages.first_run.letters_desk import QUESTION, WAYS, LettersDesk
from classclock.units.cell_dots import CellDots

_NAME = "Ilse"
_COLUMNS = 19
"""Which a name of four letters takes at most, and a gap."""


def draw_letters_question(
    desk: LettersDesk, path: Path, columns: int, rows: int, look: Look
) -> Drawing:
    """The question in a box of this size; `path` is where the answer is remembered."""
    page = QuestionPage(
        title="classclock",
        beside=f"letters in {desk.kind}",
        asked=QUESTION,
        note=f"Remembered for {desk.kind} in {path}. Another answer later: letters under [tv] in "
        "club.toml.",
        notice=desk.notice,
        foot="",
    )
    samples = beside(*(_sample(key, dots, look) for key, dots in WAYS.items()))
    form = look.box(samples, columns - 2, len(samples))
    return draw_question(page, columns, rows, look, form=form)


def _sample(key: str, dots: CellDots, look: Look) -> Drawing:
    name = look.with_dots(dots).letters(_NAME, _COLUMNS - 1, ROWS)
    return above(
        look.text(key, _COLUMNS, ink=look.theme.key, bold=True),
        look.box(name, _COLUMNS, ROWS),
    )
