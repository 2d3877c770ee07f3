"""The visible twin of each cue: a word beside the clock."""

from collections.abc import Sequence

from classclock.clock.cue_track import CueHeard, CueSkipped
from classclock.clock.timeline import CueKind

STAYS = 2_000
"""Milliseconds of real time for which a word stands there."""
_WORDS: dict[CueKind, str] = {
    "short": "",  # the clock's own digits are its twin
    "go": "GO",
    "rest": "REST",
    "halfway": "HALFWAY",
    "last-minute": "ONE MINUTE",
    "last-ten": "TEN SECONDS",
    "end": "TIME",
}


def word_of(cues: Sequence[CueHeard | CueSkipped]) -> str:
    """The word for the latest of these cues; empty where the digits say it all."""
    return _WORDS[cues[-1].cue.kind] if cues else ""


def skipped_words(cues: Sequence[CueHeard | CueSkipped]) -> str:
    """Which sounds were left out, having come too late; empty where none was."""
    late = [_WORDS[one.cue.kind].lower() or "a countdown beep" for one in cues if _skipped(one)]
    return f"not sounded, over a second late: {', '.join(dict.fromkeys(late))}" if late else ""


def _skipped(cue: CueHeard | CueSkipped) -> bool:
    return isinstance(cue, CueSkipped)
