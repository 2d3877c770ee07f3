"""What is said of a lane beside its tally, in terminal text: on for, rank, split, modification."""

from collections.abc import Iterator, Sequence

from msgspec import Struct
from rich.cells import cell_len

from classclock.wall.lane_content import LaneContent
from classclock.wall.modification import AS_WRITTEN


class LaneNote(Struct, frozen=True):
    text: str
    standing: bool = False
    """Whether it says how the lane stands against its own best, and has that colour."""
    quiet: bool = False


def lane_notes(content: LaneContent, columns: int, rows: int) -> tuple[LaneNote, ...]:
    """One for each row, in as few words as they fit; what matters most stands first."""
    against = content.against
    if rows == 1:
        text = "" if content.planned else _fitting(columns, content.rank, content.on_for, against)
        detail = "" if text else _detail(content, columns)
        return (LaneNote(text or detail, standing=bool(against), quiet=not text),)
    first = _fitting(columns, content.on_for, against)
    split = f"last {content.split}" if content.split else ""
    detail = _detail(content, columns)
    lines = (
        LaneNote(first, standing=bool(against)),
        *_joined(columns, rows - 1, (content.rank, split, detail)),
    )
    return tuple(note for note in lines if note.text)[:rows]


def _joined(columns: int, rows: int, texts: Sequence[str]) -> Iterator[LaneNote]:
    """Each in a row of its own; where there are fewer rows those that fit beside each other."""
    left = [text for text in texts if text]
    while len(left) > rows and len(left) > 1:
        first, second, *others = left
        both = f"{first}  {second}"
        left = [both if cell_len(both) <= columns else first, *others]
    for text in left[:rows]:
        yield LaneNote(text, quiet=True)


def _detail(content: LaneContent, columns: int) -> str:
    """The modification, and the planned load in as many words as there is room for."""
    modified = "" if content.modification == AS_WRITTEN else content.modification
    planned = content.planned if content.turn else ()  # else it stands in a column of its own
    if not planned:
        return modified
    every = [*(f"{modified}, {words}" for words in planned if modified), *planned]
    return next((words for words in every if cell_len(words) <= columns), planned[-1])


def _fitting(columns: int, *texts: str) -> str:
    """As many of these as fit beside each other: of too many the first goes first."""
    left = [text for text in texts if text]
    while left:
        shown = "  ".join(left)
        for fewer in (shown, shown.replace("on for ", "→"), " ".join(left).replace("on for ", "→")):
            if len(fewer) <= columns:
                return fewer
        left = left[1:]
    return ""
