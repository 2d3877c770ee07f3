"""The plan that a class ran, from the opening of its journal: the rest of it isn't read."""

import json
import tomllib
from functools import lru_cache
from pathlib import Path

from pydantic import ValidationError

from classclock.machine.plain_file import open_file
from classclock.plan.model import Plan

_OPENING = 3
"""The class's opening stands within so many lines: the first is an anchor."""
_LONGEST = 4_000_000


def plan_in(journal: Path) -> Plan | None:
    """The plan of the class with this journal; None where it is gone or can't be read."""
    try:
        with open_file(journal) as opened:
            for _ in range(_OPENING):
                line = json.loads(opened.readline(_LONGEST))
                if line.get("event") == "ClassOpened":
                    return read_again(str(line["plan_text"]), str(line.get("unit")))
    except (OSError, ValueError, AttributeError, KeyError, RecursionError):
        return None
    return None


@lru_cache(maxsize=512)
def read_again(text: str, unit: str) -> Plan | None:
    """A plan that was checked when it ran; None where it isn't one to this version.

    Several classes a day run one plan: each text is read once.
    """
    try:
        return Plan.model_validate(tomllib.loads(text), context={"unit": unit})
    except (tomllib.TOMLDecodeError, ValidationError, RecursionError):
        return None
