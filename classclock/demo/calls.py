"""What the athletes of the demo call, and when. Every number is invented."""

import random

from msgspec import Struct

from classclock.tally.counting.work import Work
from classclock.tally.lanes import Lane
from classclock.tally.sheet import Sheet


class Call(Struct, frozen=True):
    """What is shouted at a moment of the piece (ms), as the coach types it."""

    at: int
    signs: str


def calls(
    sheet: Sheet, seed: int, *, day: str = "today"
) -> tuple[tuple[Call, ...], dict[str, int]]:
    """All rounds called in a piece, in order of time, and by key the odd reps at its end.

    A seed gives everybody a pace of their own; on another day they are a little quicker or slower.
    """
    shouted: list[Call] = []
    odd: dict[str, int] = {}
    for lane in sheet.lanes:
        done, odd[lane.key] = _rounds(sheet, lane, seed, day)
        shouted += done
    return tuple(sorted(shouted, key=lambda call: call.at)), odd


def _rounds(sheet: Sheet, lane: Lane, seed: int, day: str) -> tuple[list[Call], int]:
    """One athlete's rounds: a pace of their own that fades, and no two rounds alike."""
    work = Work(sheet.piece, lane)
    own = random.Random(f"{seed} {lane.name}")  # noqa: S311  a sample, no secret
    chance = random.Random(f"{seed} {lane.name} {day}")  # noqa: S311  the same
    pace, fade = own.uniform(2.3, 3.6) * chance.uniform(0.96, 1.06), own.uniform(0.0, 0.03)
    end, at, done = sheet.timeline.total / 1000, 0.0, list[Call]()
    while True:
        size = work.round_reps(len(done))
        split = size * pace * (1 + fade * len(done)) * chance.uniform(0.94, 1.08)
        if at + split >= end:
            return done, min(size - 1, int(size * (end - at) / split))
        at += split
        done.append(Call(int(at * 1000), lane.key))
