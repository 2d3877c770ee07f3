"""A score as people write it, read for a correction: `7+12`, `8:31`, `112 reps`, `85 kg`."""

import re

from classclock.tally.counting.counting import MOST_ROUNDS
from classclock.tally.counting.work import Work
from classclock.tally.events import Corrected
from classclock.tally.lane_tally import LaneTally
from classclock.tally.piece import Piece
from classclock.tally.refusal import Refusal
from classclock.units.loads import parse_load
from classclock.units.times import parse_time, show_time

_ROUNDS = r"(\d{1,3})\s*\+\s*(\d{1,6})|(\d{1,3})\s*rounds?"
_REPS = r"(\d{1,6})\s*(?:reps?)?"
_ANY_CASE = re.ASCII | re.IGNORECASE
_WRITE = {
    "rounds": "rounds and odd reps, as in 7+12",
    "finish": "a time, as in 8:31, or all reps, as in 112",
    "intervals": "the reps, as in 112",
    "reps": "the reps, as in 112",
    "load": "the load, as in 85 kg",
}


def read_score(  # noqa: C901  one case a kind of score reads best side by side
    written: str, piece: Piece, tally: LaneTally, *, cap: int, at: int, reason: str
) -> Corrected | Refusal:
    """What the coach wrote as this piece scores it. `cap` is the piece's length in ms."""
    text = written.strip()
    lane = tally.lane.id
    wanted = _WRITE.get("finish" if piece.can_finish else piece.counts_by, "nothing")
    unreadable = Refusal(f'"{text}" is no score here: write {wanted}')
    reps = int(match[1]) if (match := re.fullmatch(_REPS, text, _ANY_CASE)) else None
    match piece.counts_by:
        case "load":
            try:
                return Corrected(at, lane, reason, load=parse_load(text, piece.unit))
            except ValueError:
                return unreadable
        case "reps" | "intervals":
            return unreadable if reps is None else Corrected(at, lane, reason, reps=reps)
        case "rounds" if ":" in text and piece.can_finish:
            try:
                finish = parse_time(text)
            except ValueError:
                return unreadable
            if not 0 < finish <= cap:
                return Refusal(f"{text} is not within the cap of {show_time(cap)}")
            return Corrected(at, lane, reason, finish=finish)
        case "rounds":
            if match := re.fullmatch(_ROUNDS, text, _ANY_CASE):
                full, odd = int(match[1] or match[3]), int(match[2] or 0)
            elif reps is None:
                return unreadable
            elif piece.can_finish or text != str(reps):
                full, odd = _full_and_odd(piece, tally, reps)
            else:
                full, odd = reps, 0
            return _checked(piece, tally, full, odd) or Corrected(
                at, lane, reason, rounds=full, reps=odd
            )
    return unreadable


def _full_and_odd(piece: Piece, tally: LaneTally, reps: int) -> tuple[int, int]:
    """All reps as full rounds and odd reps; the rounds already done keep their size."""
    work = Work(piece, tally.lane)
    full = 0
    while full < (piece.rounds or MOST_ROUNDS + 1):
        size = _size(work, tally, full)
        if reps < size or not size:
            break
        reps -= size
        full += 1
    return full, reps


def _size(work: Work, tally: LaneTally, index: int) -> int:
    return tally.rounds[index].reps if index < len(tally.rounds) else work.round_reps(index)


def _checked(piece: Piece, tally: LaneTally, full: int, odd: int) -> Refusal | None:
    if piece.rounds is not None and full >= piece.rounds:
        return Refusal("that is the whole work: write the time, as in 8:31")
    if full > MOST_ROUNDS:
        return Refusal(f"{full} rounds can't be: write rounds and odd reps, as in 7+12")
    size = Work(piece, tally.lane).round_reps(full)
    if odd and odd >= size:
        return Refusal(f"{odd} is not less than the round of {size}: write it as full rounds")
    return None
