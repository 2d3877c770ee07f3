"""What enter would do with what is pending, beside it on the screen."""

from classclock.tally.commands import Next, SetNumber, TakeOut
from classclock.tally.entry_words import entry_words
from classclock.tally.keys.answers import STOPPED_OR_LEAVES, read_answer
from classclock.tally.record import ClassRecord
from classclock.tally.scores.questions import ScoreQuestion, questions
from classclock.tally.sheet import Sheet, newest_entries
from classclock.units.printable import printable
from classclock.wall.kept_off import off_the_wall


def pending_words(record: ClassRecord, pending: str, at: int) -> str:
    """In a few words; empty where enter does nothing with it. `at` is ms of the class."""
    sheet = record.sheet
    if sheet is None or not pending:
        return ""
    if pending[0] == "." and len(pending) == 2:
        return STOPPED_OR_LEAVES
    if pending[0] == "-" and pending[1:].isdigit():
        return printable(_taken_back(record, sheet, int(pending[1:])))
    asked = questions(sheet) if record.phase(at) == "over" else ()
    by_load = sheet.piece.counts_by == "load"
    return printable(_answered(asked[0], pending, loads=by_load)) if asked else ""


def _taken_back(record: ClassRecord, sheet: Sheet, newest: int) -> str:
    entries = newest_entries(sheet)
    if newest > len(entries):
        return f"nothing: {len(entries) or 'no'} {'entry' if len(entries) == 1 else 'entries'} yet"
    number = entries[newest - 1]
    lane = sheet.ledgers.lane_of(number)
    if lane is not None and sheet.piece.counts_by == "load":
        whose = sheet.tallies[lane].lane
        if off_the_wall(whose, record.people):
            return f"enter takes back one of {whose.name}'s"
    return f"enter takes back {entry_words(sheet, number)}"


def _answered(asked: ScoreQuestion, pending: str, *, loads: bool) -> str:
    match read_answer(pending.lower(), asked, loads=loads):
        case TakeOut():
            return f"enter takes it out of {asked.name}'s"
        case Next():
            return "enter: all that is asked stands"
        case SetNumber():
            alone = pending.replace(".", "").replace(",", "").isdigit()
            return f"enter: {asked.name}, {pending}{' ' + asked.number if alone else ''}"
        case _:
            return ""
