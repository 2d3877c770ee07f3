"""The visible twin of each cue: a word beside the clock."""

from collections.abc import Sequence

from classclock.clock.cue_track import CueHeard, CueSkipped
from classclock.clock.cues import SIGNALS

STAYS = 2_000
"""Milliseconds of real time for which a word stands there."""


def word_of(cues: Sequence[CueHeard | CueSkipped]) -> str:
    """The word for the latest of these cues; empty where the digits say it all."""
    return SIGNALS[cues[-1].cue.kind].word if cues else ""


def skipped_words(cues: Sequence[CueHeard | CueSkipped]) -> str:
    """Which sounds were left out, having come too late; empty where none was."""
    late = [SIGNALS[one.cue.kind].word for one in cues if isinstance(one, CueSkipped)]
    said = dict.fromkeys(word.lower() or "a countdown beep" for word in late)
    return f"not sounded, over a second late: {', '.join(said)}" if said else ""
