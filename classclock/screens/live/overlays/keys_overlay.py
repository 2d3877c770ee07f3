"""The keys that hold now. It takes escape alone: every other key goes where it always goes."""

from textual.geometry import Size

from classclock.plan.formats.counting import CountsBy
from classclock.screens.canvas.cells import Drawing, above, beside
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.live.overlays.keys_layout import KeyPages, KeyRow, key_pages, rows_wanted
from classclock.screens.live.screen_keys import SCREEN_KEYS
from classclock.tally.keys.key_help import KEY_LINES, SIGN_LINES, KeyLine, key_help
from classclock.tally.keys.lone_keys import KeyPhase

_FRAME = 3  # rows: one free, the title, one free
_SHARE = 0.72  # of the screen's height at most, so that the clock stays in view above


class KeysOverlay(Painted):
    """`show` opens it; `?` once more goes through `turn`."""

    lines: tuple[KeyLine, ...] = ()
    page = 0

    def __init__(self, look: Look, *, taps: bool = True) -> None:
        """`taps`: some are taken here, and go through."""
        super().__init__(look)
        self._taps = taps

    def show(self, counts_by: CountsBy, phase: KeyPhase) -> None:
        self.show_these(key_help(counts_by, phase, (*KEY_LINES, *SCREEN_KEYS, *SIGN_LINES)))

    def show_these(self, lines: tuple[KeyLine, ...]) -> None:
        """The keys of what is open over the class."""
        self.lines = lines
        self.page = 0
        self.display = True
        self.refresh(layout=True)
        self.repaint()

    def turn(self) -> None:
        """The next page; after the last one it closes."""
        columns, rows = self.size
        if self.page + 1 < len(self._pages(columns, rows).pages):
            self.page += 1
            self.repaint()
        else:
            self.display = False

    def offer(self, sign: str) -> bool:
        """Whether this sign (`<escape>`, `n` …) was the overlay's own and is done with."""
        if not self.display or sign != "<escape>":
            return False
        self.display = False
        return True

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002  Textual's signature
        most = int(viewport.height * _SHARE)
        return rows_wanted(self.lines, width - 4, most - _FRAME) + _FRAME

    def paint(self, columns: int, rows: int) -> Drawing:
        pages = self._pages(columns, rows)
        if not pages.pages:
            return self.look.gap(columns, rows)
        page = min(self.page, len(pages.pages) - 1)
        return draw_keys(pages, page, columns, rows, self.look, taps=self._taps)

    def _pages(self, columns: int, rows: int) -> KeyPages:
        return key_pages(self.lines, columns - 4, rows - _FRAME)


def draw_keys(
    pages: KeyPages, page: int, columns: int, rows: int, look: Look, *, taps: bool = True
) -> Drawing:
    """One page in a box of this size, on a ground of its own."""
    here = look.on(look.theme.bar)
    inner = columns - 4
    count = len(pages.pages)
    more = f"? next page ({page + 1} of {count}), " if page + 1 < count else "? or "
    through = "; taps go through" if taps else ""
    title = beside(
        here.text("Keys", 6, bold=True),
        here.text(f"{more}escape closes{through}", inner - 6, ink=here.theme.quiet),
    )
    stacks = [
        here.box(
            above(*(_row(row, pages, here) for row in stack)), pages.column_width, rows - _FRAME
        )
        for stack in pages.pages[page]
    ]
    gap = here.gap(2, rows - _FRAME)
    body = beside(stacks[0], *(part for stack in stacks[1:] for part in (gap, stack)))
    drawn = above(here.gap(inner), title, here.gap(inner), here.box(body, inner, rows - _FRAME))
    return here.box(drawn, columns, rows, across="middle")


def _row(row: KeyRow, pages: KeyPages, look: Look) -> Drawing:
    theme, width = look.theme, pages.column_width
    if row.heading:
        return look.text(row.text, width, ink=theme.quiet)
    text = look.text(row.text, width - pages.keys_width - 1)
    if not row.keys:
        return beside(look.gap(pages.keys_width + 1), text)
    cap = look.text(f" {row.keys} ", len(row.keys) + 2, ink=theme.key_ink, ground=theme.key_ground)
    return beside(look.box(cap, pages.keys_width + 1, 1), text)
