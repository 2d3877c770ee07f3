"""A rehearsal of a full piece: 26 lanes, 2,000 taps, no screen."""

from statistics import median

from benchmarks.figure import Figure
from benchmarks.programs import NAMES, PLAN
from classclock.clock.source import MS, raw_now
from classclock.live.rehearsal import rehearse
from classclock.plan.reading.plan_reading import parse_plan
from classclock.tally.keys.taps_file import read_taps

_TAPS = 2000
_EVERY = 1.5
"""Seconds between two taps: 50 minutes in all."""


def rehearsing(times: int) -> Figure:
    rows = [f"{number * _EVERY},{NAMES[number % 26][0].lower()}" for number in range(_TAPS)]
    plan, _ = parse_plan(PLAN, "measured", "kg")
    taps, _ = read_taps("\n".join(rows).encode(), "taps")
    assert plan is not None
    took = []
    for _ in range(times):
        before = raw_now()
        rehearsed = rehearse(plan, tuple(NAMES), taps, segment=0, unit="kg")
        took.append((raw_now() - before) / MS)
        assert not rehearsed.refused
    return Figure("rehearse 26 lanes, 2,000 taps", median(took), "ms", most=1000)
