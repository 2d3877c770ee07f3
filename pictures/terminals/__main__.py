"""What of the wall is read in real terminals: `python -m pictures.terminals`, or `make terminals`.

Each is started on a screen of its own (Xvfb), in two sizes of the window. Pictures go to a folder,
and a table says what was read where. `--letters` says how letters are drawn, whatever the terminal
is known to draw. Debian's packages: xvfb, x11-xserver-utils, tesseract-ocr, fonts-dejavu-core, and
the terminals.
"""

import argparse
import sys
from pathlib import Path

from pictures.terminals.reading import Eye, Read
from pictures.terminals.windows import EMULATORS, Shot, screen, shot

_INTO = Path("build/terminals")
_SIZES = ((120, 36), (213, 60))
_TOLD = ("terminal", "window", "taken for", "letters", "colours")
_READ = ("clock", "names", "keys", "tallies")


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m pictures.terminals")
    parser.add_argument("names", nargs="*", metavar="NAME", help=", ".join(EMULATORS))
    parser.add_argument("--letters", choices=["sextants", "quadrants", "halves"], default="")
    parser.add_argument("--into", type=Path, default=_INTO, help=f"a folder ({_INTO})")
    asked = parser.parse_args()
    asked.into.mkdir(parents=True, exist_ok=True)
    print(_row(*_TOLD, "", *_READ))
    with screen() as display:
        for name in asked.names or EMULATORS:
            for size in _SIZES:
                try:
                    seen = shot(name, *size, display, asked.letters)
                except RuntimeError as error:
                    print(f"{name}: {error}")
                    break
                _tell(name, seen, asked.into, asked.letters)
    return 0


def _tell(name: str, seen: Shot, into: Path, letters: str) -> None:
    """Two lines of the table, and what was read otherwise; the pictures in their folder."""
    facts = seen.facts
    size = f"{facts.columns}x{facts.rows}"
    told: tuple[str, ...] = name, size, facts.kind, facts.dots, _colours(facts.colours)
    for how, far in (("sharp", False), ("10m", True)):
        eye = Eye(seen.picture, facts, far)
        stem = "-".join(filter(None, (name, size, letters, how)))
        eye.seen().save(into / f"{stem}.png")
        found = eye.read()
        print(_row(*told, how, *_counts(found)), flush=True)
        told = ("",) * len(told)
        if found.otherwise:
            print(f"    {'; '.join(found.otherwise)}")


def _colours(number: int) -> str:
    return str(number) if number <= 256 else "all"


def _counts(found: Read) -> tuple[str, ...]:
    numbers = (found.names, found.keys, found.tallies)
    return ("yes" if found.clock else "no", *(f"{some} of {all_}" for some, all_ in numbers))


def _row(*cells: str) -> str:
    widths = (15, 8, 13, 10, 8, 6, 6, 8, 8, 8)
    return "".join(cell.ljust(wide) for cell, wide in zip(cells, widths, strict=True)).rstrip()


if __name__ == "__main__":
    sys.exit(main())
