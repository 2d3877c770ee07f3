"""Before a class: flags on loads are read and acknowledged, while the TV can still be muted."""

from classclock.live.live_class import LiveClass
from classclock.screens.canvas.look import Look
from classclock.screens.controls.page_screen import PageScreen
from classclock.screens.flags.flags_view import FlagsView
from classclock.tally.load_flags import open_flags


class FlagsScreen(PageScreen[bool]):
    """Ends with whether to go on to the class; False leaves it."""

    view: FlagsView

    def __init__(self, look: Look, live: LiveClass, *, mirrored: bool) -> None:
        super().__init__()
        self._live = live
        self.view = FlagsView(look, covered=mirrored)

    def on_mount(self) -> None:
        self._show()

    def _show(self) -> None:
        record = self._live.record
        flags = open_flags(record, self._live.loads, record.to_come)
        self.view.show(flags)
        if not flags:
            self.dismiss(result=True)

    def quit(self) -> None:
        self.dismiss(result=False)

    def take(self, sign: str) -> bool:
        if sign == "<escape>":
            self.dismiss(result=True)
            return True
        if sign == "<enter>":
            self._enter()
        return False

    def _enter(self) -> None:
        if self.view.covered:
            self.view.uncover()
            return
        for flag in self.view.seen:
            self._live.acknowledge(flag.person_id, flag.segment, flag.text)
        self._show()
