"""The Textual app: colours, no keys of its own, one screen after the other."""

from collections.abc import Awaitable, Callable

from textual.app import App

from classclock.screens.ended_outside import when_ended
from classclock.screens.look import Look
from classclock.screens.theme import textual_theme


class ClassclockApp(App[str], inherit_bindings=False):
    """Runs a flow of screens, and ends with the last words that it gives."""

    ENABLE_COMMAND_PALETTE = False
    TITLE = "classclock"

    def __init__(self, look: Look, flow: "Callable[[ClassclockApp], Awaitable[str]]") -> None:
        self.look = look
        super().__init__(ansi_color=not look.terminal.true_colour)
        theme = textual_theme(look.theme)
        self.register_theme(theme)
        self.theme = theme.name
        self._flow = flow

    def get_theme_variable_defaults(self) -> dict[str, str]:
        return textual_theme(self.look.theme).variables

    def on_mount(self) -> None:
        when_ended(self._end)
        self.run_worker(self._run_flow())

    def _end(self, status: int) -> None:
        self.exit("ended from outside: classclock resume goes on with a class", status)

    async def _run_flow(self) -> None:
        self.exit(await self._flow(self))
