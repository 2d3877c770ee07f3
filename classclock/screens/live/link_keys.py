"""The keys for the class's page: where it is, and letting a screen in by its digits."""

from classclock.following.page_words import spaced
from classclock.live.live_class import Outcome
from classclock.screens.live.class_overlays import ClassOverlays
from classclock.screens.live.overlays.link_overlay import LETS_IN
from classclock.screens.live.page_serving import PageServing


class LinkKeys:
    def __init__(self, serving: PageServing, overlays: ClassOverlays) -> None:
        self._serving, self._overlays = serving, overlays

    def press(self, sign: str) -> Outcome | None:
        """What each of them did; None for a sign that is none of theirs."""
        if sign == "<ctrl+l>":
            self._serving.start()
            self._overlays.turn_link()
            return Outcome()
        return self._let_in() if sign == LETS_IN else None

    def _let_in(self) -> Outcome:
        """The screen whose digits are shown, and none that nobody has seen."""
        digits = self._overlays.link.asks
        if not digits:
            return Outcome("no screen asks to see the class: ctrl+l shows who does", refused=True)
        self._serving.let_in(digits)
        return Outcome(f"{spaced(digits)} sees the class")
