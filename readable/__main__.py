"""What can be read from the back: `python -m readable`, or `make readable`.

Prints, worst first, how large each text is that the room needs, on every screen of a class, beside
how large it could be. `--read` has a sample read by tesseract instead (Debian's tesseract-ocr and
fonts-dejavu-core), from ten metres and sharp. Each option narrows down what is looked at.
"""

import argparse
import asyncio
import sys
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from itertools import product
from typing import get_args

from classclock.units.cell_dots import CellDots
from readable.made_class import Kind, Seen, Size, seen
from readable.names import Letters
from readable.reader import Found, read
from readable.room_texts import Role
from readable.script import STATES, State
from readable.table import HEAD, Line, lines, shown, worst_first

_SIZES = ("60x18", "80x24", "120x36", "160x45", "213x60")
_LANES = (1, 4, 8, 12, 20, 26)
_LETTERS: tuple[Letters, ...] = (3, 8, 14)
_READ_SIZES = ("60x18", "120x36", "213x60")
_READ_LANES = (8, 12, 20)
_READ_STATES: tuple[State, ...] = (
    *("board", "running", "settle", "end"),
    *("board, lift", "running, lift", "settle, lift"),
)
_READ_ROLES: tuple[Role, ...] = ("clock", "name", "movement", "set", "key", "tally", "load")


def main() -> int:
    asked = _arguments().parse_args()
    usual = (
        (_READ_SIZES, _READ_LANES, (0,), ("sextants",))
        if asked.read
        else (
            *(_SIZES, _LANES, _LETTERS),
            get_args(CellDots),
        )
    )
    sizes, lanes, letters, dots = (
        given or own
        for given, own in zip(
            (asked.size, asked.lanes, asked.letters, asked.dots), usual, strict=True
        )
    )
    states = asked.state or (_READ_STATES if asked.read else STATES)
    windows = tuple(Size(*map(int, size.split("x"))) for size in sizes)
    kinds = [Kind(*one) for one in product(lanes, letters, dots)]
    if asked.read:
        _read(kinds, windows, states)
    else:
        _measure(kinds, windows, states, asked.most)
    return 0


def _arguments() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="python -m readable", description=__doc__)
    parser.add_argument("--read", action="store_true", help="have it read, from afar and sharp")
    parser.add_argument("--state", action="append", choices=STATES)
    parser.add_argument("--size", action="append", metavar="COLUMNSxROWS")
    parser.add_argument("--lanes", action="append", type=int, choices=range(1, 27), metavar="N")
    parser.add_argument("--letters", action="append", type=int, choices=get_args(Letters))
    parser.add_argument("--dots", action="append", choices=get_args(CellDots))
    parser.add_argument("--most", type=int, default=0, help="so many lines of the table, not all")
    return parser


def _measure(
    kinds: Sequence[Kind], sizes: Sequence[Size], states: Sequence[State], most: int
) -> None:
    with ProcessPoolExecutor() as pool:
        found = pool.map(partial(_lines, sizes=sizes, states=states), kinds)
        every = worst_first(line for some in found for line in some)
    print(HEAD)
    for line in every[: most or None]:
        print(shown(line))
    small = [line for line in every if line.too_small]
    print(f"{len(every)} texts, {len(small)} of them smaller than they need be")


def _lines(kind: Kind, sizes: Sequence[Size], states: Sequence[State]) -> list[Line]:
    return [line for screen in _all(kind, sizes, states) for line in lines(screen)]


def _all(kind: Kind, sizes: Sequence[Size], states: Sequence[State]) -> list[Seen]:
    async def every() -> list[Seen]:
        return [screen async for screen in seen(kind, sizes, states)]

    return asyncio.run(every())


def _read(kinds: Sequence[Kind], sizes: Sequence[Size], states: Sequence[State]) -> None:
    print(f"{'state':<17}{'window':<8}{'lanes':>5} {'':<10}{'10 m':>6}{'sharp':>6}{'of':>5}")
    with ProcessPoolExecutor() as pool:
        for found in pool.map(partial(_found, sizes=sizes, states=states), kinds):
            print("\n".join(found), flush=True)


def _found(kind: Kind, sizes: Sequence[Size], states: Sequence[State]) -> list[str]:
    return [
        line
        for screen in _all(kind, sizes, states)
        for found in read(screen, _READ_ROLES)
        for line in _told(screen, found)
    ]


def _told(screen: Seen, found: Found) -> Iterator[str]:
    where = f"{screen.state:<17}{screen.size!s:<8}{screen.kind.lanes:>5} {found.role:<10}"
    yield f"{where}{found.far:>6}{found.sharp:>6}{found.count:>5}"
    if found.otherwise:
        yield f"    {'; '.join(found.otherwise)}"


if __name__ == "__main__":
    sys.exit(main())
