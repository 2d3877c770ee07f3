"""Where the page is, over a class: its address, the code of it, and the screens that ask."""

from functools import lru_cache
from textwrap import wrap

from textual.geometry import Size

from classclock.following.page_messages import NotServed, PageStatus, Served
from classclock.following.page_words import spaced
from classclock.screens.canvas.cells import Drawing, above, beside, blank, row_of, width
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted

LETS_IN = "<f10>"
_QUIET = 2
"""Modules of ground around the code on each side; the standard has four, readers want one."""
_ABOVE = 12
"""Rows that stay free for the clock."""


class LinkOverlay(Painted):
    """`turn` opens and closes it. Escape is its own, and F10 while a screen asks."""

    status: PageStatus | None = None

    def turn(self) -> None:
        self.display = not self.display

    def show(self, status: PageStatus | None) -> None:
        if status != self.status:
            self.status = status
            self.refresh(layout=True)
            self.repaint()

    @property
    def asks(self) -> str:
        """The digits of the screen that is let in next; empty where none asks."""
        if not self.display or not isinstance(self.status, Served):
            return ""
        return next(iter(self.status.waiting), "")

    def offer(self, sign: str) -> bool:
        """Whether this sign was the overlay's own and is done with."""
        if not self.display or sign != "<escape>":
            return False
        self.display = False
        return True

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002  Textual's signature
        code = _code_for(self.status, width, viewport.height - _ABOVE)
        beside_it = len(link_lines(self.status, width - 6 - len(code)))
        return max((len(code) + 1) // 2, beside_it) + 1

    def paint(self, columns: int, rows: int) -> Drawing:
        return draw_link(self.status, columns, rows, self.look)


def draw_link(status: PageStatus | None, columns: int, rows: int, look: Look) -> Drawing:
    """In a box of this size; the code only where all of it has room."""
    here = look.on(look.theme.bar)
    code = _drawn(_code_for(status, columns, rows), here)
    wide = width(code)
    inner = columns - 4 - wide - (2 if wide else 0)
    texts = [
        here.text(words, inner, bold=not number, ink=here.theme.key if asked else None)
        for number, (words, asked) in enumerate(link_lines(status, inner))
    ]
    said = here.box(above(*texts), inner, rows)
    if not wide:
        return here.box(said, columns, rows, across="middle")
    picture = here.box(code, wide, rows)
    return here.box(
        beside(picture, blank(2, rows, here.theme.ground), said), columns, rows, across="middle"
    )


def link_lines(status: PageStatus | None, columns: int) -> tuple[tuple[str, bool], ...]:
    """What is said, and whether it is of a screen that asks."""
    if not isinstance(status, Served):
        why = status.why if isinstance(status, NotServed) else "the page is being begun"
        said = [(why, False)]
    else:
        many = status.viewers
        looks = "1 screen looks on" if many == 1 else f"{many or 'no'} screens look on"
        said = [(status.url, False), (looks, False)]
        for number, digits in enumerate(status.waiting):
            key = "; F10 lets it in" if number == 0 else ""
            said.append((f"{spaced(digits)} asks to see the class{key}", True))
        said.append((f"a TV without a keyboard opens {status.bare}", False))
    said.append(("escape closes, taps go through", False))
    wide = max(10, columns)
    return tuple((part, asked) for words, asked in said for part in wrap(words, wide))


def _code_for(status: PageStatus | None, columns: int, rows: int) -> tuple[tuple[bool, ...], ...]:
    """The dark modules of the page's address; nothing where there is no room for them."""
    if not isinstance(status, Served):
        return ()
    code = code_of(status.url)
    fits = len(code) <= 2 * (rows - 1) and len(code) + 30 <= columns
    return code if fits else ()


@lru_cache(maxsize=2)
def code_of(words: str) -> tuple[tuple[bool, ...], ...]:
    """Rows of modules, the dark ones True, with their ground (ISO/IEC 18004).

    Nothing where the extra isn't installed.
    """
    try:
        import segno  # noqa: PLC0415  an extra
    except ImportError:
        return ()
    code = segno.make_qr(words, error="m")
    return tuple(tuple(bool(one) for one in row) for row in code.matrix_iter(border=_QUIET))


def _drawn(code: tuple[tuple[bool, ...], ...], look: Look) -> Drawing:
    """A module is half a cell high and a cell wide: nearly square. Dark on light in any theme."""
    theme = look.theme
    dark, light = (theme.key_ink, theme.key_ground) if theme.dark else (theme.ink, theme.key_ink)
    colour = {True: dark, False: light}
    pairs = zip(code[::2], (*code[1::2], *(code[:1] if len(code) % 2 else ())), strict=True)
    return tuple(
        row_of(("\u2580", colour[up], colour[low]) for up, low in zip(*pair, strict=True))
        for pair in pairs
    )
