"""What is said, the keys that matter, and the sign of the emergency card: one row."""

from textual import events

from classclock.screens.canvas.cells import Drawing, beside
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.controls.meant import Meant
from classclock.screens.live.foot.foot_row import FootContent, set_row


class NoticeLine(Painted):
    class EmergencyClicked(Meant):
        pass

    def __init__(self, look: Look) -> None:
        super().__init__(look)
        self.content = FootContent()

    def show(self, content: FootContent) -> None:
        if content != self.content:
            self.content = content
            self.repaint()

    def on_click(self, event: events.Click) -> None:
        event.stop()
        if event.x >= set_row(self.content, self.size.width).emergency:
            self.post_message(self.EmergencyClicked())

    def paint(self, columns: int, rows: int) -> Drawing:  # noqa: ARG002  it has one row
        return draw_foot(self.content, columns, self.look)


def draw_foot(content: FootContent, columns: int, look: Look) -> Drawing:
    """What is wrong stands out by its ground; keys and sign are in the quiet ink."""
    theme, wrong = look.theme, content.shown.stands
    here = look.on(theme.alarm_ground, theme.alarm_ink) if wrong else look.on(theme.bar)
    row = set_row(content, columns)
    right = f" {row.right} "[-columns:]
    said = here.text(f" {row.said}", max(0, columns - len(right)), bold=True)
    return beside(
        said, here.text(right, min(columns, len(right)), ink=None if wrong else theme.quiet)
    )
