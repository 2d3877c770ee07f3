"""What each trick wins, in pairs: the program with it and without it, one after the other.

`python -m benchmarks.tricks` tries all of them, `--only WORD` those whose names have it;
`--only kept:NAME` what is kept by those whose names begin so, `--only imports:ROOM` the imports
within the functions of a room, `kept:each` and `imports:each` one of them after the other.
`--count` tells how often each `lru_cache` is asked in one class.
"""

import argparse
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from tempfile import TemporaryDirectory

import msgspec
from rich.console import Console
from rich.table import Table

from benchmarks.tricks.chosen import ALL, chosen
from benchmarks.tricks.inner_imports import inner_imports
from benchmarks.tricks.pairs import HEADS, Pairs
from benchmarks.tricks.runs import (
    Kept,
    Run,
    Wall,
    counted,
    first_keys,
    piece,
    resized,
    start,
    turned,
)
from benchmarks.tricks.turning import TURNED
from benchmarks.tricks.without import INNER
from benchmarks.window import ROOT

NOTHING = "nothing"
_RUNS: Mapping[str, Run] = {
    "no collecting while loading": start,
    "no plugins looked for": start,
    "resize held": resized,
    "240 repaints": first_keys,
    "imports:": start,
    "kept:": start,
}
"""What a trick is measured by that needs no piece, or another one."""


def run_of(trick: str) -> Run:
    return next((run for name, run in _RUNS.items() if trick.startswith(name)), piece)


def measured(trick: str, pairs: int, wall: Wall) -> Mapping[str, Pairs]:
    """By figure; what is kept is tried in a start and, turned, in a piece that runs."""
    return {
        **(_turned(trick, pairs, wall) if trick.startswith(TURNED) else {}),
        **(_run(trick, pairs, wall) if not trick.startswith(TURNED) or ":" in trick else {}),
    }


def _turned(trick: str, pairs: int, wall: Wall) -> Mapping[str, Pairs]:
    figures = dict[str, Pairs]()
    for with_it, without_it in turned(wall, trick, pairs):
        for figure in with_it:
            figures.setdefault(figure, Pairs()).add(with_it[figure], without_it[figure])
    return figures


def _run(trick: str, pairs: int, wall: Wall) -> Mapping[str, Pairs]:
    """Which of the two comes first changes from pair to pair."""
    run, figures, failed = run_of(trick), dict[str, Pairs](), 0
    run(wall, NOTHING), run(wall, trick)  # the first of each, which may compile, is left out
    done = 0
    while done < pairs:
        order = (NOTHING, trick) if done % 2 else (trick, NOTHING)
        try:
            of = {one: run(wall, one) for one in order}
        except (TimeoutError, OSError) as error:
            failed += 1
            print(f"{trick}: a pair is left out: {error}", file=sys.stderr)
            if failed > pairs // 5 + 1:
                break
            continue
        done += 1
        for figure, having in of[NOTHING].items():
            figures.setdefault(figure, Pairs()).add(having, of[trick][figure])
    return figures


def count_table(kept: Kept) -> Table:
    """What each was asked for, and the time that it saved if a hit would take what a miss took."""
    table = Table("kept", "hits", "misses", "a miss, us", "saved, ms", "now", "bound", box=None)
    for name, one in sorted(kept.items(), key=lambda each: -_saved_ms(each[1])):
        miss = one["ns"] / max(1, one["misses"]) / 1000
        numbers = (one["hits"], one["misses"], f"{miss:.1f}", f"{_saved_ms(one):.2f}")
        table.add_row(name, *map(str, (*numbers, one["kept"], one["bound"])))
    return table


def _saved_ms(one: Mapping[str, int]) -> float:
    return one["hits"] * one["ns"] / max(1, one["misses"]) / 1e6


def tell(tricks: Sequence[str], pairs: int, wall: Wall) -> None:
    """Each figure as soon as it is there, and all of them when it is over or broken off."""
    table = Table("trick", "figure", *HEADS, box=None)
    try:
        for trick in tricks:
            for figure, measured_pairs in measured(trick, pairs, wall).items():
                row = (trick, figure, *measured_pairs.row())
                print("  ".join(row), file=sys.stderr, flush=True)
                table.add_row(*row)
    finally:
        Console(width=140).print(table)


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m benchmarks.tricks", description=__doc__)
    parser.add_argument("--pairs", type=int, default=30)
    parser.add_argument("--only", action="append", default=[], metavar="WORD")
    parser.add_argument(
        "--count", action="store_true", help="what is kept, and how often asked for"
    )
    parser.add_argument("--list", action="store_true", help="the names of the tricks")
    for name, usual in (("lanes", 12), ("columns", 120), ("rows", 36)):
        parser.add_argument(f"--{name}", type=int, default=usual)
    asked = parser.parse_args()
    if asked.list:
        print("\n".join(ALL))
        return 0
    with TemporaryDirectory(prefix="tricks-") as made:
        wall = Wall(Path(made), asked.lanes, asked.columns, asked.rows)
        inner = inner_imports(ROOT / "classclock")
        (wall.folder / INNER).write_bytes(msgspec.json.encode(inner))
        by_name = asked.count or any(word.startswith("kept:") for word in asked.only)
        kept = counted(wall) if by_name else {}
        if asked.count:
            Console(width=120).print(count_table(kept))
            return 0
        try:
            tricks = chosen(
                asked.only,
                [module.removeprefix("classclock.") for module in inner],
                [name for name, one in kept.items() if one["hits"]],
            )
        except ValueError as error:
            print(error, file=sys.stderr)
            return 1
        tell(tricks, asked.pairs, wall)
    return 0


if __name__ == "__main__":
    sys.exit(main())
