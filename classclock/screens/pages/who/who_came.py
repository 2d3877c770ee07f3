"""Who came, and what a class takes over from "who is here"."""

from collections.abc import Mapping

from msgspec import Struct

from classclock.screens.pages.who.who_desk import WhoDesk
from classclock.tally.decide_groups import SharedWay
from classclock.tally.lanes import Choice, Mark, Person


class WhoCame(Struct, frozen=True):
    people: tuple[Person, ...]
    choices: Mapping[tuple[int, str], Choice]
    """What each modifies, by segment and person's id; only where something was chosen."""
    ends: str
    """When the class ends, RFC 3339 with offset."""
    shared: Mapping[int, SharedWay]
    """How equipment is shared, by segment; only where that was chosen."""
    marked: Mapping[tuple[str, Mark], bool]
    """Marks that the coach set or took off, by person's id; to be remembered."""


def who_came(desk: WhoDesk) -> WhoCame:
    """All that concerns those who are here now."""
    who = desk.who
    here = {person.id for person in who.people}
    named = {person.id for person in who.people if not person.visitor}
    return WhoCame(
        who.people,
        {
            key: choice
            for key, choice in who.choices.made.items()
            if key[1] in here and choice != Choice()
        },
        who.ends.isoformat(timespec="seconds"),
        desk.sharing.chosen(),
        {key: on for key, on in who.marked.items() if key[0] in named},
    )
