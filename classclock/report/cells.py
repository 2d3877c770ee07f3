"""How wide text is in a terminal, where one sign may take two cells or none."""

from collections.abc import Sequence

from rich.cells import cell_len, chop_cells


def pad(texts: Sequence[str]) -> list[str]:
    """The texts, all filled up with blanks to the width of the widest."""
    widest = max(map(cell_len, texts), default=0)
    return [text + " " * (widest - cell_len(text)) for text in texts]


def wrapped(text: str, wide: int) -> list[str]:
    """The text in lines of so many cells at most, broken between words; a longer word within."""
    lines = [""]
    for word in text.split():
        for part in [word] if cell_len(word) <= wide else chop_cells(word, wide):
            longer = f"{lines[-1]} {part}".strip()
            if cell_len(longer) <= wide:
                lines[-1] = longer
            else:
                lines.append(part)
    return lines
