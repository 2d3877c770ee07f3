"""Tables and signs of Markdown."""

from collections.abc import Iterable, Sequence

MADE = "<!-- Made by `python -m docs`: what stands here is changed where the program says it. -->"


def code(text: str) -> str:
    """As it is typed; nothing where there is nothing to type."""
    return f"`{text}`" if text else ""


def table(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    lines = [heads, ["---"] * len(heads), *rows]
    return "\n".join(f"| {' | '.join(map(_cell, line))} |" for line in lines)


def _cell(text: str) -> str:
    return " ".join(text.split()).replace("|", r"\|")


def page(*parts: str) -> str:
    """The parts with a free line between, and the line that says how it was made."""
    return "\n\n".join((MADE, *parts)) + "\n"
