"""What a new plan begins with: a segment of a format, or an earlier plan."""

from classclock.plan.editing.edits import insert_segment, remove_key, set_key
from classclock.plan.editing.parts import HEAD
from classclock.plan.editing.writing import quoted
from classclock.plan.model import FORMATS

UNTITLED = "New plan"


def new_segment(written: str, taken: frozenset[str] = frozenset()) -> str:
    """A segment of that format, under a name that isn't taken (casefolded). Raises KeyError."""
    about = FORMATS[written].about
    name, number = about.called, 2
    while name.casefold() in taken:
        name, number = f"{about.called} {number}", number + 1
    return f'[[segment]]\nname = {quoted(name)}\nformat = "{written}"\n{about.starter}'


def plan_of(written: str) -> str:
    """A plan with one segment of that format. Raises KeyError."""
    text, _ = insert_segment(f"title = {quoted(UNTITLED)}\n", -1, new_segment(written))
    return text


def copy_of(text: str) -> str:
    """An earlier plan for another day: all of it but its title and its date."""
    without = remove_key(text, HEAD, "date")
    return set_key(without, HEAD, "title", quoted(UNTITLED))
