"""When in its piece an entry was made."""

from msgspec import Struct


class EntryTime(Struct, frozen=True):
    """Milliseconds of the piece gone, not beyond its end; and how long after the end it was."""

    elapsed: int
    late_by: int
