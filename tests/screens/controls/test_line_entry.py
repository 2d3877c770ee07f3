"""A line to type into, over a class: its keys."""

import pytest
from textual import events
from textual.app import App, ComposeResult

from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.look import Look
from classclock.screens.controls.line_entry import LineEntry


class Note(LineEntry):
    said = ""

    def entered(self) -> None:
        self.said = self.text

    def left(self) -> None:
        self.said = "left"

    def paint(self, columns: int, rows: int) -> Drawing:
        return self.look.gap(columns, rows)


class Desk(App[None]):
    def __init__(self, note: Note) -> None:
        super().__init__()
        self.note = note

    def compose(self) -> ComposeResult:
        yield self.note

    def on_mount(self) -> None:
        self.note.focus()


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        (["a", "b", "backspace", "c", "enter"], "ac"),
        (["a", "b", "ctrl+h", "enter"], "a"),  # the backspace key of some terminals
        (["a", "space", "b", "ctrl+j"], "a b"),
        (["a", "ctrl+u", "b", "enter"], "b"),
        (["a", "left", "home", "b", "enter"], "ab"),  # it is typed at its end
        (["a", "escape"], "left"),
        (["f7", "up", "tab", "enter"], ""),
    ],
)
async def test_its_keys(keys: list[str], said: str) -> None:
    note = Note(Look())
    async with Desk(note).run_test() as pilot:
        await pilot.press(*keys)
        assert note.said == said


async def test_alt_and_a_letter_types_that_letter_and_what_is_pasted_is_whole_or_not_at_all() -> (
    None
):
    note = Note(Look())
    async with Desk(note).run_test() as pilot:
        note.post_message(events.Key("alt+n", "n"))
        note.post_message(events.Key("alt+enter", None))
        note.post_message(events.Paste("oor\n V."))
        note.post_message(events.Paste("\x1b[2J"))
        await pilot.pause()
        assert (note.text, note.said) == ("noor V.", "")
