"""Words in several tones, one after the other, in as many rows as there are: pure."""

from collections.abc import Iterable, Iterator, Sequence

from msgspec import Struct
from rich.cells import cell_len, chop_cells, set_cell_size

from classclock.wall.coach.coach_values import LaneWords, WordTone

_MORE = "…"


class RowPiece(Struct, frozen=True):
    """Words of one tone in one row."""

    words: str
    tone: WordTone


def flowing(said: Sequence[LaneWords], columns: int, rows: int) -> tuple[tuple[RowPiece, ...], ...]:
    """At most so many rows, none wider; … where that isn't all of it."""
    if columns < 1 or rows < 1:
        return ()
    lines = list(_lines(_words(said, columns), columns))
    if len(lines) > rows:
        lines = lines[:rows]
        lines[-1] = _cut_off(lines[-1], columns)
    return tuple(map(_together, lines))


def _words(said: Sequence[LaneWords], columns: int) -> Iterator[RowPiece]:
    """One by one; what one is said of and the next are parted by a semicolon."""
    for number, one in enumerate(said, start=1):
        end = ";" if number < len(said) else ""
        for word in f"{one.words}{end}".split():
            for part in chop_cells(word, columns) if cell_len(word) > columns else (word,):
                yield RowPiece(part, one.tone)


def _lines(words: Iterable[RowPiece], columns: int) -> Iterator[list[RowPiece]]:
    line: list[RowPiece] = []
    wide = 0
    for word in words:
        room = cell_len(word.words) + bool(line)
        if line and wide + room > columns:
            yield line
            line, wide, room = [], 0, cell_len(word.words)
        line.append(word)
        wide += room
    if line:
        yield line


def _cut_off(line: list[RowPiece], columns: int) -> list[RowPiece]:
    wide = sum(cell_len(word.words) + 1 for word in line)
    if wide < columns:
        return [*line, RowPiece(_MORE, line[-1].tone)]
    last = line[-1]
    room = max(0, columns - (wide - 1 - cell_len(last.words)) - 1)
    return [*line[:-1], RowPiece(set_cell_size(last.words, room).rstrip() + _MORE, last.tone)]


def _together(line: Sequence[RowPiece]) -> tuple[RowPiece, ...]:
    """Neighbours of one tone as one piece; each but the first begins with the space before it."""
    found: list[RowPiece] = []
    for word in line:
        before = " " if found else ""
        if found and found[-1].tone == word.tone:
            found[-1] = RowPiece(f"{found[-1].words} {word.words}", word.tone)
        else:
            found.append(RowPiece(f"{before}{word.words}", word.tone))
    return tuple(found)
