"""What can be read in a picture of the wall, sharp and as an eye ten metres away has it."""

from msgspec import Struct
from PIL import Image

from classclock.machine.terminal import ALL, Terminal
from classclock.screens.canvas.arranged_drawing import Ink, draw_spot
from classclock.screens.canvas.layout.nodes import Box as LaneBox
from classclock.screens.canvas.layout.nodes import Spot
from classclock.screens.canvas.look import Look
from pictures.terminals.wall import Facts, Place
from readable.bitmap import picture
from readable.eye import Box, alike, from_afar, nearest, part, read_all, squeezed


class Read(Struct, frozen=True):
    """How many of each were read, and what was read otherwise."""

    clock: bool
    names: tuple[int, int]
    keys: tuple[int, int]
    tallies: tuple[int, int]
    otherwise: tuple[str, ...]


class Eye(Struct, frozen=True):
    """Looks at a picture of the whole wall from close by, or from ten metres away."""

    picture: Image.Image
    facts: Facts
    far: bool

    def read(self) -> Read:
        """Read what the facts say stands there."""
        said = {
            what: list(zip([place.text for place in places], self._said(places), strict=True))
            for what in ("clock", "name", "key", "tally")
            for places in [self._places(what)]
        }
        counts = {
            what: (sum(squeezed(one) == other for one, other in pairs), len(pairs))
            for what, pairs in said.items()
        }
        return Read(
            counts["clock"] == (1, 1),
            counts["name"],
            counts["key"],
            counts["tally"],
            tuple(
                f"{text}: {seen or '-'}"
                for pairs in said.values()
                for text, seen in pairs
                if squeezed(text) != seen
            ),
        )

    def seen(self) -> Image.Image:
        """The whole picture as this eye has it, as large as a reader needs it."""
        return self._part(self.picture, (0, 0, 1, 1)) if self.far else self.picture

    def _part(self, screen: Image.Image, box: Box) -> Image.Image:
        return part(from_afar(screen) if self.far else screen, box, far=self.far)

    def _places(self, what: str) -> list[Place]:
        return [place for place in self.facts.places if place.what == what]

    def _said(self, places: list[Place]) -> list[str]:
        parts = [
            (self._part(self.picture.convert("L"), self._box(place)), place.text)
            for place in places
        ]
        if not places or places[0].what not in ("key", "tally"):
            return read_all(parts)
        return [self._nearest(seen, place) for (seen, _), place in zip(parts, places, strict=True)]

    def _box(self, place: Place) -> Box:
        columns, rows = self.facts.columns, self.facts.rows
        return (
            place.x / columns,
            place.y / rows,
            (place.x + place.width) / columns,
            (place.y + place.height) / rows,
        )

    def _nearest(self, seen: Image.Image, place: Place) -> str:
        """Which of all keys, or of all tallies of as many signs, it looks most like."""
        drawn = {sign: self._own(sign, place, seen.size) for sign in alike(place.text)}
        return squeezed(nearest(seen, drawn))

    def _own(self, sign: str, place: Place, size: tuple[int, int]) -> Image.Image:
        """As we draw it, in its box, in white on black, and as this eye has it."""
        colours = ALL if self.facts.colours > 16 else 16
        terminal = Terminal(colours, self.facts.dots or None)  # type: ignore[arg-type]
        look = Look(terminal=terminal).on("#000000", "#ffffff")
        spot = Spot(LaneBox(0, 0, place.width, place.height), place.size, (sign,), place.across)
        boxed = draw_spot(spot, look, Ink(bold=True, down="top"))
        screen = Image.new("L", self.picture.size)
        left, top, right, bottom = self._box(place)
        wide, high = screen.size
        corner = round(left * wide), round(top * high)
        ends = round(right * wide) - corner[0], round(bottom * high) - corner[1]
        screen.paste(picture(boxed, place.width, ends), corner)
        return self._part(screen, self._box(place)).resize(size)
