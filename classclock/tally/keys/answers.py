"""What is typed before enter, and needs no letter: a number that answers, and the third newest."""

import re

from msgspec.structs import replace

from classclock.tally.commands import Command, Next, SetNumber, TakeBack, TakeOut
from classclock.tally.keys.forms import read_form
from classclock.tally.scores.questions import ScoreQuestion

STOPPED_OR_LEAVES = "1: stopped in it   2: leaves now   escape: neither"
"""What `.n` asks after a piece."""


def read_newest(text: str) -> TakeBack | None:
    """What `-3` and then enter mean at any time; None for all else."""
    third = re.fullmatch(r"-[1-9]", text, re.ASCII)
    return TakeBack(newest=int(text[1])) if third else None


def read_answer(text: str, asked: ScoreQuestion | None, *, loads: bool) -> Command | str:
    """What `text` and then enter mean at the settle, or, in words, why they mean nothing.

    `asked` is what is asked first, if anything is. `loads`: scored by load.
    """
    if text.startswith(".") and len(text) > 1:
        return STOPPED_OR_LEAVES
    if text == "*":
        return Next(all_stands=True)
    if asked is not None and text == "-":
        return _no(asked)
    if asked is None or not text[0].isdigit():
        return waits_for_a_letter(text)
    if not asked.number:
        return (
            f"{asked.name} is asked, {asked.words} Escape drops {text}, then enter lets it stand, "
            f"- and enter takes it out; {text} and a letter is that one's number"
        )
    meant = read_form(text, asked.key, {asked.key: asked.lane}, loads=loads)
    if isinstance(meant, str):
        return meant
    return (
        _to_the_question(meant, asked) if isinstance(meant, SetNumber) else waits_for_a_letter(text)
    )


def waits_for_a_letter(text: str) -> str:
    wanted = "digit" if len(text) > 1 and text[0] == ":" else "letter"
    return f"{text.upper()} waits for a {wanted}: escape drops it, then enter"


def _no(asked: ScoreQuestion) -> Command | str:
    if asked.doubt == "not given":
        return f"{asked.name}: type a number, then enter; enter alone goes on without"
    return TakeOut(asked.lane, asked.doubt)


def _to_the_question(meant: SetNumber, asked: ScoreQuestion) -> SetNumber:
    """A number alone is what was asked for; `7+12` and `3:12` say more, and mean it."""
    if meant.rounds is not None or meant.interval is not None:
        return meant
    if asked.intervals:
        return replace(meant, interval=asked.intervals[0])
    return replace(meant, instead=asked.doubt == "load")
