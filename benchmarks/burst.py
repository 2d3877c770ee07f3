"""Everybody's round called at once, eight times: none is lost, and how soon the last is shown."""

from statistics import median

from benchmarks.figure import Figure
from benchmarks.programs import NAMES, a_bare_app, a_piece
from classclock.clock.source import MS

_BURSTS = 8
_BETWEEN = 1.3
"""Seconds, more than the guard against keys that repeat by themselves."""


def burst(starts: int) -> tuple[Figure, ...]:
    ours, floor, counted = [], [], []
    keys = "".join(name[0].lower() for name in NAMES)
    for _ in range(starts):
        with a_bare_app() as bare:
            for number in range(1, _BURSTS + 1):
                at = bare.press(keys)
                floor.append((bare.shown(f"key {number * len(keys)}.") - at) / MS)
                bare.look_on(_BETWEEN)
        with a_piece(len(NAMES)) as window:
            for number in range(1, _BURSTS + 1):
                at = window.press(keys)
                ours.append((window.shown(f"{NAMES[-1]}, round {number},") - at) / MS)
                window.look_on(_BETWEEN)
            counted.append(window.taps_counted())
    struck = _BURSTS * len(keys)
    return (
        Figure("26 keys at once, the last shown, p50", median(ours), "ms", median(floor), 2),
        Figure("26 keys at once, the last shown, worst", max(ours), "ms", max(floor)),
        Figure(f"lost of {struck} keys, worst start", struck - min(counted), "keys", most=0),
    )
