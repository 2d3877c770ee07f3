"""What it costs a key that others look on: `python -m benchmarks.beside`.

A round is four classes one after the other: nobody beside it, 64 viewers at its page, a thousand
connections at a time thrown at that page, twenty walls in terminals of their own. The same keys are
struck in each. Printed are p50 and p99 of all, and what a round's p50 and p99 are more than with
nobody: the median of the differences, and where it lies with 95 % confidence.
"""

import argparse
import socket
import subprocess
import sys
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from pathlib import Path

from rich.console import Console
from rich.table import Table

from benchmarks.key_to_screen import rounds_struck
from benchmarks.programs import ClassWindow, a_piece
from benchmarks.tricks.pairs import Pairs
from benchmarks.window import ROOT, percentile
from classclock.club.page_secret_file import kept_secret
from classclock.serve.address import new_secret
from classclock.serve.viewers import MOST_VIEWERS

LANES = 12
FLOOD = 1000
WALLS = 20
SETTLING = 12
"""Seconds until all of them look on."""


def a_free_port() -> int:
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        return int(found.getsockname()[1])


class Nobody:
    """None of the below."""

    def options(self, _: Path) -> Sequence[str]:
        """What the class is started with."""
        return ()

    def command(self, _: Path) -> Sequence[str]:
        """The module that looks on at the class of this folder, and what it takes; or none."""
        return ()


class AtAPage(Nobody):
    """So many at the page of the class."""

    def __init__(self, *who: str) -> None:
        self._who, self._port, self._secret = who, a_free_port(), new_secret()

    def options(self, folder: Path) -> Sequence[str]:
        (folder / "club.toml").write_text("[page]\nsame_address = true\n", "utf-8")
        kept_secret(folder, self._secret)
        return "--serve", "--port", str(self._port)

    def command(self, _: Path) -> Sequence[str]:
        url = f"http://127.0.0.1:{self._port}/{self._secret}/"
        return "benchmarks.looking_on", *self._who, url


class Walls(Nobody):
    """Twenty terminals with the room's wall."""

    def command(self, folder: Path) -> Sequence[str]:
        return "benchmarks.walls", str(WALLS), str(folder)


@contextmanager
def beside(one: Nobody, window: ClassWindow) -> Iterator[None]:
    with ExitStack() as started:
        if command := one.command(window.club):
            process = subprocess.Popen((sys.executable, "-m", *command), cwd=ROOT)
            started.callback(process.wait)
            started.callback(process.terminate)
        window.look_on(SETTLING)
        yield


def struck(one: Nobody, keys: int) -> list[float]:
    """Milliseconds of each key, one after the other."""
    with a_piece(LANES, options=one.options) as window, beside(one, window):
        return rounds_struck(window, keys, LANES)


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m benchmarks.beside", description=__doc__)
    parser.add_argument("--rounds", type=int, default=8, help="of all four (%(default)s)")
    parser.add_argument("--keys", type=int, default=60, help="in each class (%(default)s)")
    asked = parser.parse_args()
    every: dict[str, list[list[float]]] = {}
    for number in range(asked.rounds):
        those = {
            "nobody": Nobody(),
            f"{MOST_VIEWERS} viewers": AtAPage("--viewers", str(MOST_VIEWERS)),
            f"{FLOOD} connections": AtAPage("--flood", str(FLOOD)),
            f"{WALLS} walls": Walls(),
        }
        for name, one in those.items():
            every.setdefault(name, []).append(struck(one, asked.keys))
        print(f"round {number + 1} of {asked.rounds}", file=sys.stderr)
    table = Table("a key, ms", "p50", "p99", "most", "p50 more (95 %)", "p99 more (95 %)", box=None)
    for name, rounds in every.items():
        all_keys = [one for keys in rounds for one in keys]
        told = [f"{percentile(all_keys, part):.2f}" for part in (50, 99, 100)]
        more = [_more(every["nobody"], rounds, part) for part in (50, 99)]
        table.add_row(name, *told, *(more if name != "nobody" else []))
    Console(width=120).print(table)
    return 0


def _more(alone: Sequence[list[float]], beside: Sequence[list[float]], part: int) -> str:
    pairs = Pairs()
    for one, other in zip(alone, beside, strict=True):
        pairs.add(percentile(one, part), percentile(other, part))
    low, high = pairs.interval or (min(pairs.differences), max(pairs.differences))
    return f"{pairs.gain:+.2f} ({low:+.2f} to {high:+.2f})"


if __name__ == "__main__":
    sys.exit(main())
