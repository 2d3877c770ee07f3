"""Every cue: what it sounds like, its word on the wall, its moments, and which of two gives way.

SIGNALS has a line for each sound, RULES one for each switch of a plan's `cues`. Moments are
milliseconds from go, negative before it.
"""

from collections.abc import Callable, Collection, Iterable, Iterator
from itertools import pairwise
from typing import Literal, NamedTuple

from msgspec import Struct

from classclock.clock.span import Span

CueKind = Literal["short", "go", "rest", "halfway", "last-minute", "last-ten", "end"]


class Cue(Struct, frozen=True):
    at: int
    """Milliseconds from go."""
    kind: CueKind


class Tone(NamedTuple):
    """One tone: its fundamental in hertz, 0 for a pause, and its length in milliseconds."""

    hz: int
    ms: int


class Signal(Struct, frozen=True):
    """What a cue is to the ear and to the eye."""

    tones: tuple[Tone, ...]
    """What `sounds/make_sounds.py` makes its file of, whose name is the cue's."""
    word: str = ""
    """Beside the clock; empty where the clock's own digits are its twin."""


SIGNALS: dict[CueKind, Signal] = {
    "short": Signal((Tone(880, 130),)),
    "go": Signal((Tone(1175, 650),), "GO"),
    "rest": Signal((Tone(988, 240), Tone(659, 360)), "REST"),
    "halfway": Signal((Tone(784, 200), Tone(0, 90), Tone(784, 200)), "HALFWAY"),
    "last-minute": Signal((Tone(659, 160), Tone(831, 160), Tone(1047, 320)), "ONE MINUTE"),
    "last-ten": Signal(
        tuple(Tone(hz, 90) for hz in (1047, 0, 1047, 0, 1047, 0, 1047)), "TEN SECONDS"
    ),
    "end": Signal(
        (Tone(988, 280), Tone(0, 70), Tone(988, 280), Tone(0, 70), Tone(740, 700)), "TIME"
    ),
}

APART_MS = 1000
"""Of two cues closer than this the one whose rule comes later is heard."""
WARNINGS_MS = (3000, 2000, 1000)
"""Before go, and before a change of step."""
LONG_MS = 3 * 60_000
"""A segment shorter than this has no halfway and no last-minute cue."""
SHORT_MS = 60_000
"""A segment shorter than this has no last-ten cue."""

Steps = tuple[Span, ...]
"""A segment's spans from go on."""


class CueRule(Struct, frozen=True):
    """When its cues come."""

    switch: str
    """The key of a plan's `cues` that switches them off."""
    words: str
    """What is heard and when, as the handbook says it."""
    cues: Callable[[Steps], Iterable[Cue]]
    """Those that are due, whatever other cues come near them."""
    everywhere: bool = True
    """Otherwise only the formats that name it have it."""


def _count_in(_: Steps) -> Iterator[Cue]:
    yield from (Cue(-left, "short") for left in WARNINGS_MS)
    yield Cue(0, "go")


def _changes(steps: Steps) -> Iterator[Cue]:
    """Warnings before each change of step, only those inside the step, then the changes."""
    for before, after in pairwise(steps):
        for left in WARNINGS_MS:
            if after.start - left > before.start:
                yield Cue(after.start - left, "short")
    for after in steps[1:]:
        yield Cue(after.start, "go" if after.kind == "work" else "rest")


def _halfway(steps: Steps) -> Iterator[Cue]:
    total = steps[-1].end
    if total >= LONG_MS:
        yield Cue(total // 2, "halfway")


def _last_minute(steps: Steps) -> Iterator[Cue]:
    total = steps[-1].end
    if total >= LONG_MS:
        yield Cue(total - 60_000, "last-minute")


def _last_ten(steps: Steps) -> Iterator[Cue]:
    total = steps[-1].end
    if total >= SHORT_MS:
        yield Cue(total - 10_000, "last-ten")


def _end(steps: Steps) -> Iterator[Cue]:
    yield Cue(steps[-1].end, "end")


STEP = CueRule(
    "step", "three short before each change of step, and the change", _changes, everywhere=False
)
RULES = (
    CueRule("count_in", "three, two, one, and go", _count_in),
    STEP,
    CueRule("halfway", "half of the time is gone; not in a segment under 3:00", _halfway),
    CueRule("last_minute", "one minute is left; not in a segment under 3:00", _last_minute),
    CueRule("last_ten", "ten seconds are left; not in a segment under 1:00", _last_ten),
    CueRule("end", "the end", _end),
)
"""In the order of weight: where two cues come within a second, the one of the later rule is
heard, and within a rule the one that is given later."""
SWITCHES = tuple(rule.switch for rule in RULES)


def cues_of(
    steps: Steps, own: Collection[CueRule] = (), off: Collection[str] = ()
) -> tuple[Cue, ...]:
    """A segment's cues in the order of time, never two of them within a second of each other.

    `own` are the rules of its format that aren't everywhere's, `off` the switches that the plan
    has turned off.
    """
    due = [
        cue
        for rule in RULES
        if (rule.everywhere or rule in own) and rule.switch not in off
        for cue in rule.cues(steps)
    ]
    heard: list[Cue] = []
    for cue in reversed(due):
        if all(abs(cue.at - other.at) >= APART_MS for other in heard):
            heard.append(cue)
    return tuple(sorted(heard, key=lambda cue: cue.at))
