"""How the first run is drawn: one question at a time, the card's lines under each other."""

from pathlib import Path

from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.look import Look
from classclock.screens.card.form_drawing import draw_form
from classclock.screens.controls.question_drawing import QuestionPage, draw_question
from classclock.screens.pages.first_run.first_run_desk import FirstRunDesk
from classclock.screens.pages.first_run.first_run_words import asked

_PUT_OFF = "escape: not now, asked again next time"
_LATER = "what is left empty, F2 at home asks for again"


def draw_first_run(desk: FirstRunDesk, path: Path, columns: int, rows: int, look: Look) -> Drawing:
    """The open question in a box of this size; `path` is where the settings will be."""
    on_card = desk.question == "card"
    page = QuestionPage(
        title="classclock",
        beside="the first run: the emergency card" if on_card else "the first run",
        asked=asked(desk),
        note=f"All is written to {path}.",
        notice=desk.notice,
        foot=_LATER if on_card else _PUT_OFF,
    )
    form = draw_form(desk.card, columns - 2, look) if on_card else ()
    return draw_question(page, columns, rows, look, form=form)
