"""Put small faults into the pure rooms, one at a time, and see whether their tests notice.

    python -m tests.mutants [--room tally]… [--file PATH]… [--count 300] [--seed 1]

The faults are chosen by chance, the same for the same seed, as many in each room. Each is tried in
a copy of the tree against the tests of its own room. What survives is printed: either a test is
missing, or it changes no answer, and then `judged.toml` says why.
"""

# ruff: noqa: T201  a script that prints

import argparse
import queue
import random
import sys
from collections import Counter
from collections.abc import Iterable, Iterator
from concurrent.futures import ThreadPoolExecutor, as_completed
from itertools import islice
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.mutants.finding import is_another_program, mutants
from tests.mutants.judged import stale, why
from tests.mutants.mutant import Mutant
from tests.mutants.trying import FATES, Copy, FailsAnywayError, Fate

ROOT = Path(__file__).parent.parent.parent
ROOMS = ("units", "plan", "clock", "strength", "tally")


def main() -> int:
    asked = _arguments()
    chosen = list(_chosen(asked))
    print(f"{len(chosen)} mutants, seed {asked.seed}", flush=True)
    fates: Counter[tuple[str, Fate]] = Counter()
    try:
        for mutant, fate in _tried(chosen, asked.processes):
            fates[mutant.room, fate] += 1
            if fate == "survived":
                print(_survivor(mutant), flush=True)
    except FailsAnywayError as error:
        print(error)
        return 1
    print(_table(fates))
    for one in stale(ROOT):
        print(f"\njudged.toml: {one.file} has no such line any more:\n  - {one.before}")
    return 0


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.mutants")
    parser.add_argument("--room", action="append", choices=ROOMS, help="all, if none is named")
    parser.add_argument("--file", action="append", help="only mutants of this file")
    parser.add_argument("--count", type=int, default=300, help="how many (%(default)s)")
    parser.add_argument("--seed", type=int, default=1, help="which (%(default)s)")
    parser.add_argument("--processes", type=int, default=2, help="at once (%(default)s)")
    return parser.parse_args()


def _chosen(asked: argparse.Namespace) -> Iterator[Mutant]:
    """By chance: as many in each room as in the others, where it has so many."""
    files = (
        [[ROOT / name for name in asked.file]]
        if asked.file
        else [sorted((ROOT / "classclock" / room).rglob("*.py")) for room in asked.room or ROOMS]
    )
    for number, group in enumerate(files):
        share = asked.count * (number + 1) // len(files) - asked.count * number // len(files)
        yield from _some(group, share, asked.seed)


def _some(files: Iterable[Path], count: int, seed: int) -> Iterator[Mutant]:
    found = [
        mutant
        for path in files
        for mutant in mutants(path.relative_to(ROOT).as_posix(), path.read_bytes())
    ]
    random.Random(seed).shuffle(found)  # noqa: S311  a sample, no secret
    yield from islice(filter(is_another_program, found), count)


def _tried(chosen: Iterable[Mutant], processes: int) -> Iterator[tuple[Mutant, Fate]]:
    with TemporaryDirectory(prefix="classclock-mutants-") as folder:
        free: queue.Queue[Copy] = queue.Queue()
        for number in range(processes):
            free.put(Copy(ROOT, Path(folder) / str(number)))

        def attempt(mutant: Mutant) -> tuple[Mutant, Fate]:
            copy = free.get()
            try:
                return mutant, copy.fate(mutant)
            finally:
                free.put(copy)

        with ThreadPoolExecutor(processes) as pool:
            for done in as_completed([pool.submit(attempt, mutant) for mutant in chosen]):
                yield done.result()


def _survivor(mutant: Mutant) -> str:
    before, after = mutant.lines
    reason = why(mutant)
    verdict = f"may survive: {reason}" if reason else "a test is missing, or judged.toml says why"
    return f"\n{mutant.path}:{mutant.line}  {mutant.kind}\n  - {before}\n  + {after}\n  {verdict}"


def _table(fates: Counter[tuple[str, Fate]]) -> str:
    rows = [f"\n{'room':10}{'mutants':>10}" + "".join(f"{fate:>11}" for fate in FATES)]
    for room in sorted({room for room, _ in fates}):
        each = [fates[room, fate] for fate in FATES]
        rows.append(f"{room:10}{sum(each):10}" + "".join(f"{one:11}" for one in each))
    return "\n".join(rows)


if __name__ == "__main__":
    sys.exit(main())
