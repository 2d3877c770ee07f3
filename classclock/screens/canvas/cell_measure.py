"""What letters measure in a terminal's cells, for the layout."""

from collections.abc import Sequence

from msgspec import Struct
from rich.cells import cell_len

from classclock.machine.terminal import Terminal
from classclock.screens.canvas.letters import dot_type, outline_type, plain_blocks
from classclock.screens.canvas.letters.lettering import in_outline, lettering_width


class CellMeasure(Struct, frozen=True):
    """Letters in a terminal's cells: sizes are rows, and one row is terminal text."""

    terminal: Terminal

    def sizes(self, words: str, most: int) -> tuple[int, ...]:
        if self.terminal.dots is None:
            return (1, *range(5, most + 1)) if plain_blocks.can_draw(words) else ()
        shown = in_outline(words)
        if outline_type.can_draw(shown):
            dotted = (3,) if dot_type.can_draw(words, self.terminal.dots) else ()
            first = 4 if outline_type.fills_rows(shown) else 5
            return (1, *dotted, *range(first, most + 1))
        if dot_type.can_draw(words, self.terminal.dots):
            return (1, *range(dot_type.ROWS, most + 1, dot_type.ROWS))
        single = words.split()
        if len(single) < 2:
            return ()
        # Some words are drawn and the others stand among them; four rows suit capitals alone.
        each = {size for word in single for size in self.sizes(word, most)}
        return tuple(sorted(each - {4}))

    def columns(self, words: str, size: int) -> int:
        if size == 1:
            return cell_len(words)
        if self.terminal.dots is None:
            drawn = plain_blocks.can_draw(words)
            return plain_blocks.text_width(words, size) if drawn else cell_len(words)
        return max(
            lettering_width(words, size, self.terminal),
            lettering_width(words, dot_type.ROWS, self.terminal),
        )


def room_for(words: Sequence[str]) -> str:
    """What is at least as wide as each of them, in letters and in terminal text."""
    widest = max(words, key=lambda one: lettering_width(one, dot_type.ROWS, Terminal()))
    return widest + " " * (max(map(cell_len, words)) - cell_len(widest))
