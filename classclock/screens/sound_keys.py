"""The keys for the sound: a check before the class, off and on, softer and louder."""

from classclock.sound.loudspeaker import Speaker

_STEP = 10


class SoundKeys:
    """What they did is said in words; None for a sign that is none of theirs."""

    def __init__(self, speaker: Speaker, volume: int) -> None:
        self._speaker = speaker
        self._volume = volume
        self.muted = False

    def press(self, sign: str, *, clock_runs: bool) -> str | None:
        match sign:
            case "<f3>" if clock_runs:
                return "the clock runs: check the sound before the start"
            case "<f3>":
                self._speaker.check()
                return "sound check: three short, then go. F5 softer, F6 louder"
            case "<f4>":
                self.muted = not self.muted
                self._speaker.mute(self.muted)
                return "sound off: F4 turns it on again" if self.muted else "sound on"
            case "<f5>":
                return self._turn(-_STEP)
            case "<f6>":
                return self._turn(_STEP)
        return None

    def _turn(self, by: int) -> str:
        self._volume = max(0, min(100, self._volume + by))
        self._speaker.set_volume(self._volume)
        return f"volume {self._volume} of 100"
