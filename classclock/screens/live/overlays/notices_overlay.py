"""All that was said in this class, the newest first. It takes escape and the page keys alone."""

from textual.geometry import Size

from classclock.screens.canvas.cells import Drawing, above, beside
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.live.overlays.notices_layout import TIME, NoticeRow, notice_rows
from classclock.wall.notices.notice_log import Logged

_FRAME = 3  # rows: one free, the title, one free
_SHARE = 0.72  # of the screen's height at most, so that the clock stays in view above
_PAGES = {"<pagedown>": 1, "<pageup>": -1}


class NoticesOverlay(Painted):
    """`turn` opens and closes it; while it is open `follow` brings what is said meanwhile."""

    logged: tuple[Logged, ...] = ()
    page = 0

    def turn(self, logged: tuple[Logged, ...]) -> None:
        self.display = not self.display
        self.page = 0
        self.follow(logged)

    def follow(self, logged: tuple[Logged, ...]) -> None:
        if self.display and logged != self.logged:
            self.logged = logged
            self.refresh(layout=True)
            self.repaint()

    def offer(self, sign: str) -> bool:
        """Whether this sign was the overlay's own and is done with."""
        if not self.display:
            return False
        if sign == "<escape>":
            self.display = False
        elif sign in _PAGES:
            last = page_count(self._rows(self.size.width), self.size.height) - 1
            self.page = max(0, min(last, self.page + _PAGES[sign]))
            self.repaint()
        else:
            return False
        return True

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002  Textual's signature
        return min(len(self._rows(width)) + _FRAME, int(viewport.height * _SHARE))

    def paint(self, columns: int, rows: int) -> Drawing:
        return draw_notices(self._rows(columns), self.page, columns, rows, self.look)

    def _rows(self, columns: int) -> tuple[NoticeRow, ...]:
        return notice_rows(self.logged, columns - 4)


def page_count(all_rows: tuple[NoticeRow, ...], rows: int) -> int:
    """How many pages there are in a box of so many rows."""
    return max(1, -(-len(all_rows) // max(1, rows - _FRAME)))


def draw_notices(
    all_rows: tuple[NoticeRow, ...], page: int, columns: int, rows: int, look: Look
) -> Drawing:
    """One page in a box of this size, on a ground of its own."""
    here, inner, each = look.on(look.theme.bar), columns - 4, max(1, rows - _FRAME)
    count = page_count(all_rows, rows)
    page = min(page, count - 1)
    more = f"page up, page down ({page + 1} of {count}); " if count > 1 else ""
    title = beside(
        here.text("Notices", 9, bold=True),
        here.text(f"{more}escape closes, taps go through", inner - 9, ink=here.theme.quiet),
    )
    shown = [_row(row, inner, here) for row in all_rows[page * each : (page + 1) * each]]
    drawn = above(here.gap(inner), title, here.gap(inner), *shown)
    return here.box(drawn, columns, rows, across="middle")


def _row(row: NoticeRow, columns: int, look: Look) -> Drawing:
    theme = look.theme
    words = look.on(theme.alarm_ground, theme.alarm_ink) if row.wrong else look
    time = look.text(row.time, TIME, ink=theme.quiet)
    return beside(time, words.text(row.text, columns - TIME, bold=row.weighty))
