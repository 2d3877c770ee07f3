"""What a command says: lines for people, documents for programs."""

import json
import shutil
import sys
from typing import Any

from classclock.units.printable import printable


def say_wrong(text: str) -> None:
    """Write one line to standard error."""
    print(printable(text, longest=2000), file=sys.stderr)


def print_json(document: object) -> None:
    """Print one document."""
    print(json.dumps(document, ensure_ascii=False, indent=1))


def print_answer(values: dict[str, Any], said: str, *, as_json: bool) -> None:
    """Print the same for programs, or for people."""
    if as_json:
        print_json(values)
    else:
        print(said)


def page_width() -> int:
    """How many columns a page has in this terminal, 60 at least."""
    return max(60, shutil.get_terminal_size().columns)


def counted(number: int, one: str, many: str) -> str:
    """`1 class`, `2 classes`."""
    return f"{number} {one if number == 1 else many}"
