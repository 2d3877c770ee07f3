"""The newest entries of a piece, each with its time and the keys that take it back."""

from collections.abc import Iterator

from classclock.tally.entry_words import entry_told
from classclock.tally.sheet import Sheet, newest_entries
from classclock.units.printable import printable
from classclock.wall.coach.coach_values import CoachLine

SHOWN = 9
"""As many as the key language numbers."""


def last_entries(sheet: Sheet) -> Iterator[CoachLine]:
    """The newest first. A lane's letter comes before a number: that changes with every call."""
    told: set[str | None] = set()
    for number, entry in enumerate(newest_entries(sheet)[:SHOWN], start=1):
        lane = sheet.ledgers.lane_of(entry)
        entered = entry_told(sheet, entry)
        if number == 1:
            keys = "backspace"
        elif lane is not None and lane not in told:
            keys = f"-{sheet.tallies[lane].lane.key}"
        else:
            keys = f"-{number} enter"
        told.add(lane)
        counts = lane is None or entry not in sheet.tallies[lane].uncounted
        said = entered.words if counts else f"{entered.words}, not counted"
        whose = f"{entered.name}, " if entered.name else ""
        yield CoachLine(printable(f"{whose}{said}"), entered.when, keys)
