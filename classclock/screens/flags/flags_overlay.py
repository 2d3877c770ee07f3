"""Flags on loads over the board, where the room doesn't see the screen."""

from dataclasses import dataclass

from classclock.screens.controls.meant import Meant
from classclock.screens.flags.flags_view import FlagsView
from classclock.tally.load_flags import LoadFlag


class FlagsOverlay(FlagsView):
    """Enter is that they were looked at, escape closes; every other key goes where it goes."""

    @dataclass
    class LookedAt(Meant):
        flags: tuple[LoadFlag, ...]

    def offer(self, sign: str) -> bool:
        if not self.display or sign not in ("<enter>", "<escape>"):
            return False
        if sign == "<enter>":
            seen = self.seen
            self.post_message(self.LookedAt(seen))
            self.show(tuple(flag for flag in self.flags if flag not in seen))
        else:
            self.display = False
        return True
