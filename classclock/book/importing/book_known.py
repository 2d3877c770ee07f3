"""What the book has, to hold a sheet against."""

from collections.abc import Mapping

from msgspec import Struct, field

from classclock.book.importing.powers import UsualScores
from classclock.records.result import ScoreKind


class BookKnown(Struct, frozen=True):
    kinds: Mapping[str, ScoreKind] = field(default_factory=dict)
    """How each benchmark is scored."""
    usual: UsualScores = field(default_factory=dict)
    names: tuple[str, ...] = ()
    called: Mapping[str, str] = field(default_factory=dict)
    """What each benchmark is called."""
