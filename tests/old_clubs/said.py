"""What was said of an old club, as a file of `said/` has it, and where another answer differs."""

import csv
import json
import re
import shlex
from collections import Counter
from collections.abc import Iterator
from difflib import ndiff
from html.parser import HTMLParser
from pathlib import Path
from typing import Any, NamedTuple


class Said(NamedTuple):
    command: list[str]
    status: int
    parts: dict[str, str]
    """What was printed, and the files that were written, by name."""


def read_said(path: Path) -> Said:
    head, *parts = re.split(r"^==== ", path.read_text("utf-8"), flags=re.MULTILINE)
    command, status = head.splitlines()
    named = dict(part.split("\n", 1) for part in parts)
    words = shlex.split(command.removeprefix("$ classclock "))
    return Said(words, int(status.removeprefix("exit ")), named)


def differences(then: Said, now: Said) -> Iterator[str]:
    """A line for each; of JSON and CSV only what is gone or another, of a page only its words.

    Where on a page they stand is no matter: a printed sheet may say a name again.
    """
    if then.status != now.status:
        yield f"exit {now.status}, then {then.status}"
    for name in sorted(then.parts.keys() | now.parts.keys()):
        before, after = then.parts.get(name, ""), now.parts.get(name, "")
        if not before or not after:
            yield f"{name} is there only {'now' if after else 'then'}: {(before or after)[:400]}"
        elif name.endswith(".json") or (name == "stdout" and "--json" in then.command):
            yield from _lacking(json.loads(before), json.loads(after), name)
        elif name.endswith(".csv"):
            yield from _lacking(_rows(before), _rows(after), name)
        elif name.endswith(".html"):
            yield from _other_words(Counter(_Words(before).lines), Counter(_Words(after).lines))
        else:
            yield from _other_lines(before.splitlines(), after.splitlines())


def _other_lines(then: list[str], now: list[str]) -> Iterator[str]:
    """Lines that are gone, with -, and new ones, with +."""
    return (line for line in ndiff(then, now) if line[0] in "-+")


def _other_words(then: Counter[str], now: Counter[str]) -> Iterator[str]:
    """Words that are gone, or said less often, with -, and those that nobody said, with +."""
    yield from (f"- {line}" for line in then - now)
    yield from (f"+ {line}" for line in now if line not in then)


def _rows(table: str) -> list[dict[str, str]]:
    return list(csv.DictReader(table.splitlines()))


def _lacking(then: Any, now: Any, at: str) -> Iterator[str]:
    """What was said then and isn't now; keys that came since are no matter."""
    if isinstance(then, dict) and isinstance(now, dict):
        for key, value in then.items():
            if key in now:
                yield from _lacking(value, now[key], f"{at}.{key}")
            else:
                yield f"{at} has no {key} any more"
    elif isinstance(then, list) and isinstance(now, list):
        if len(then) != len(now):
            yield f"{at} has {len(now)} entries, then {len(then)}"
            gone = [one for one in then if all(any(_lacking(one, other, "")) for other in now)]
            come = [one for one in now if all(any(_lacking(other, one, "")) for other in then)]
            if len(then) - len(gone) == len(now) - len(come):
                # All others are there as they were: no need to compare them by their places.
                yield from (f"{at} lacks {json.dumps(one, ensure_ascii=False)}" for one in gone)
                return
        for place, (before, after) in enumerate(zip(then, now, strict=False)):
            yield from _lacking(before, after, f"{at}[{place}]")
    elif then != now:
        yield f"{at} is {now!r}, then {then!r}"


class _Words(HTMLParser):
    """The words of a page, without what only says how it looks."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.lines: list[str] = []
        self._styled = False
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._styled = tag == "style"

    def handle_endtag(self, tag: str) -> None:
        self._styled = False

    def handle_data(self, data: str) -> None:
        if not self._styled and data.strip():
            self.lines.append(" ".join(data.split()))
