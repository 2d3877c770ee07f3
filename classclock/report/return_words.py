"""Who comes back after weeks, and what may be proposed to them: words for the coach alone.

What a number says about a body stands beside what it doesn't say.
"""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from classclock.records.returning import LOWER, FirstWeeks
from classclock.units.printable import printable

if TYPE_CHECKING:
    from classclock.planning.portions import LessOffer

GUIDELINE = "CSCCa and NSCA, 2019, written for college athletes"
NOT_SAID = (
    "This counts days and scores. It doesn't know why they were away, nor how they are today: ask "
    "them. Less is always right, and nobody is cleared by it."
)
AFTER_ILLNESS = "After illness or an injury: a doctor, or whoever else is licensed for it, first."


def return_words(weeks: FirstWeeks) -> str:
    """`first in 5 weeks`, `week 2 back`, `new, week 1`."""
    if weeks.away is None:
        return f"new, week {weeks.week}"
    return f"first in {weeks.weeks_away} weeks" if weeks.week == 1 else f"week {weeks.week} back"


def less_lines(
    name: str, weeks: FirstWeeks, offers: Sequence["LessOffer"], *, given: bool, key: str
) -> Iterator[str]:
    """All there is to say of one of them; `key` gives what is proposed, or takes it back."""
    back = f", after {weeks.weeks_away} weeks" if weeks.week > 1 and weeks.away else ""
    yield f"{printable(name)}: {return_words(weeks)}{back}"
    does = f"{key} takes back" if given else f"{key} gives"
    for offer in offers:
        yield f"{printable(offer.piece)}: {_usual(offer, weeks)}. {does} {printable(offer.words)}"
    yield (
        f"Conditioning in week {weeks.week} of {len(LOWER)}: at least {weeks.lower} % less than "
        f"usual ({GUIDELINE})."
    )
    yield NOT_SAID
    yield AFTER_ILLNESS


def _usual(offer: "LessOffer", weeks: FirstWeeks) -> str:
    usual = offer.usual
    if usual is None:
        new = weeks.usual_until is None
        return "counted from all of it" if new else "no score from before tells what is usual"
    if usual.finish is not None:
        return "usually all of it"
    return f"usually {usual.score}"
