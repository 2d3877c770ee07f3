"""An earlier result as an effort: how long somebody worked, and how much they did."""

from classclock.records.result import Result, finish_of
from classclock.records.written_terms import NOT_SAID
from classclock.tally.counting.work import Work
from classclock.tally.scores.expected import counts_reps
from classclock.tally.scores.on_for import RoundsAndReps
from classclock.units.times import parse_time


def effort_of(
    result: Result, limit: int | None = None, work: Work | None = None
) -> RoundsAndReps | None:
    """How long somebody worked and what they did, in the unit of `expected`.

    `limit` and `work` are those of the same benchmark to come: what a result leaves unsaid, as one
    from an old spreadsheet does, is taken to be as there. None where that can't be told.
    """
    if result.why_not or result.worth is None or result.kind not in ("rounds", "time"):
        return None
    seconds = finish_of(result.worth) if result.kind == "time" else None
    at = _length(result, limit) if seconds is None else seconds * 1000
    done = _done(result, finished=seconds is not None, work=work)
    return (at, done) if at and done else None


def _length(result: Result, limit: int | None) -> int | None:
    said = result.terms.work
    try:
        return limit if said == NOT_SAID else parse_time(said)
    except ValueError:
        return limit  # an old spreadsheet said it in words of its own


def _done(result: Result, *, finished: bool, work: Work | None) -> int | None:
    if result.total_reps:
        return result.total_reps
    if work is None:
        return None
    if finished:
        if work.piece.rounds is None:
            return None
        return work.total if counts_reps(work) else work.piece.rounds
    if result.kind == "time":
        return result.worth if counts_reps(work) else len(result.round_reps)
    rounds, _, odd = result.score.partition("+")
    if not rounds.isdecimal():
        return None
    if not counts_reps(work):
        return int(rounds)
    return work.before(int(rounds)) + (int(odd) if odd.isdecimal() else 0)
