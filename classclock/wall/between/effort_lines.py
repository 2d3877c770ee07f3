"""The last screen asks how hard it was: the room sees who has said so, never what they said."""

from classclock.tally.effort.effort_scale import scale_words
from classclock.tally.lineup import MOST_LANES
from classclock.tally.record import ClassRecord
from classclock.units.printable import printable

TICK = "✓"


def effort_asked(record: ClassRecord) -> tuple[str, ...]:
    """The question, and everybody by their letter or a tick; nothing where nobody is asked.

    Who has no name isn't in the book, so nothing is asked of them.
    """
    people = [person for person in record.people if not person.visitor]
    if not record.asks_effort or not people:
        return ()
    if len(record.people) > MOST_LANES:
        return ("How hard was it? Letters come twice: classclock effort NAME, after the class",)
    key = people[0].key
    who = (
        f"{TICK if one.id in record.efforts else one.key.upper()} {printable(one.name, 24)}"
        for one in people
    )
    how = f"A number and your letter, as in 7{key}; enter: enough asked"
    return (f"How hard was it? {scale_words()}. {how}", "  ".join(who))
