"""The list of who is here, over the board: it has the keys until it is closed."""

from collections.abc import Mapping, Sequence

from classclock.book.asking.known_people import KnownPerson
from classclock.live.live_class import Outcome
from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.live.people.people_desk import PeopleDesk
from classclock.screens.live.people.people_list_drawing import draw_people_list
from classclock.tally.keys.strokes import translate
from classclock.wall.between.here_content import HereContent


class PeopleOverlay(Painted):
    """`open` shows it, `press` takes a sign, `follow` brings it to how the class stands."""

    def __init__(self, look: Look, desk: PeopleDesk) -> None:
        super().__init__(look)
        self.desk = desk
        self._followed: tuple[HereContent, Sequence[KnownPerson]] | None = None
        """Who was here and known when it was painted last."""

    def open(self) -> None:
        self.desk.open()
        self._show()

    def close(self) -> None:
        self.desk.close()
        self._show()

    def press(self, sign: str, row: Mapping[str, str]) -> Outcome | None:
        """What came of this sign; None: the list isn't open, or leaves it to the class.

        `row` maps the signs of the keyboard's upper row, but for where text is typed.
        """
        if not self.display:
            return None
        outcome = self.desk.sign(sign if self.desk.types else translate(sign, row))
        self._show()
        return outcome

    def paste(self, text: str) -> None:
        if self.display:
            self.desk.paste(text)
            self._show()

    def refresh_list(self) -> None:
        """What was read of people is there."""
        self._show()

    def follow(self) -> None:
        if self.display and self._followed != (self.desk.people.content(), self.desk.people.known):
            self._show()

    def paint(self, columns: int, rows: int) -> Drawing:
        return draw_people_list(self.desk, columns, rows, self.look)

    def _show(self) -> None:
        self.display = self.desk.is_open
        if self.display:
            self._followed = self.desk.people.content(), self.desk.people.known
            self.repaint()
