"""Where a text stands on a screen, how large, and whether it is whole."""

import re
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache

from msgspec import Struct

from classclock.screens.canvas.cells import Drawing
from readable.heights import capital_rows
from readable.made_class import Seen
from readable.marked_look import Ledger, Said, marks


class Piece(Struct, frozen=True):
    """A text as it stands on the screen, in cells from its upper left corner."""

    said: Said
    page: int
    x: int
    y: int
    columns: int
    rows: int

    @property
    def high(self) -> float:
        """A capital's height, in rows."""
        return capital_rows(self.said)


def pieces(seen: Seen) -> tuple[Piece, ...]:
    """All texts that are seen whole; what lies under another, or is cut off, isn't there."""
    return tuple(
        piece
        for number, page in enumerate(seen.pages)
        for piece in _on_page(number, page, seen.ledger)
    )


def _on_page(number: int, page: Drawing, ledger: Ledger) -> Iterator[Piece]:
    places: dict[int, list[tuple[int, int, str]]] = {}
    for x, y, text, mark in marks(page):
        if mark is not None:
            places.setdefault(mark, []).append((x, y, text))
    for mark, runs in places.items():
        said = ledger.of(mark)
        if not said.text.strip() or _inked(text for _, _, text in runs) < _drawn(said):
            continue
        left, top = min(x for x, _, _ in runs), min(y for _, y, _ in runs)
        right = max(x + len(text) for x, _, text in runs)
        bottom = max(y for _, y, _ in runs) + 1
        yield Piece(said, number, left, top, right - left, bottom - top)


def _drawn(said: Said) -> int:
    """Signs that its drawing has; more than any screen, if its words were cut when it was drawn."""
    if not said.large and _squeezed(said.text) not in _squeezed(_text(said)):
        return 1 << 30
    return _inked(segment.text for row in said.drawing for segment in row)


def _text(said: Said) -> str:
    return "".join(segment.text for segment in said.drawing[0]) if said.drawing else ""


def _squeezed(text: str) -> str:
    return "".join(text.split())


def _inked(texts: Iterable[str]) -> int:
    return sum(len(_squeezed(text)) for text in texts)


def standing(every: Sequence[Piece], texts: Sequence[str]) -> list[tuple[Piece, ...]]:
    """For each text the pieces in which it stands, as large as it does; none if it lacks.

    A text that must stand there several times has as many places of its own.
    """
    return [_standing(every, text, texts[:at].count(text)) for at, text in enumerate(texts)]


def _standing(every: Sequence[Piece], text: str, before: int) -> tuple[Piece, ...]:
    wanted = " ".join(text.casefold().split())
    exact = [piece for piece in every if _said(piece) == wanted]
    within = [piece for piece in every if _pattern(wanted).search(_said(piece))]
    for found in (exact, within):
        largest = sorted(found, key=lambda piece: -piece.high)
        if len(largest) > before:
            return (largest[before],)
    if " " not in wanted:
        return ()
    # It may stand in several lines, beside others that have one of its words alone.
    words = [[one for one in every if _pattern(word).search(_said(one))] for word in wanted.split()]
    if not all(words):
        return ()
    return tuple(dict.fromkeys(max(found, key=lambda piece: piece.high) for found in words))


def _said(piece: Piece) -> str:
    return " ".join(piece.said.text.casefold().split())


@lru_cache(maxsize=4096)
def _pattern(text: str) -> "re.Pattern[str]":
    return re.compile(rf"(?<![\w+:.]){re.escape(text)}(?![\w+:]|\.\d)")
