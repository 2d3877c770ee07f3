"""What a new plan begins with: a segment of a format, or an earlier plan."""

from classclock.plan.editing.edits import insert_segment, remove_key, set_key
from classclock.plan.editing.parts import HEAD
from classclock.plan.editing.writing import quoted

UNTITLED = "New plan"
SEGMENTS = {
    "countdown": '[[segment]]\nname = {name}\nformat = "countdown"\ntime = "8:00"',
    "interval": (
        '[[segment]]\nname = {name}\nformat = "interval"\nrepeat = 5\n'
        'steps = [{{ work = "2:00" }}, {{ rest = "1:00" }}]'
    ),
    "rounds-in-time": '[[segment]]\nname = {name}\nformat = "rounds-in-time"\ntime = "12:00"',
    "capped-for-time": (
        '[[segment]]\nname = {name}\nformat = "capped-for-time"\ncap = "12:00"\nrounds = 3'
    ),
}
"""A segment of each format that can be run as it stands; `{name}` is its name in quotes."""
_NAMES = {
    "countdown": "Warm-up",
    "interval": "Intervals",
    "rounds-in-time": "Rounds",
    "capped-for-time": "For time",
}


def new_segment(written: str, taken: frozenset[str] = frozenset()) -> str:
    """A segment of that format, under a name that isn't taken (casefolded). Raises KeyError."""
    wanted = name = _NAMES[written]
    number = 2
    while name.casefold() in taken:
        name, number = f"{wanted} {number}", number + 1
    return SEGMENTS[written].format(name=quoted(name))


def plan_of(written: str) -> str:
    """A plan with one segment of that format. Raises KeyError."""
    text, _ = insert_segment(f"title = {quoted(UNTITLED)}\n", -1, new_segment(written))
    return text


def copy_of(text: str) -> str:
    """An earlier plan for another day: all of it but its title and its date."""
    without = remove_key(text, HEAD, "date")
    return set_key(without, HEAD, "title", quoted(UNTITLED))
