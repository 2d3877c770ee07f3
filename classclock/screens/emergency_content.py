"""What the emergency card says, and where an empty one is filled in."""

from classclock.plan.club import Emergency
from classclock.plan.printable import printable
from classclock.screens.stack import Line, Size

_WORDS = {
    "call": "Call {}",
    "address": "We are at {}",
    "defibrillator": "Defibrillator: {}",
    "first_aid": "First-aid kit: {}",
}
_DEFER = "Do what the dispatcher says. Your local rules and your training come first."


def card_lines(card: Emergency) -> tuple[Line, ...]:
    """The card from top to bottom; the number to call is the largest."""
    lines = [Line("Emergency card. If a clock ran, it is held: space resumes.", keep=1, bold=True)]
    missing = []
    for field, words in _WORDS.items():
        value = getattr(card, field).strip()
        if value:
            size: Size = "title" if field == "call" else "main"
            lines += [Line(keep=4), Line(words.format(printable(value, 120)), size, bold=True)]
        else:
            missing.append(field)
    if missing:
        where = f"Write {', '.join(missing)} in the club's club.toml, under [emergency]."
        lines += [Line(keep=4), Line("Not all filled in", "main", bold=True), Line(where)]
    return (*lines, Line(keep=4), Line(_DEFER))


def note_line(text: str, *, writing: bool, noted: int, mirrored: bool) -> str:
    """The line for who, when and what was done; where the room sees it, as dots."""
    if writing:
        shown = "•" * len(text) if mirrored else text
        return f"who, when, what was done: {shown}_"
    kept = f"{noted} noted in the journal.  " if noted else ""
    return f"{kept}enter: note who, when, what    escape: close"
