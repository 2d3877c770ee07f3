"""The process that sounds the cues: orders come in on stdin, what it has to say goes to stdout.

Run as `python -m classclock.sound.player`. It lives only as long as its stdin: when the app ends,
however it ends, nothing that was scheduled may sound on, or a rejoined class would beep twice.
"""

import os
import signal
import sys
import threading
from collections.abc import Callable
from contextlib import suppress

from classclock.clock.source import raw_now
from classclock.machine.bundled import bundled
from classclock.sound.agenda import TOO_LATE_NS, Agenda, Due
from classclock.sound.messages import (
    Alive,
    Ask,
    Cancel,
    Mute,
    Quit,
    Schedule,
    Skipped,
    SoundNotice,
    SoundStatus,
    Volume,
    line,
    read_order,
)
from classclock.sound.output import Output, Say
from classclock.sound.waves import Waves, read_waves

_TEND_S = 0.5


class Player:
    """Does what the orders say. It knows no pipes."""

    def __init__(self, now: Callable[[], int], say: Say) -> None:
        self._now = now
        self._say = say
        self.agenda = Agenda(lambda name: say(Skipped(name)))

    def obey(self, text: bytes) -> bool:
        """Do what one line orders; False when it is the last."""
        try:
            order = read_order(text)
        except ValueError:
            self._say(SoundNotice("F3 checks the sound before the next start: a cue got lost"))
            return True
        match order:
            case Schedule():
                self._schedule(order)
            case Cancel():
                self.agenda.cancel()
            case Volume():
                self.agenda.volume = order.level
            case Mute():
                self.agenda.muted = order.on
            case Ask():
                self._say(Alive())
            case Quit():
                return False
        return True

    def _schedule(self, order: Schedule) -> None:
        if self._now() - order.due > TOO_LATE_NS:
            self._say(Skipped(order.id))
        else:
            self.agenda.add(Due(order.due, order.id, order.sound))


def say_aloud(status: SoundStatus) -> None:
    """Write to stdout at once, whole lines only, from whichever thread."""
    with suppress(OSError):  # the app is gone: the end of stdin says so too
        os.write(sys.stdout.fileno(), line(status))


def _open(player: Player) -> Output:
    wish = os.environ.get("CLASSCLOCK_SOUND", "")
    waves: Waves = {}
    try:
        waves = read_waves(bundled("sounds"))
        return Output(player.agenda, waves, raw_now, say_aloud, wish)
    except (ValueError, OSError) as error:
        say_aloud(SoundNotice(f"no sound, as {error}", lasts=True))
        return Output(player.agenda, waves, raw_now, say_aloud, "silent")


def _tend(player: Player) -> None:
    """Keep the output going; in a thread of its own, as opening a device may take seconds."""
    output = _open(player)
    pause = threading.Event()
    while True:
        output.tend()
        pause.wait(_TEND_S)


def main() -> None:
    # Keys that interrupt reach the whole foreground group; the app decides what they mean.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    player = Player(raw_now, say_aloud)
    threading.Thread(target=_tend, args=(player,), name="output", daemon=True).start()
    for text in sys.stdin.buffer:
        if not player.obey(text):
            break
    # At once, without closing the device: an audio library that waits for its buffer to run dry,
    # or hangs, must not let a beep outlive the class. The system closes what we leave open.
    os._exit(0)


if __name__ == "__main__":
    main()
