"""The visible twin of each cue: a word beside the clock."""

from collections.abc import Sequence

from classclock.clock.cue_track import CueHeard, CueSkipped
from classclock.clock.cues import SIGNALS

STAYS = 2_000
"""Milliseconds of real time for which a word stands there."""


def word_of(cues: Sequence[CueHeard | CueSkipped]) -> str:
    """The word for the latest of these cues; empty where the digits say it all."""
    return SIGNALS[cues[-1].cue.kind].word if cues else ""


class CueStanding:
    """The word of the cue that came last, for as long as it stands. Moments: ms of real time."""

    def __init__(self) -> None:
        self._word, self._since = "", 0

    def come(self, word: str, real: int) -> None:
        """This one has come; none: what stands goes on standing."""
        if word:
            self._word, self._since = word, real

    def word(self, real: int) -> str:
        return self._word if real - self._since < STAYS else ""


def skipped_words(cues: Sequence[CueHeard | CueSkipped]) -> str:
    """Which sounds were left out, having come too late; empty where none was."""
    late = [SIGNALS[one.cue.kind].word for one in cues if isinstance(one, CueSkipped)]
    said = dict.fromkeys(word.lower() or "a countdown beep" for word in late)
    return f"not sounded, over a second late: {', '.join(said)}" if said else ""
