"""The lines of the emergency card in words: what each is called, and how it is asked for."""

from collections.abc import Iterator

from msgspec import Struct

from classclock.plan.settings.club import Emergency
from classclock.units.printable import printable

TO_THE_DOOR = "Send someone to the door."
DISPATCHER, RULES = "Do what the dispatcher says.", "Keep to your local rules and training."
_NO_NUMBER = "your local emergency number"
_PLACES = {
    "address": "We are at {}",
    "defibrillator": "Defibrillator: {}",
    "first_aid": "First-aid kit: {}",
}
EMPTY = "the card isn't filled in"
LONGEST = 120
"""Signs of a line that the card shows."""


class CardLine(Struct, frozen=True):
    label: str
    lacking: str
    """As the card is said to lack it."""
    question: str
    why: str


CARD_LINES = {
    "address": CardLine(
        "address",
        "the address",
        "Where are you?",
        "As you would say it on the telephone: street, number, which door.",
    ),
    "defibrillator": CardLine(
        "defibrillator",
        "the defibrillator",
        "Where is the defibrillator?",
        "So that somebody finds it who was never here. None here: where the nearest one is.",
    ),
    "first_aid": CardLine(
        "first-aid kit",
        "the first-aid kit",
        "Where is the first-aid kit?",
        "Where it stands, and who has the key if it is locked.",
    ),
    "call": CardLine(
        "call",
        "the number to call",
        "Which number do you call?",
        "Your local emergency number, as it is dialled from here.",
    ),
}
"""By the field of the club's card, in the order in which they are asked."""


def lacks(card: Emergency) -> str:
    """That the card isn't filled in, or what it lacks; nothing where it is complete."""
    missing = [CARD_LINES[field].lacking for field in card.lacking]
    if len(missing) == len(CARD_LINES):
        return "the emergency card is not filled in"
    if not missing:
        return ""
    *others, last = missing
    return f"the emergency card lacks {' and '.join((*filter(None, (', '.join(others),)), last))}"


def lacks_briefly(card: Emergency) -> str:
    """The same in few words: the first of what is missing, and how much more."""
    missing = [CARD_LINES[field].lacking for field in card.lacking]
    if len(missing) == len(CARD_LINES):
        return EMPTY
    if not missing:
        return ""
    more = f" and {len(missing) - 1} more" if len(missing) > 1 else ""
    return f"the card lacks {missing[0]}{more}"


def call_words(card: Emergency) -> str:
    """Whom to call, whatever the card lacks."""
    return f"Call {printable(card.call.strip(), LONGEST) or _NO_NUMBER} now."


def place_words(card: Emergency) -> Iterator[tuple[str, str]]:
    """Where we are and where the help is, as far as is known: the card's field, and its words."""
    for field, words in _PLACES.items():
        if said := getattr(card, field).strip():
            yield field, words.format(printable(said, LONGEST))
