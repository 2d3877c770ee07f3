"""A class again from its journal: what its events fold to, without a clock, and what it lacks."""

from datetime import datetime

from classclock.book.files.journal import Journal
from classclock.plan.reading.plan_reading import parse_plan
from classclock.tally.record import ClassRecord
from classclock.units.loads import Unit


def replayed(journal: Journal) -> ClassRecord:
    """The record that a journal's events fold to.

    Raises:
        ValueError: the plan in it can't be read by this version, or an event makes no sense.
    """
    return folded_on(before_it_opened(journal), journal, 0)


def folded_on(record: ClassRecord, journal: Journal, begin: int) -> ClassRecord:
    """The record that has the journal's events up to that number, with those from there on.

    Raises:
        ValueError: an event makes no sense.
    """
    for number, event in enumerate(journal.events[begin:], start=begin):
        try:
            record = record.apply(number, event)
        except (LookupError, ArithmeticError, TypeError, ValueError) as error:
            why = f"event {number}, {type(event).__name__}, doesn't fit what came before it"
            raise ValueError(f"{journal.path}: {why}") from error
    return record


def before_it_opened(journal: Journal) -> ClassRecord:
    """The record on which a journal's events are folded: its plan, and nobody in it.

    Raises:
        ValueError: the plan can't be read by this version.
    """
    opened = journal.opened
    unit: Unit = "lb" if opened.unit == "lb" else "kg"
    plan, findings = parse_plan(opened.plan_text, str(journal.path), unit)
    if plan is None:
        raise ValueError(f"{journal.path}: its plan can't be read: {findings[0]}")
    return ClassRecord(plan, unit)


def lost_words(journal: Journal, record: ClassRecord) -> str:
    """What is known to be missing in a journal, and whom to ask; empty where nothing is."""
    if not journal.lost:
        return ""
    number = sum(lost.events for lost in journal.lost)
    since, until = (
        f"{datetime.fromisoformat(wall):%H:%M}"
        for wall in (journal.lost[0].since, journal.lost[-1].wall)
    )
    lanes = dict.fromkeys(lane for lost in journal.lost for lane in lost.lane)
    names = [person.name for person in record.people if person.id in lanes]
    entries = "1 entry was" if number == 1 else f"{number} entries were"
    ask = f": ask {', '.join(names)}" if names else ""
    return f"{entries} lost from {since} to {until}, the disk had refused them{ask}"
