"""The last line: what was said, the keys that matter, and the sign of the emergency card."""

from textual import events
from textual.message import Message

from classclock.screens.canvas.cells import Drawing, above, beside
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.live.foot.status_content import StatusContent, StatusRows, set_rows


class StatusLine(Painted):
    """Grows upwards over the lanes for a while when what it says needs more than a row."""

    class EmergencyClicked(Message):
        pass

    def __init__(self, look: Look) -> None:
        super().__init__(look)
        self.content = StatusContent()
        self.short = False

    def show(self, content: StatusContent, *, short: bool) -> None:
        """`short`: one row, since what was said has been there long enough."""
        if (content, short) != (self.content, self.short):
            self.content, self.short = content, short
            self._fit()
            self.repaint()

    def on_resize(self) -> None:
        self._fit()

    def _fit(self) -> None:
        rows = len(self._rows(self.size.width).said)
        if rows != self.size.height:
            self.styles.height = rows

    def _rows(self, columns: int) -> StatusRows:
        return set_rows(self.content, columns - 1, short=self.short)

    def on_click(self, event: events.Click) -> None:
        event.stop()
        if event.x >= self.size.width - len(self._rows(self.size.width).emergency) - 1:
            self.post_message(self.EmergencyClicked())

    def paint(self, columns: int, rows: int) -> Drawing:
        theme = self.look.theme
        alarm = self.content.alarm
        look = (
            self.look.on(theme.alarm_ground, theme.alarm_ink) if alarm else self.look.on(theme.bar)
        )
        quiet = theme.alarm_ink if alarm else theme.quiet
        return draw_status(self._rows(columns), columns, rows, look, quiet)


def draw_status(status: StatusRows, columns: int, rows: int, look: Look, quiet: str) -> Drawing:
    """The rows on the look's ground; keys and sign in the quiet ink."""
    right = f" {status.keys}    {status.emergency} "
    width = min(columns, len(right))
    first, *more = status.said
    top = beside(
        look.text(f" {first}", columns - width, bold=True), look.text(right, width, ink=quiet)
    )
    return above(top, *(look.text(f" {text}", columns, bold=True) for text in more[: rows - 1]))
