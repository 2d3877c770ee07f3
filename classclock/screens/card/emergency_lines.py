"""What the emergency card says, and what is under it: its keys, or a line that is typed."""

from collections.abc import Iterator

from classclock.plan.settings.club import Emergency
from classclock.screens.canvas.layout.parts import Arrangement, Stack, Written
from classclock.screens.controls.line_entry import unread_by_the_room
from classclock.wall.emergency_words import (
    DISPATCHER,
    RULES,
    TO_THE_DOOR,
    call_words,
    lacks,
    place_words,
)

AT_ONCE = ("call", "door")
"""What is to be done at once, by name; the call is the largest of all."""
FOR_THE_ROOM = ("door", "place")
"""The other groups that the room has to read."""


def card_parts(card: Emergency, *, before: bool) -> Arrangement:
    """What is to be done at once, then the rest. Of what the room reads nothing is left out.

    `before` as in `other_lines`.
    """
    others = other_lines(card, before=before)
    return Stack((Stack(first_lines(card)), Stack(others, air=2)), air=1)


def first_lines(card: Emergency) -> tuple[Written, ...]:
    """What is to be done at once, whatever the card lacks; whom to call first."""
    return (
        _for_the_room("call", call_words(card), "call", matters=4),
        _for_the_room("door", TO_THE_DOOR, "door", matters=2),
    )


def other_lines(card: Emergency, *, before: bool) -> tuple[Written, ...]:
    """Where we are and where the help is, as far as is known; whom to obey; what the card lacks.

    `before`: nothing of this class has been started, so that no clock can be held.
    """
    return tuple(_other_lines(card, before=before))


def _other_lines(card: Emergency, *, before: bool) -> Iterator[Written]:
    for field, words in place_words(card):
        yield _for_the_room(field, words, "place", matters=3)
    # These may be smaller, but go last of what isn't for the room.
    for name, words in (("dispatcher", DISPATCHER), ("rules", RULES)):
        yield Written(name, words, "obey", role="coach", matters=1, breaks=True)
    if not before:
        yield _for_the_coach("clock", "If a clock ran, it is held: space resumes.")
    if short := lacks(card):
        yield _for_the_coach("lacks", f"{short.capitalize()}.")


def _for_the_room(name: str, words: str, group: str, *, matters: int) -> Written:
    return Written(name, words, group, role="caution", matters=matters, breaks=True)


def _for_the_coach(name: str, words: str) -> Written:
    return Written(name, words, "coach", role="coach", breaks=True, most=1)


def note_line(text: str, *, mirrored: bool) -> str:
    """The line for who, when and what was done; where the room sees it, as dots."""
    return f"who, when, what was done: {unread_by_the_room(text, mirrored=mirrored)}_"


def card_keys(noted: int, *, fillable: bool) -> tuple[str, ...]:
    """What the keys do; `fillable`: the card lacks something, and no class runs yet."""
    kept = (f"{noted} noted in the journal",) if noted else ()
    fill = ("tab: fill in the card",) if fillable else ()
    return (*kept, *fill, "enter: note who, when, what", "escape: close")
