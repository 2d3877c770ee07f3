"""Less of a piece than usual, in whole rounds, reps or minutes: what a share of it comes to.

What was usual is what somebody's own scores tell of this piece (`cap_fit`), those from before they
were away; where none does, it is the whole piece as they would do it today. Whatever doesn't come
out whole is rounded down: lower by *at least* so much.

- a set amount of work: every station's amount, so that the same rounds take less;
- as many rounds as there is time for: so many rounds, or reps where not even one is left;
- steps with a clock of their own: so many of them;
- else, or where no score tells the rounds: whole minutes of it.
"""

from datetime import date

from msgspec import UNSET, Struct
from msgspec.structs import replace

from classclock.plan.formats.timelines import length, timeline
from classclock.planning.cap_fit import Basis, expected_of, results_tell
from classclock.records.returning import FirstWeeks
from classclock.tally.counting.portion_words import portion_words
from classclock.tally.counting.work import Work
from classclock.tally.lanes import Lane, Portion
from classclock.tally.piece import Piece
from classclock.tally.scores.expected import Expected, counts_reps

_MINUTE = 60_000


class LessOffer(Struct, frozen=True):
    """What may be proposed to somebody in one piece."""

    piece: str
    usual: Expected | None
    """What they usually do of it; None where no score tells."""
    portion: Portion
    words: str
    """The portion, as the lane will say it."""


def less_offer(piece: Piece, lane: Lane, weeks: FirstWeeks, basis: Basis) -> LessOffer | None:
    """What may be proposed to whoever is alone in this lane; None where nothing can be.

    It is for conditioning that each does alone: no lift, no team.
    """
    if piece.counts_by in ("nothing", "load") or len(lane.members) > 1:
        return None
    whole = replace(lane, portion=UNSET)
    usual = usually(piece, whole, basis, weeks.usual_until)
    found = portion(piece, whole, None if usual is None else usual.total, weeks.lower)
    if found is None:
        return None
    words = portion_words(piece.segment, lane.options, found)
    return LessOffer(piece.segment.name, usual, found, words)


def usually(piece: Piece, lane: Lane, basis: Basis, until: date | None) -> Expected | None:
    """What somebody would do of a piece by their scores up to this day; None where none tells."""
    if until is None or not results_tell(piece.segment):
        return None
    ident = lane.members[0]
    own = [one for one in basis.past.get(ident, ()) if one.result.day <= until.isoformat()]
    return expected_of(piece, lane, replace(basis, past={ident: own}))


def portion(piece: Piece, lane: Lane, usual: int | None, lower: int) -> Portion | None:
    """The piece lower than usual by at least `lower` percent; None where nothing whole is left.

    `usual` is what the athlete does of it, in reps, or in rounds where those count none; None where
    no score tells.
    """
    share, work = 100 - lower, Work(piece, lane)
    named = "about half" if share == 50 else f"about {share} %"
    if piece.can_finish and (percent := _of_the_work(work, usual, share)):
        return Portion(named, percent)
    if piece.counts_by == "rounds" and not piece.can_finish and usual is not None:
        most = usual * share // 100
        if rounds := _of_the_rounds(work, most):
            return Portion(f"{named}: {_many(rounds, 'round')}", rounds=rounds)
        if counts_reps(work) and most:
            return Portion(f"{named}: {_many(most, 'rep')}")
    if piece.counts_by == "intervals":
        steps = timeline(piece.segment).steps
        if most := steps * share // 100:
            return Portion(f"{named}: {most} of {steps} intervals")
    minutes = length(piece.segment) * share // 100 // _MINUTE
    return Portion(f"{named}: {_many(minutes, 'minute')}") if minutes else None


def _of_the_work(work: Work, usual: int | None, share: int) -> int:
    """The percent of every station's amount; 0 where nothing whole would be left of them."""
    whole = work.total
    if not whole:
        return share if work.piece.stations else 0
    percent = share if usual is None else share * min(usual, whole) // whole
    lane = replace(work.lane, portion=Portion("", percent))
    return percent if Work(work.piece, lane).total else 0


def _of_the_rounds(work: Work, most: int) -> int:
    """How many whole rounds so much work is, the first ones."""
    if not counts_reps(work):
        return most
    rounds = 0
    while (size := work.round_reps(rounds)) and work.before(rounds) + size <= most:
        rounds += 1
    return rounds


def _many(number: int, of_what: str) -> str:
    return f"{number} {of_what}{'' if number == 1 else 's'}"
