"""Letters for small boxes: a sign of size n is n columns wide."""

from msgspec import Struct


class ToyMeasure(Struct, frozen=True):
    """Numbers come in 1, 2, 3, 4; words not in 2; what has a tilde in the least alone."""

    def sizes(self, words: str, most: int) -> tuple[int, ...]:
        if "~" in words:
            return (1,)
        each = (1, 2, 3, 4) if words.replace("+", "").isdigit() else (1, 3, 4)
        return tuple(size for size in each if size <= most)

    def columns(self, words: str, size: int) -> int:
        return len(words) * (1 if "~" in words else size)
