"""What one athlete has on record by results files alone, for tests to compare with."""

from collections.abc import Iterable

from classclock.book.asking.lift_records import ClassLifts, LiftRecord, records_in


def lifts_of(classes: Iterable[ClassLifts], person_id: str) -> dict[str, LiftRecord]:
    """By the lift's name in small letters."""
    lifted = (made for one in classes for made in one.lifted)
    return records_in([made for made in lifted if made.person_id == person_id], "brzycki")
