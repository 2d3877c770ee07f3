"""What a command says: lines for people, documents for programs."""

import json
import shutil
from typing import TYPE_CHECKING, Any

from classclock.machine import standard_streams
from classclock.machine.standard_streams import say, say_document, say_styled
from classclock.units.printable import printable

if TYPE_CHECKING:
    from rich.console import RenderableType


def say_wrong(text: str) -> None:
    """Write one line to standard error."""
    standard_streams.say_wrong(printable(text, longest=2000))


def print_json(document: object) -> None:
    """Print one document, as UTF-8."""
    say_document(json.dumps(document, ensure_ascii=False, indent=1))


def print_answer(values: dict[str, Any], *lines: str, as_json: bool) -> None:
    """Print the same for programs, or for people."""
    if as_json:
        print_json(values)
    else:
        say(*lines)


def print_tables(*shown: "RenderableType") -> None:
    """Print what rich draws; every text in it must be `printable` already."""
    from rich.console import Console  # noqa: PLC0415  rich takes its time, and JSON does without

    console = Console(highlight=False)
    with console.capture() as captured:
        for each in shown:
            console.print(each)
    say_styled(captured.get())


def page_width() -> int:
    """How many columns a page has in this terminal, 60 at least."""
    return max(60, shutil.get_terminal_size().columns)


def say_left_out(number: int) -> None:
    """Say how many aren't on a page, if any, and how they come onto it.

    On standard error: the page itself goes to others.
    """
    if number:
        who = "1 person is" if number == 1 else f"{number} people are"
        say_wrong(f'{who} kept off the wall, and so off this page: --with "NAME" puts them on it')


def counted(number: int, one: str, many: str) -> str:
    """`1 class`, `2 classes`."""
    return f"{number} {one if number == 1 else many}"
