"""What the keys change in a plan that is being written; each says what the coach is to know."""

from classclock.plan.editing import edits
from classclock.plan.editing.draft import Draft
from classclock.plan.editing.fields import typed_at
from classclock.plan.editing.parts import HEAD
from classclock.plan.editing.starts import new_segment
from classclock.plan.model import FORMATS

ARRANGING = ("-", "<delete>", "=", "[", "]", "<shift+up>", "<shift+down>")
"""Keys that remove, double or move the part in focus."""
_INSTEAD = {"scheme": "rounds", "rounds": "scheme"}
"""Keys that say the same in two ways: the one that is typed takes the other's place."""


def arrange(draft: Draft, sign: str) -> str:
    """One of the keys of `ARRANGING`, on the part in focus."""
    place = draft.place
    if place == HEAD:
        return "this is the plan itself: go down to a segment or a station"
    if sign in ("-", "<delete>"):
        draft.change(edits.remove(draft.text, place))
        return "removed: backspace brings it back"
    if sign == "=":
        draft.change(*edits.duplicate(draft.text, place))
        return ""
    by = -1 if sign in ("[", "<shift+up>") else 1
    return "" if draft.change(*edits.move(draft.text, place, by)) else "it can't go any further"


def set_value(draft: Draft, key: str, typed: str) -> str:
    """Set what one key of the part in focus says; nothing typed takes the key out."""
    part = draft.reading.part(draft.place)
    text = edits.set_typed(draft.text, part.place, key, typed)
    other = _INSTEAD.get(key)
    replaced = bool(typed and other and typed_at(part, other))
    if other and replaced:
        text = edits.set_typed(text, part.place, other, "")
    draft.change(text)
    return f"{key} instead of {other}: backspace brings it back" if replaced else ""


def add_segment(draft: Draft, number: int) -> None:
    """A new segment of that format after the one in focus, under a name of its own."""
    parts = draft.reading.parts
    taken = frozenset(typed_at(part, "name").casefold() for part in parts if part.kind == "segment")
    block = new_segment(tuple(FORMATS)[number], taken)
    draft.change(*edits.insert_segment(draft.text, draft.place[0], block))


def take_back(draft: Draft) -> str:
    """The text before the last change."""
    return "" if draft.take_back() else "nothing is left to take back"
