"""What isn't sure, or isn't as written: each has one sign and one word, and this is their table.

The screens, the printed results, the key help and the README take them from here. All are ASCII,
which every font has, and none is used twice: where there is no room for words the sign is all that
is left, and its colour never says it alone.
"""

from collections.abc import Mapping
from typing import Literal, get_args

from msgspec import Struct

Doubt = Literal["not given", "fast", "filled in", "load", "less"]
"""What is asked before a score is settled; journals hold these."""
Remark = Literal["missed one", "turn", "not all at once", "option", "corrected", "stopped"]
"""What is only said."""
GOAL_MARK = "\u2551"
"""Where a goal's pace would be, in a lane's bar: nothing else is drawn with a double line, which
nearly every font has; where there is ASCII only it is a capital I."""
GOAL_MEANS = "a goal: at its pace this round ends here, or so much work is done by now"
DOUBTS: tuple[Doubt, ...] = get_args(Doubt)
"""In the order in which one lane's are asked and shown."""


class Sign(Struct, frozen=True):
    sign: str
    word: str
    """What stands beside it where there is room for little."""
    meaning: str
    """For the help and the README."""
    flag: str = ""
    """What the words on it end with in the results; empty where they may end otherwise."""


SIGNS: Mapping[Doubt | Remark, Sign] = {
    "not given": Sign("?", "not given", "nobody has said it yet"),
    "fast": Sign('"', "came fast", "a round so short that it may be two taps", "is very short"),
    "filled in": Sign("~", "filled in", "a round that nobody called", "was filled in"),
    "load": Sign("^", "a load", "to be looked at again", "is far above earlier"),
    "less": Sign("<", "counts less", "a call that counts less than it said, or no more"),
    "missed one": Sign("_", "missed one?", "a round so long that a call may be missing"),
    "turn": Sign(">", "now", "whose turn it is at a bar that is shared"),
    "not all at once": Sign("&", "not all at once", "there are too few plates for that"),
    "option": Sign("%", "an option", "not as written"),
    "corrected": Sign("#", "corrected", "set right by hand, with a reason"),
    "stopped": Sign(")", "stopped early", "not ranked"),
}


def signed(kind: Doubt | Remark, words: str) -> str:
    """The words behind their sign."""
    return f"{SIGNS[kind].sign} {words}"


def told_by(flag: str) -> Doubt:
    """Which doubt a flag of the results is about, told by how its words end."""
    told = (kind for kind in DOUBTS if SIGNS[kind].flag and flag.endswith(SIGNS[kind].flag))
    return next(told, "less")
