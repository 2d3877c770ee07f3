"""What the emergency card says, and what is under it: its keys, or a line that is typed."""

from classclock.plan.settings.club import Emergency
from classclock.screens.canvas.stack import Line, Size
from classclock.screens.controls.line_entry import unread_by_the_room
from classclock.units.printable import printable
from classclock.wall.emergency_words import LONGEST, lacks

_NO_NUMBER = "your local emergency number"
_PLACES: dict[str, tuple[str, Size]] = {
    "address": ("We are at {}", "main"),
    "defibrillator": ("Defibrillator: {}", "main"),
    "first_aid": ("First-aid kit: {}", "second"),
}


def first_lines(card: Emergency) -> tuple[Line, ...]:
    """What is to be done at once, whatever the card lacks; whom to call is the largest."""
    call = printable(card.call.strip(), LONGEST) or _NO_NUMBER
    return (
        Line(f"Call {call} now.", "title", bold=True),
        Line("Send someone to the door.", "main", bold=True),
    )


def other_lines(card: Emergency, *, before: bool) -> tuple[Line, ...]:
    """Where we are and where the help is, as far as is known; whom to obey; what the card lacks.

    `before`: nothing of this class has been started, so that no clock can be held.
    """
    places = tuple(
        Line(words.format(printable(said, LONGEST)), size, bold=True)
        for field, (words, size) in _PLACES.items()
        if (said := getattr(card, field).strip())
    )
    short = lacks(card)
    return (
        Line(keep=5),
        *places,
        *((Line(keep=7),) if places else ()),
        Line("Do what the dispatcher says.", "second", bold=True),
        Line(keep=7),
        Line("Keep to your local rules and training.", "second"),
        *(() if before else (Line("If a clock ran, it is held: space resumes.", keep=6),)),
        *((Line(f"{short.capitalize()}.", keep=1),) if short else ()),
    )


def note_line(text: str, *, mirrored: bool) -> str:
    """The line for who, when and what was done; where the room sees it, as dots."""
    return f"who, when, what was done: {unread_by_the_room(text, mirrored=mirrored)}_"


def card_keys(noted: int, *, fillable: bool) -> tuple[str, ...]:
    """What the keys do; `fillable`: the card lacks something, and no class runs yet."""
    kept = (f"{noted} noted in the journal",) if noted else ()
    fill = ("tab: fill in the card",) if fillable else ()
    return (*kept, *fill, "enter: note who, when, what", "escape: close")
