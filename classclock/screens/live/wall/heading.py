"""What stands beside or under the clock: what is being done, and what the clock is doing."""

import re
from collections.abc import Iterator, Mapping

from msgspec import Struct
from msgspec.structs import replace

from classclock.screens.canvas.arranged_drawing import Ink, draw_arranged
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.layout.arrange import Arranged, arrange
from classclock.screens.canvas.layout.parts import (
    MOST,
    Arrangement,
    Beside,
    Name,
    OneOf,
    Role,
    Stack,
    Written,
)
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.wall.wall_content import WallContent

_LONG_PROGRESS, _LONG_LEFT = "00 of 00", "00:00 left in all"
_ABREAST = 7
"""Columns between two texts that stand side by side: more than between two words."""


class HeadingShown(Struct, frozen=True):
    content: WallContent
    """Without the clock's digits."""
    alone: bool
    most: int = MOST
    """Rows up to which letters may be high."""


def heading_shown(content: WallContent, *, alone: bool, most: int) -> HeadingShown:
    return HeadingShown(replace(content, clock="", inverted=False), alone, most)


def usual(content: WallContent) -> WallContent:
    """What mostly stands there, at its longest: the room for it is found once for a piece."""
    return replace(
        content,
        clock=clock_room(content.longest_clock or content.clock),
        inverted=False,
        progress=_LONG_PROGRESS if content.progress else "",
        total_left=_LONG_LEFT if content.total_left else "",
        emphasis=content.longest_emphasis,
        hint="",
        held=False,
        stations=content.longest_stations,
        standards=content.longest_standards,
    )


def clock_room(clock: str) -> str:
    """The widest that a clock of so many signs shows; a count-in has two digits."""
    return "00" if len(clock) <= 2 else digits_room(clock)


def digits_room(text: str) -> str:
    """The text with digits of one width, so that nothing is laid out anew when they change."""
    return re.sub(r"\d", "0", text)


def heading(
    content: WallContent,
    *,
    alone: bool,
    most: int = MOST,
    abreast: bool = True,
    shouted: bool = False,
) -> Arrangement:
    """One over the other, in letters up to so many rows. Standards are the first to go.

    What the room reads may stand `abreast` over all else, and of a lift it may in any case: where
    the rows are wanted for the lanes. `alone`: no lanes are shown, so there are what it is called
    and its cautions, large. `shouted`: the word over all of it (HELD) is all that must be there.
    """
    parts = tuple(_parts(content, most, alone=alone, shouted=shouted))
    high = Stack(parts, air=1)
    if alone or not (content.lift or abreast):
        return high
    large = tuple(part for part in parts if part.role == "room")
    named = tuple(part for part in large if part.name != "progress")
    return OneOf((high, *(_abreast(some, parts) for some in dict.fromkeys((large, named)))))


def _abreast(some: tuple[Written, ...], parts: tuple[Written, ...]) -> Stack:
    return Stack((Beside(some, gap=_ABREAST), *(one for one in parts if one not in some)))


def _parts(content: WallContent, most: int, *, alone: bool, shouted: bool) -> Iterator[Written]:
    moves: Role = "detail" if shouted else "room"
    if content.emphasis:
        yield Written("shout", content.emphasis, "shout", matters=95, breaks=True, most=most)
    if content.hint:
        yield (
            Written("hint", content.hint, "hint", "detail", 55, breaks=True)
            if shouted  # the foot says it too
            else Written("hint", content.hint, "hint", "coach", 70, breaks=True)
        )
    if content.progress:
        room = digits_room(content.progress), digits_room(content.total_left)
        # Of a lift the set is named, and that is what everybody asks for.
        role: Role = "coach" if content.lift else "room"
        yield Written("progress", room[0], "progress", role, 50, most=most)
        yield Written("left", room[1], "left", "detail", 6, most=most)
    if alone:
        yield Written("title", content.title, "title", matters=55, breaks=True, most=most)
    else:
        yield Written("title", content.title, "title", "detail", 5, breaks=True)
    if content.head:
        yield Written("head", content.head, "head", matters=58, breaks=True, most=most)
    yield Written("fitted", content.fitted, "fitted", "detail", 4)
    most_words = most if alone else 1  # nobody reads them while they work
    yield Written("words", content.words, "words", "detail", 2, breaks=True, most=most_words)
    standards = content.standards or ("",) * len(content.stations)
    for n, (text, standard) in enumerate(zip(content.stations, standards, strict=True)):
        yield Written(("move", n), text, "move", moves, 60, breaks=True, most=most)
        yield Written(("standard", n), standard, "standard", "detail", 1, breaks=True)
    for n, text in enumerate(content.lines if alone else ()):
        yield Written(("line", n), text, "move", moves, 60, breaks=True, most=most)
    for n, text in enumerate(content.cautions if alone else ()):
        words = f"! {text}"
        yield Written(("caution", n), words, "caution", "caution", 90, breaks=True, most=most)


def fitted_heading(shown: HeadingShown, columns: int, rows: int, measure: CellMeasure) -> Arranged:
    """In a box of this size. Where not all stands the last movements go, and not all of them.

    Where HELD or TIME would be in terminal text, all else may go, or it isn't all in capitals.
    """
    content, alone, most = shown.content, shown.alone, shown.most
    arranged = arrange(heading(content, alone=alone, most=most), columns, rows, measure)
    if arranged.sizes.get("shout") == 1:
        for word in (content.emphasis, content.emphasis.capitalize()):
            shouting = replace(content, emphasis=word)
            shouted = heading(shouting, alone=alone, most=most, shouted=True)
            arranged = arrange(shouted, columns, rows, measure)
            if arranged.sizes["shout"] > 1:
                break
        return arranged
    for kept in range(len(content.stations) - 1, 0, -1):
        if arranged.sizes.get("move", 1):
            break
        fewer = replace(content, stations=content.stations[:kept], standards=(), lines=())
        arranged = arrange(heading(fewer, alone=alone, most=most), columns, rows, measure)
    return arranged


def heading_inks(content: WallContent, look: Look) -> Mapping[Name, Ink]:
    """How each part looks; on the ground of a hold while it is held."""
    theme = look.theme
    shout, hint = Ink(theme.doubtful, bold=True), Ink(bold=True)
    if content.held:
        shout = hint = Ink(theme.hold_ink, theme.hold_ground, bold=True)
    quiet, bold = Ink(theme.quiet), Ink(bold=True)
    inks: dict[Name, Ink] = {
        "shout": shout,
        "hint": hint,
        "title": bold,
        "head": bold,
        "words": quiet,
    }
    inks |= {("move", n): bold for n in range(len(content.stations))}
    inks |= {("standard", n): quiet for n in range(len(content.stations))}
    inks |= {("caution", n): Ink(theme.doubtful) for n in range(len(content.cautions))}
    counted = {
        "progress": Ink(bold=True, words=content.progress),
        "left": Ink(words=content.total_left),
    }
    return inks | counted


class Heading(Painted):
    """All that, as large as it fits a box."""

    def __init__(self, look: Look) -> None:
        super().__init__(look)
        self._shown: HeadingShown | None = None

    def show(self, shown: HeadingShown) -> None:
        if shown != self._shown:
            self._shown = shown
            self.repaint()

    def paint(self, columns: int, rows: int) -> Drawing:
        shown, look = self._shown, self.look
        if shown is None or not (columns and rows):
            return look.gap(columns, rows)
        arranged = fitted_heading(shown, columns, rows, CellMeasure(look.terminal))
        inks = heading_inks(shown.content, look)
        return draw_arranged(arranged.spots, columns, rows, look, inks=inks)
