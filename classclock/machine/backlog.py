"""What a terminal has not taken yet: painting may be left out, everything else may not."""

from collections import deque

from msgspec import Struct

_MOST_PAINTING = 200_000
"""Bytes of painting that may wait: all of a large wall takes 100,000 to 400,000."""
_SEQUENCE = b"\x1b["
"""Begins an escape sequence, and stands within none: before it there is nothing to be finished."""


class _Piece(Struct, frozen=True):
    data: bytes
    painting: bool


_SEAM = _Piece(b"\x1b[0m\x1b[?2026l", painting=False)
"""Ends what painting leaves open half-way: a colour, and an update that was to be shown at once."""


class Backlog:
    """Bytes in their order; `behind` once painting was left out, so that all must be painted anew.

    A piece is begun as soon as `rest` gave it out, and its escape sequence is always finished.
    """

    def __init__(self) -> None:
        self.behind = False
        self._waiting: deque[_Piece] = deque()
        self._painting = 0
        self._begun = _Piece(b"", painting=False)
        self._taken = 0

    def __bool__(self) -> bool:
        return bool(self._waiting) or self._taken < len(self._begun.data)

    def add(self, data: bytes, *, painting: bool) -> None:
        """Let it wait behind the rest; painting only where it can still be of use."""
        piece = _Piece(data, painting)
        if painting:
            if self._painting > _MOST_PAINTING:
                self.leave_out_painting()
            if self.behind:
                return
            self._painting += len(data)
        elif self.behind and piece in self._waiting:
            self._waiting.remove(piece)  # or the pointer's shapes would pile up
        self._waiting.append(piece)

    def rest(self) -> memoryview:
        """What is to be written next; empty when nothing is left."""
        if self._taken == len(self._begun.data) and self._waiting:
            self._begin(self._waiting.popleft())
        return memoryview(self._begun.data)[self._taken :]

    def took(self, count: int) -> None:
        """The terminal took so many bytes of what `rest` gave."""
        self._taken += count

    def leave_out_painting(self) -> None:
        """Drop the painting that has not begun."""
        self._waiting = deque(piece for piece in self._waiting if not piece.painting)
        self._painting = 0
        self.behind = True

    def cut_painting(self) -> None:
        """Drop all painting, what has begun from its next escape sequence on."""
        self.leave_out_painting()
        end = self._begun.data.find(_SEQUENCE, self._taken)
        if self._begun.painting and end >= 0:
            self._begun = _Piece(self._begun.data[:end], painting=True)
            self._waiting.appendleft(_SEAM)

    def start_again(self) -> None:
        """What was taken of the piece that has begun is lost: give it whole, or no painting."""
        self._taken = len(self._begun.data) if self._begun.painting else 0

    def _begin(self, piece: _Piece) -> None:
        self._begun, self._taken = piece, 0
        if piece.painting:
            self._painting -= len(piece.data)
