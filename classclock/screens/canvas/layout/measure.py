"""What letters measure: handed in, so that the rule needs to know nothing of them."""

from typing import Protocol


class Measure(Protocol):
    """A size is the height of a line, in whatever a box is measured in."""

    def sizes(self, words: str, most: int) -> tuple[int, ...]:
        """Those in which the words come, ascending; none where they come in the least alone."""

    def columns(self, words: str, size: int) -> int:
        """How wide they are then; never narrower in a larger size."""

    def __hash__(self) -> int:
        """What was measured is kept by it."""
