"""A mutant: a file with one small fault in it."""

from msgspec import Struct

from tests.mutants.source_text import Piece


class Mutant(Struct, frozen=True):
    """`after` in the place of a piece of the `source` at `path`."""

    path: str
    source: bytes
    piece: Piece
    after: str
    kind: str

    @property
    def room(self) -> str:
        return self.path.split("/")[1]

    @property
    def line(self) -> int:
        """The number of the first line that it changes, from 1."""
        return self.source[: self.piece.start].count(b"\n") + 1

    @property
    def applied(self) -> bytes:
        """The whole file with the fault."""
        return self.source[: self.piece.start] + self.after.encode() + self.source[self.piece.end :]

    @property
    def lines(self) -> tuple[str, str]:
        """The lines that it changes, before and after."""
        before, after = (text.decode().split("\n") for text in (self.source, self.applied))
        first = self.line - 1
        last = first + 1 + self.source[self.piece.start : self.piece.end].count(b"\n")
        return (
            " ".join(line.strip() for line in before[first:last]),
            " ".join(line.strip() for line in after[first : last + len(after) - len(before)]),
        )
