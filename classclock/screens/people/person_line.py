"""One line of a list of people, and which lines the letters typed so far may mean."""

from collections.abc import Iterable, Sequence
from typing import Literal

from msgspec import Struct

from classclock.book.asking.known_people import KnownPerson
from classclock.units.names import is_unnamed, typed_names
from classclock.units.searching import found


class PersonLine(Struct, frozen=True):
    """One line that can be highlighted."""

    kind: Literal["here", "gone", "known", "new", "several"]
    """`gone` was here and has left; `known` came to earlier classes; `new` is the name that is
    typed, `several` are names with commas between."""
    id: str
    name: str
    key: str = ""


def found_lines(
    text: str, in_class: Sequence[PersonLine], known: Iterable[KnownPerson]
) -> tuple[PersonLine, ...]:
    """Those who match what is typed; with nothing typed all, those of the class first."""
    ids = {line.id for line in in_class}
    names = typed_names(text)
    if len(names) > 1:
        return (PersonLine("several", "", ", ".join(names)),)
    others = (
        PersonLine("known", one.id, one.name, one.key)
        for one in known
        if one.id not in ids and not is_unnamed(one.name)
    )
    matching = found("".join(names), (*in_class, *others), lambda line: (line.name,))
    return (*matching, *(PersonLine("new", "", name) for name in names))
