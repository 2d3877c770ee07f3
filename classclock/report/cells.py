"""How wide text is in a terminal, where one sign may take two cells or none."""

from collections.abc import Sequence

from rich.cells import cell_len


def pad(texts: Sequence[str]) -> list[str]:
    """The texts, all filled up with blanks to the width of the widest."""
    widest = max(map(cell_len, texts), default=0)
    return [text + " " * (widest - cell_len(text)) for text in texts]
