"""On the last screen a number is how hard it was: the room may see that one is typed, not which."""

import re

UNSEEN = "•"


def unseen(text: str, typed: str) -> str:
    """The text with a dot for each digit of the number that `typed` begins with; else as it is.

    Part of it may stand in the text too: `7` of what has become `77`.
    """
    found = re.match(r"\d+", typed, re.ASCII)
    if found is None:
        return text
    begun = (found[0][:length] for length in range(len(found[0]), 0, -1))
    number = rf"(?<![\d.])(?:{'|'.join(begun)})(?![\d.])"
    return re.sub(number, lambda one: UNSEEN * len(one[0]), text, flags=re.ASCII)
