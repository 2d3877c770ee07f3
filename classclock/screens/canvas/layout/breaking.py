"""Words in lines: broken between words, never between a number and its unit."""

import re

from classclock.screens.canvas.layout.measure import Measure

_BREAKS = re.compile(r" +(?!(?:kg|lb|m|km|cal|s|min)\b)")


def unbroken(words: str) -> list[str]:
    """What stays together."""
    return [word for word in _BREAKS.split(words) if word]


def lines_of(words: str, columns: int, size: int, measure: Measure) -> tuple[str, ...]:
    """The words in as few lines as they take; what is too wide by itself has a line of its own."""
    lines: list[str] = []
    for word in unbroken(words):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and measure.columns(longer, size) <= columns:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)
