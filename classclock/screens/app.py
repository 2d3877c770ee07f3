"""The Textual app: colours, no keys of its own, one screen after the other."""

from collections.abc import Awaitable, Callable
from shutil import get_terminal_size

from textual import events
from textual.app import App
from textual.driver import Driver
from textual.geometry import Size

from classclock.machine.collecting import all_again, little_and_often
from classclock.machine.ended_outside import when_ended
from classclock.machine.opened_anew import CAN_OPEN_ANEW
from classclock.machine.terminal_kinds import TerminalKind
from classclock.machine.terminal_query import TerminalQuery
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import textual_theme
from classclock.screens.controls.focus_moved import FocusMoved

_ALL_PAINTED = 1
"""Seconds after which the first screen stands, which is to wait for nothing."""

Flow = Callable[["ClassclockApp"], Awaitable[str]]
"""Screen after screen; its last words."""


class ClassclockApp(App[str], inherit_bindings=False):
    """Runs a flow of screens, and ends with the last words that it gives."""

    ENABLE_COMMAND_PALETTE = False
    TITLE = "classclock"

    def __init__(
        self,
        look: Look,
        flow: "Flow",
        kind: TerminalKind | None = None,
        query: TerminalQuery | None = None,
    ) -> None:
        """`query` is what the terminal was asked before: its answers are no keys."""
        self.look = look
        self.kind = kind
        self._asked = query
        super().__init__(ansi_color=not look.terminal.shades)
        theme = textual_theme(look.theme)
        self.register_theme(theme)
        # Without its watcher, which would read all style sheets again.
        self.set_reactive(ClassclockApp.theme, theme.name)
        self._flow = flow
        self.serves: tuple[str, int | None] | None = None
        """As `screens/start.py` has it."""
        self.status = 0
        """What the program answers at its end."""
        self.ended_words: Callable[[], str] = lambda: "ended from outside"
        """What is said where a signal ends it."""

    def get_theme_variable_defaults(self) -> dict[str, str]:
        return textual_theme(self.look.theme).variables

    def get_driver_class(self) -> type[Driver]:
        usual = super().get_driver_class()
        if CAN_OPEN_ANEW:
            from classclock.screens.terminal_driver import driver_like  # noqa: PLC0415  has no Windows

            usual = driver_like(usual)
        if self._asked is None:
            return usual
        from classclock.screens.key_driver import driver_after  # noqa: PLC0415  has no Windows

        return driver_after(self._asked, usual)

    def on_mount(self) -> None:
        when_ended(self._end)
        if not self.is_headless:
            self.set_interval(1, self._look_at_size)
        self.set_timer(_ALL_PAINTED, little_and_often)
        self.run_worker(self._run_flow())

    def on_unmount(self) -> None:
        all_again()  # the timer may have gone off after its only class was over

    def watch_app_focus(self, here: bool) -> None:  # noqa: FBT001  what Textual hands over
        # A screen that watched this by itself would be kept in memory after its class.
        for screen in self.screen_stack:
            screen.post_message(FocusMoved(here))

    def _look_at_size(self) -> None:
        """Two changes of the window's size in one instant can arrive the wrong way round."""
        size = Size(*get_terminal_size())
        if size != self.size:
            self.post_message(events.Resize(size, size))

    def _end(self, status: int) -> None:
        self.exit(self.ended_words(), status)

    async def _run_flow(self) -> None:
        self.exit(await self._flow(self), self.status)
