"""What a board shows and the ways in which it may stand, for the one rule of size."""

import re
from collections.abc import Iterator

from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.layout.arrange import Arranged, arrange
from classclock.screens.canvas.layout.parts import (
    MOST,
    Arrangement,
    Beside,
    Grid,
    Lead,
    OneOf,
    Stack,
    Written,
)
from classclock.screens.live.board.caution_layout import GROUP, cautions_together
from classclock.wall.board_content import BoardContent, BoardLane
from classclock.wall.modification import AS_WRITTEN

Lanes = list[tuple[int, BoardLane]]
"""Some of them, with their places."""
_ROOM = ("name", "head", "work", "key", "person", "start", GROUP)
TIE = "\N{NO-BREAK SPACE}"
"""What a line isn't broken at."""
_WORD = re.compile(r"[^\W\d]")
_WIDE = 90
"""Columns from which people rather stand beside the work than under it."""
_MOST_PAGES = 4
"""With more of them nobody waits for the own name: half a minute at eight seconds each."""
_BESIDE = (1, 2, 3)
"""Columns of people beside the work."""
_UNDER = (2, 3, 4, 5, 6, 1)
"""The same under it."""


def board_layout(content: BoardContent, columns: int, rows: int, measure: CellMeasure) -> Arranged:
    """All but the first row and the foot, which are the coach's.

    People are on a few pages where their names would be in one row otherwise. Cautions are no
    larger than what is to be done. Keys are as large as names; only where those are in one row they
    may be larger.
    """

    def laid(largest: int, key: str) -> Arranged:
        part = _board(content, largest, key, wide=columns >= _WIDE)
        return arrange(part, columns, rows, measure, lead=lead, most_pages=_MOST_PAGES)

    lead = Lead("head", 1.0) if _is_numbers(content.head) else None
    found, largest = laid(MOST, "person"), MOST
    work, cautions = (found.sizes.get(group, 0) for group in ("work", GROUP))
    if 0 < work < cautions:
        largest = work
        found = laid(largest, "person")
    if found.sizes.get("person") != 1:
        return found
    if found.sizes.get(GROUP, 1) == 1:  # cautions are in one row in any case: are pages of use then
        paged = laid(1, "person")
        if paged.sizes["person"] > 1:
            return paged
    return max(found, laid(largest, "key"), key=_worth)


def _worth(laid: Arranged) -> list[int]:
    """What is read from the back, the smallest first; keys are as large as names unless apart."""
    sizes = {"key": laid.sizes["person"]} | laid.sizes
    return sorted(sizes[group] for group in _ROOM if group in sizes)


def _is_numbers(head: str) -> bool:
    """Whether it is numbers alone, such as 18-12-6: they are the largest that a coach writes."""
    return bool(head) and not _WORD.search(head)


def _board(content: BoardContent, most: int, key: str, *, wide: bool) -> Arrangement:
    """Keys are of the group `key`; only where that is the names' they may stand in lines."""
    plan = Stack((*_work(content), _cautions(content, most)), air=1)
    if not content.lanes:
        return plan
    beside = Beside((plan, _people(content, key, _BESIDE)), gap=3)
    under = Stack((plan, _people(content, key, _UNDER)), air=1)
    flowing = (Stack((plan, _people(content, key)), air=1),) if key == "person" else ()
    return OneOf((beside, under, *flowing) if wide else (under, *flowing, beside))


def _work(content: BoardContent) -> Iterator[Arrangement]:
    """What is done, as a coach writes it: the name, the numbers, the movements under them."""
    group = "name" if _is_numbers(content.head) else "head"  # numbers are larger than their name
    name = Written("name", content.name, group, matters=8, breaks=True)
    head = Written("head", content.head or content.words, "head", matters=8, breaks=True)
    terms = Written("terms", content.terms, "terms", "coach", 5, breaks=True)
    expected = Written("expected", content.expected, "expected", "coach", 2, breaks=True)
    about = Stack((terms, expected))
    yield OneOf(
        (
            Stack((name, Stack((head, about))), air=1),
            Stack((Beside((name, head), gap=4), about)),
        )
    )
    for number, station in enumerate(content.stations):
        words = ", ".join(station.options)
        work = Written(("work", number), station.words, "work", matters=9, breaks=True)
        standard = Written(
            ("standard", number), station.standard, "standard", "coach", 4, breaks=True
        )
        options = Written(("options", number), words, "options", "detail", 3, breaks=True)
        beside = Beside((work, standard), gap=3)
        yield OneOf((Stack((work, standard, options)), Stack((beside, options))))
    for number, words in enumerate((*content.sets, *content.lines)):
        yield Written(("line", number), words, "work", matters=9, breaks=True)
    for number, words in enumerate(content.notes):
        yield Written(("note", number), words, "note", "detail", 2, breaks=True)


def _cautions(content: BoardContent, most: int) -> Arrangement:
    """When to stop is as large as the others, or a line once it has stood on a board."""
    if not (content.stop and content.stop_stood):
        first = (content.stop,) if content.stop else ()
        return cautions_together((*first, *content.cautions), most=most)
    stop = Written("stop", f" ! {content.stop}", "stop", "caution", 9, breaks=True, most=1)
    return Stack((stop, cautions_together(content.cautions, most=most)))


def _people(content: BoardContent, key: str, across: tuple[int, ...] = ()) -> Arrangement:
    """Who is in it, together with those who start where they do: in columns, or in lines."""
    starts = dict.fromkeys(lane.start for lane in content.lanes)
    numbered = list(enumerate(content.lanes))
    each = [[one for one in numbered if one[1].start == start] for start in starts]
    shown = [_columns(lanes, key, across) if across else _lines(lanes) for lanes in each]
    if len(shown) == 1:
        return shown[0]
    words = [Written(("start", start), f"{start}:", "start", matters=7) for start in starts]
    pairs = zip(words, shown, strict=True)
    return Stack(tuple(Stack(pair) for pair in pairs), air=1)


def _columns(lanes: Lanes, key: str, across: tuple[int, ...]) -> Arrangement:
    rows = tuple(
        (
            Written(("key", number), lane.key, key, matters=7),
            Written(("person", number), lane.name, "person", matters=7),
            Written(("does", number), does(lane), "does", "coach", 3),
        )
        for number, lane in lanes
    )
    ways = (Grid(rows, across=across, gap=gap, between=2 * gap, paged=True) for gap in (2, 1))
    return OneOf(tuple(ways))


def _lines(lanes: Lanes) -> Arrangement:
    """One after the other, the key before the name, in as many lines as that takes."""
    first = lanes[0][0]
    names = " ".join(f"{_unbroken(f'{lane.key} {lane.name}')}{TIE}" for _, lane in lanes)
    otherwise = "; ".join(f"{lane.key} {words}" for _, lane in lanes if (words := does(lane)))
    return Stack(
        (
            Written(("people", first), names, "person", matters=7, breaks=True),
            Written(("does", first), otherwise, "does", "coach", 3, breaks=True),
        )
    )


def _unbroken(words: str) -> str:
    """In one piece; those who share a lane are parted where one of them ends."""
    return words.replace(" ", TIE).replace(f"{TIE}+{TIE}", f"{TIE}+ ")


def does(lane: BoardLane) -> str:
    """With whom, what otherwise and with what; nothing of what nobody has to be told."""
    partners = f"with {' and '.join(lane.partners)}" if lane.partners else ""
    otherwise = ", ".join(part for part in (lane.modification, lane.load) if part)
    return ", ".join(part for part in (partners, otherwise) if part and part != AS_WRITTEN)
