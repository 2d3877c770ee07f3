"""What the coach was asked at the settle, and let stand: the first doubt of its kind is none."""

from typing import Literal, assert_never

from msgspec.structs import replace

from classclock.tally.events import LetStand
from classclock.tally.lane_tally import LaneTally
from classclock.tally.piece import Piece


def let_stand(piece: Piece, tally: LaneTally, event: LetStand) -> LaneTally:
    match event.doubt:
        case "not given" if piece.counts_by == "intervals":
            return replace(tally, let_unknown=(*tally.let_unknown, *event.intervals))
        case "not given":
            return replace(tally, odd=tally.odd_floor if tally.odd is None else tally.odd)
        case "fast" | "filled in":
            return _round_stands(tally, event.doubt)
        case "load":
            return _load_stands(tally)
        case "less" if tally.cut:
            return replace(tally, cut="")
        case "less":
            return replace(tally, remarks=tally.remarks[1:])
        case _:
            assert_never(event.doubt)


def _round_stands(tally: LaneTally, doubt: Literal["fast", "filled in"]) -> LaneTally:
    asked = (one.round for one in tally.doubted if one.doubt == doubt)
    number = next(asked, None)
    if number is None:
        return replace(tally, station_doubtful=False) if doubt == "fast" else tally
    rounds = list(tally.rounds)
    rounds[number - 1] = replace(rounds[number - 1], doubtful=False)
    return replace(tally, rounds=tuple(rounds))


def _load_stands(tally: LaneTally) -> LaneTally:
    at = tally.load_in_doubt
    if at is None:
        return tally
    sure = replace(tally.attempts[at], doubtful=False)
    return replace(tally, attempts=(*tally.attempts[:at], sure, *tally.attempts[at + 1 :]))
