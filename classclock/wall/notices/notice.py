"""One thing that is said to the coach, and how much it weighs."""

from typing import Literal

from msgspec import Struct

Weight = Literal["must", "refusal", "answer", "aside"]
"""`must`: has to be read. `refusal`: a key came to nothing. `answer`: what a key came to.
`aside`: good to know, and dropped where there is more to say."""


class Notice(Struct, frozen=True):
    text: str
    weight: Weight
    shorter: tuple[str, ...] = ()
    """Other wordings, for where the text doesn't fit its row; the fuller ones first."""
    key: str = ""
    """What it is about, where it stands for as long as something is wrong."""
    answered_by: tuple[str, ...] = ()
    """Signs of the keys after which it needs no more time."""
