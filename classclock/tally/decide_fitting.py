"""Whether a segment may be made shorter, or left out: events, or a refusal that says what to do."""

from classclock.plan.formats.fit import Fit
from classclock.tally import events as ev
from classclock.tally.record import ClassRecord, RunKey
from classclock.tally.refusal import Refusal

_NOT_NOW = Refusal("the class is fitted on the board, before a start")


def can_be_fitted(record: ClassRecord, segment: int) -> bool:
    """Whether it hasn't been started, or is to begin anew."""
    return not record.heats(RunKey(segment, record.attempts.get(segment, 1)))


def decide_fitting(
    record: ClassRecord, segment: int, fit: Fit | None, at: int
) -> tuple[ev.Event, ...] | Refusal:
    """Between segments: this one is so short from now on; None: as planned again.

    The one on the board, left out, gives way to the next.
    """
    if record.phase(at) != "board":
        return _NOT_NOW
    name = record.plan.segment[segment].name
    if not can_be_fitted(record, segment):
        return Refusal(f"{name} has been started: it goes on as it began")
    fitted = ev.SegmentFitted(at, segment, fit)
    if fit is None:
        return (fitted,) if segment in record.fits else Refusal(f"{name} is as planned already")
    try:
        record.planned(segment).fitted(fit)
    except ValueError:
        return Refusal(f"{name} can't be made so short: take another way")
    if not fit.left_out or segment != record.chosen.segment:
        return (fitted,)
    after = record.beside(1)
    if after is None:
        return Refusal("nothing comes after it: ctrl+q leaves, and the class is over")
    return (fitted, ev.SegmentChosen(at, after))
