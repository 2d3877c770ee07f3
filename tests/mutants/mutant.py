"""A mutant: a file with one small fault in it."""

from msgspec import Struct

from tests.mutants.source_text import Piece


class Mutant(Struct, frozen=True):
    """`after` in the place of a piece of the file at `path`."""

    path: str
    line: int
    piece: Piece
    after: str
    kind: str

    @property
    def room(self) -> str:
        return self.path.split("/")[1]

    def applied(self, source: bytes) -> bytes:
        return source[: self.piece.start] + self.after.encode() + source[self.piece.end :]

    def lines(self, source: bytes) -> tuple[str, str]:
        """The lines that it changes, before and after."""
        before, after = (text.decode().split("\n") for text in (source, self.applied(source)))
        first = self.line - 1
        last = first + len(source[self.piece.start : self.piece.end].decode().split("\n"))
        return (
            " ".join(line.strip() for line in before[first:last]),
            " ".join(line.strip() for line in after[first : last + len(after) - len(before)]),
        )
