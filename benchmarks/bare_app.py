"""The floor: a Textual app that does next to nothing, of 40 cells, one of them a clock at 1 Hz.

Each key that is struck is shown, numbered, in one of the cells.
"""

from itertools import count

from textual import events
from textual.app import App, ComposeResult
from textual.widgets import Static

CELLS = 40


class BareApp(App[None]):
    CSS = "Screen { layout: grid; grid-size: 4 10; }"
    ENABLE_COMMAND_PALETTE = False

    def __init__(self) -> None:
        super().__init__()
        self._cells = [Static(f"cell {number}", markup=False) for number in range(CELLS)]
        self._seconds, self._keys = count(1), count(1)

    def compose(self) -> ComposeResult:
        yield from self._cells

    def on_mount(self) -> None:
        self.set_interval(1, self._tick)

    def _tick(self) -> None:
        self._cells[0].update(f"second {next(self._seconds)}.")

    def on_key(self, event: events.Key) -> None:
        event.stop()
        number = next(self._keys)
        self._cells[1 + number % (CELLS - 1)].update(f"key {number}.")


if __name__ == "__main__":
    BareApp().run()
