"""Measure, and print each figure beside its floor. No gates: machines differ."""

import argparse
import sys
from collections.abc import Iterator

from msgspec.structs import replace
from rich.console import Console
from rich.table import Table

from benchmarks.burst import burst
from benchmarks.figure import HEADS, Figure
from benchmarks.first_paint import first_paint
from benchmarks.key_to_screen import key_to_screen
from benchmarks.movements import checking, proposing
from benchmarks.partners import a_three, few_plates, pairing
from benchmarks.real_minute import real_minute
from benchmarks.rehearsing import rehearsing
from benchmarks.share_of_core import share_of_core
from benchmarks.turning import turning
from benchmarks.weeks import last_weeks

SIZES = ((120, 36), (240, 70))
LANES = (12, 26)


def figures(*, quick: bool) -> Iterator[Figure]:
    """What has a number that is wanted."""
    starts = 2 if quick else 5
    yield first_paint(8 * starts)  # single starts differ by a tenth
    yield from key_to_screen(starts, keys=24 if quick else 60)
    yield from turning(1 if quick else starts, turns=5 if quick else 20)
    yield from burst(1 if quick else starts)
    yield share_of_core(starts, seconds=5 if quick else 12)
    yield rehearsing(3)
    yield proposing()
    yield checking()
    yield last_weeks()
    yield pairing()
    yield a_three()
    yield few_plates()
    yield real_minute(10 if quick else 60)


def growth(*, quick: bool) -> Iterator[Figure]:
    """How the same figures grow with the lanes and with the screen."""
    starts = 1 if quick else 3
    for columns, rows in SIZES:
        for lanes in LANES:
            size = f"{lanes} lanes, {columns}x{rows}: "
            one = first_paint(4 * starts, lanes, columns, rows)
            keys = key_to_screen(starts, 26, lanes, columns, rows)
            for figure in (one, *keys, share_of_core(starts, 6, lanes, columns, rows)):
                yield replace(figure, name=size + figure.name)


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m benchmarks", description=__doc__)
    parser.add_argument("--quick", action="store_true", help="fewer starts, less certain")
    parser.add_argument("--growth", action="store_true", help="12 and 26 lanes, on two sizes")
    asked = parser.parse_args()
    table = Table(*HEADS, box=None, pad_edge=False)
    measured = growth(quick=asked.quick) if asked.growth else figures(quick=asked.quick)
    for figure in measured:
        print("  ".join(figure.row()), file=sys.stderr)
        table.add_row(*figure.row())
    Console(width=140).print(table)
    return 0


if __name__ == "__main__":
    sys.exit(main())
