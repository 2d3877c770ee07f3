"""Whether this terminal shows the room's wall or the coach's own screen, and who sees it.

The coach alone turns it: that somebody follows the class says nothing about this screen.
"""


class OwnScreen:
    def __init__(self, *, mirrored: bool) -> None:
        """`mirrored`: as far as the club's settings say, the TV shows what this terminal shows."""
        self._mirrored = mirrored
        self.on = not mirrored
        """Whether the coach's own screen is up."""
        self.known = not mirrored
        """Whether it has been said that this screen isn't on the TV."""

    @property
    def mirrored(self) -> bool:
        """Whether the room may see what is shown now."""
        return self._mirrored and not self.on

    def turn(self) -> bool:
        """The other of the two; False: it has to be asked first whether the TV shows this one."""
        if not (self.on or self.known):
            return False
        self.on = not self.on
        return True

    def told(self) -> None:
        """The TV doesn't show this screen: it is the coach's from now on, until it is turned."""
        self.on = self.known = True
