"""Words in lines: broken between words, never between a number and its unit."""

import re

from classclock.screens.canvas.layout.measure import Measure

_BREAKS = re.compile(r" +(?!(?:kg|lb|m|km|cal|s|min)\b)")


def unbroken(words: str) -> list[str]:
    """What stays together."""
    return [word for word in _BREAKS.split(words) if word]


class Breaking:
    """A text in as few lines as it takes; each run of its words is measured once in a size."""

    def __init__(self, text: str, measure: Measure) -> None:
        self._words = unbroken(text)
        self._measure = measure
        self._runs: dict[tuple[int, int, int], int] = {}
        self._widest: dict[int, int] = {}

    def __len__(self) -> int:
        return len(self._words)

    def widest(self, size: int) -> int:
        """Columns of the widest of what stays together."""
        if size not in self._widest:
            self._widest[size] = max(self._run(at, at + 1, size) for at in range(len(self)))
        return self._widest[size]

    def _run(self, first: int, end: int, size: int) -> int:
        at = first, end, size
        if at not in self._runs:
            self._runs[at] = self._measure.columns(" ".join(self._words[first:end]), size)
        return self._runs[at]

    def ends(self, columns: int, size: int) -> list[int]:
        """Before which word each line ends; what is too wide has a line of its own."""
        ends: list[int] = []
        first, words = 0, len(self._words)
        for end in range(1, words):
            if self._run(first, end + 1, size) > columns:
                ends.append(end)
                first = end
        return [*ends, words]

    def lines(self, columns: int, size: int) -> tuple[str, ...]:
        ends = self.ends(columns, size)
        return tuple(
            " ".join(self._words[first:end]) for first, end in zip([0, *ends], ends, strict=False)
        )
