"""A key of a file that a coach writes: what it takes, in words, and how it is typed."""

from difflib import get_close_matches
from typing import Literal

from msgspec import Struct

Form = Literal["as in the file", "lines", "date", "steps", "sets", "load", "numbers", "cues"]
"""How a value is typed in the editor; `editing/values.py` turns each into TOML and back."""

TEXT = "text"
TIME = "a time above 0:00"
LINES = "text, or a list of texts"
LOAD = "a load"
COUNT = "a whole number from 1 to 100000"
YES = "true or false"


class FileKey(Struct, frozen=True):
    takes: str
    example: str
    """In TOML."""
    hint: str = ""
    """What the editor says beside it."""
    form: Form = "as in the file"
    choices: tuple[str, ...] = ()
    """The words that the editor proposes."""

    @property
    def is_text(self) -> bool:
        """Whether any words in quotes would do, so that a value can be kept as it was meant."""
        return self.takes == TEXT or self.takes.startswith("one of")

    @property
    def takes_words(self) -> bool:
        """Whether words that lack their quotes can be quoted as they stand."""
        return self.is_text or self.takes.startswith(TEXT) or self.takes == LOAD


def nearest(written: str, known: tuple[str, ...]) -> str | None:
    """Find what was meant, if anything is near enough."""
    matches = get_close_matches(written.lower(), known, n=1, cutoff=0.6)
    return matches[0] if matches else None
