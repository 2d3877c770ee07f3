"""The rule of `arrange` by trying everything: every size, every way, every split of the box.

Written from the rule's text alone; it shares the parts with the program and nothing else. Only
for small boxes.
"""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import product
from math import ceil

from msgspec.structs import replace

from classclock.screens.canvas.layout.parts import (
    Area,
    Arrangement,
    Beside,
    Drawn,
    Grid,
    Lead,
    OneOf,
    Stack,
    Written,
)
from tests.screens.canvas.layout.toy_measure import ToyMeasure

MEASURE = ToyMeasure()
ROOM = ("caution", "room")
Sizes = dict[str, int]


class Tried:
    """All that the rule says of a screen's sizes and pages."""

    def __init__(
        self, part: Arrangement, columns: int, rows: int, lead: Lead | None = None
    ) -> None:
        self.part, self.columns, self.rows = part, columns, rows
        self.ways = [(one, {leaf.group for leaf in every_leaf(one)}) for one in ways_of(part)]
        self.members: dict[str, list[Written | Drawn]] = {}
        for leaf in every_leaf(part):
            self.members.setdefault(leaf.group, []).append(leaf)
        for group in [group for group in self.members if not self.has_any(group)]:
            del self.members[group]
        self.lead = lead if lead is not None and lead.group in self.members else None

    def has_any(self, group: str) -> bool:
        """Whether there is anything to be seen of it, where it has room."""
        return any(isinstance(leaf, Drawn) or leaf.words for leaf in self.members[group])

    def role(self, group: str) -> str:
        return self.members[group][0].role

    def matters(self, group: str) -> int:
        return max(leaf.matters for leaf in self.members[group])

    def is_text(self, group: str) -> bool:
        return isinstance(self.members[group][0], Written)

    def ladder(self, group: str) -> list[int]:
        """The sizes that the group can have."""
        texts = [leaf for leaf in self.members[group] if isinstance(leaf, Written)]
        free = [t for t in texts if t.words and len(MEASURE.sizes(t.words, self.rows)) > 1]
        if not free:
            return [1]
        found = [
            size
            for size in range(1, self.rows + 1)
            if all(size in MEASURE.sizes(t.words, self.rows) for t in free)
        ]
        within = [n for n in found if all(t.least <= n <= t.most for t in texts)]
        return within or found[:1]

    def stand(self, sizes: Sizes, pages: int = 1) -> bool:
        lead = self.lead
        if lead is not None and sizes.get(lead.group):
            first = sizes[lead.group]
            if any(size > first for size in sizes.values()):
                return False
            if any(lead.times * sizes.get(group, 0) > first for group in lead.over):
                return False
        there = {group for group, size in sizes.items() if size}
        return any(
            there <= groups
            and stands(way, self.columns, self.rows, tuple(sorted(sizes.items())), pages)
            for way, groups in self.ways
        )

    def led(self, sizes: Sizes) -> Iterator[Sizes]:
        """These sizes, with every size of what leads that is no smaller."""
        lead = self.lead
        if lead is None or not sizes.get(lead.group):
            yield sizes
            return
        for size in self.ladder(lead.group):
            if size >= sizes[lead.group]:
                yield sizes | {lead.group: size}

    def could(self, sizes: Sizes, pages: int = 1) -> bool:
        return any(self.stand(one, pages) for one in self.led(sizes))

    def musts(self) -> list[str]:
        """In the order in which they are kept."""
        kept = ("caution", "room", "coach")
        named = [group for group in self.members if self.role(group) in kept]
        return sorted(named, key=lambda g: (kept.index(self.role(g)), -self.matters(g)))

    def pages(self) -> int:
        longest = longest_paged(self.part)
        musts = self.musts()
        for of_the_room in (1, 0):
            sizes = dict.fromkeys(self.members, 0)
            for group in musts:
                ladder = self.ladder(group)
                at = of_the_room if self.role(group) in ROOM else 0
                sizes[group] = ladder[min(at, len(ladder) - 1)]
            for pages in range(1, longest + 1):
                if self.could(sizes, pages):
                    return pages
        return 1

    def best(self) -> tuple[Sizes, int] | None:
        """Each group's size and the number of pages; None where not even the cautions stand."""
        pages = self.pages()
        there = self._there(pages)
        if there is None:
            return None
        none = dict.fromkeys(self.members, 0)
        least = {group: self.ladder(group)[0] for group in there}
        leads = [self.lead.group] if self.lead is not None and self.lead.group in there else []
        large = [g for g in there if self.role(g) in ROOM and self.is_text(g) and g not in leads]
        ways = [
            none | least | dict(zip(large, sizes, strict=True))
            for sizes in product(*(self.ladder(group) for group in large))
        ]
        ways.sort(key=lambda s: (sorted(s[g] for g in large), [s[g] for g in large]), reverse=True)
        led = (one for way in ways for one in self.led(way) if self.stand(one, pages))
        sizes = next(led)
        others = sorted(
            (group for group in self.members if self.role(group) not in ROOM),
            key=lambda group: -self.matters(group),
        )
        for group in others:
            if not sizes[group] and self.stand(
                added := sizes | {group: self.ladder(group)[0]}, pages
            ):
                sizes = added
        most = min((sizes[group] for group in (*large, *leads)), default=self.rows)
        for group in leads:
            sizes = max(
                (s for s in self.led(sizes) if self.stand(s, pages)), key=lambda s: s[group]
            )
        for group in others:
            larger = [n for n in self.ladder(group) if sizes[group] < n <= most]
            fitting = [n for n in larger if self.stand(sizes | {group: n}, pages)]
            if sizes[group] and fitting:
                sizes = sizes | {group: max(fitting)}
        return sizes, pages

    def _there(self, pages: int) -> list[str] | None:
        """What of all that must be there is."""
        musts = self.musts()
        none = dict.fromkeys(self.members, 0)
        for kept in product((True, False), repeat=len(musts)):  # what is kept longest varies last
            there = [group for group, stays in zip(musts, kept, strict=True) if stays]
            if any(self.role(g) == "caution" and g not in there for g in musts):
                return None
            if self.could(none | {group: self.ladder(group)[0] for group in there}, pages):
                return there
        return None


def every_leaf(part: Arrangement) -> Iterator[Written | Drawn]:
    if isinstance(part, Written | Drawn):
        yield part
    elif isinstance(part, Grid):
        for row in part.rows:
            for cell in row:
                yield from every_leaf(cell)
        for one in part.under:
            yield from every_leaf(one)
    elif isinstance(part, Area):
        yield from every_leaf(part.part)
    else:
        for one in part.parts:
            yield from every_leaf(one)


def ways_of(part: Arrangement) -> Iterator[Arrangement]:
    """The part in each of its ways."""
    match part:
        case OneOf(parts=parts):
            for one in parts:
                yield from ways_of(one)
        case Stack(parts=parts) | Beside(parts=parts):
            for each in product(*(list(ways_of(one)) for one in parts)):
                yield replace(part, parts=each)
        case Area(part=inner):
            yield from ways_of(inner)
        case _:
            yield part


def longest_paged(part: Arrangement) -> int:
    if isinstance(part, Grid):
        return len(part.rows) if part.paged else 1
    if isinstance(part, Written | Drawn):
        return 1
    if isinstance(part, Area):
        return longest_paged(part.part)
    return max(map(longest_paged, part.parts))


def is_there(part: Arrangement, sizes: Sizes) -> bool:
    return any(
        sizes.get(leaf.group) and (isinstance(leaf, Drawn) or leaf.words)
        for leaf in every_leaf(part)
    )


@lru_cache(maxsize=200_000)
def stands(
    part: Arrangement, columns: int, rows: int, sized: tuple[tuple[str, int], ...], pages: int
) -> bool:
    """Whether there is any way at all."""
    sizes = dict(sized)
    if columns < 0 or rows < 0:
        return False
    if not is_there(part, sizes):
        return True
    match part:
        case Written():
            size = sizes[part.group]
            return any(
                len(lines) * size <= rows
                and all(MEASURE.columns(line, size) <= columns for line in lines)
                for lines in breakings(part)
            )
        case Drawn(least=(wide, high)):
            return wide <= columns and high <= rows
        case OneOf() | Area():
            raise AssertionError("one of its ways stands for it")
        case Stack():
            there = [one for one in part.parts if is_there(one, sizes)]
            left = rows - part.gap * (len(there) - 1)
            return any(
                all(
                    stands(one, columns, high, sized, pages)
                    for one, high in zip(there, highs, strict=True)
                )
                for highs in splits(left, len(there))
            )
        case Beside():
            there = [one for one in part.parts if is_there(one, sizes)]
            left = columns - part.gap * (len(there) - 1)
            return any(
                all(
                    stands(one, wide, rows, sized, pages)
                    for one, wide in zip(there, wides, strict=True)
                )
                for wides in splits(left, len(there))
            )
        case Grid():
            return any(
                table_stands(part, across, (columns, rows), sized, pages) for across in part.across
            )


def table_stands(
    table: Grid, across: int, box: tuple[int, int], sized: tuple[tuple[str, int], ...], pages: int
) -> bool:
    sizes, (columns, rows) = dict(sized), box
    each = (columns - table.between * (across - 1)) // across
    down = ceil(ceil(len(table.rows) / (pages if table.paged else 1)) / across)
    there = [
        cells
        for cells in zip(*table.rows, strict=True)
        if any(is_there(cell, sizes) for cell in cells)
    ]
    left = each - table.gap * max(0, len(there) - 1)
    return left >= 0 and any(
        all(stands(one, each, under, sized, 1) for one in table.under)
        and sum(narrowest(cells, left, high, sized) for cells in there) <= left
        for high, under in splits(rows // down, 2)
    )


def narrowest(
    cells: Sequence[Arrangement], most: int, high: int, sized: tuple[tuple[str, int], ...]
) -> int:
    """The columns in which all of them stand; one more than there are where they don't."""
    fitting = (
        wide
        for wide in range(most + 1)
        if all(stands(cell, wide, high, sized, 1) for cell in cells)
    )
    return next(fitting, most + 1)


def breakings(text: Written) -> Iterator[list[str]]:
    """Every way to break it; a number and `kg` stay together."""
    words = text.words.replace(" kg", "\0kg").split(" ")
    gaps = len(words) - 1 if text.breaks else 0
    if not text.breaks:
        yield [text.words]
        return
    for broken in product((False, True), repeat=gaps):
        lines = [words[0]]
        for word, new in zip(words[1:], broken, strict=True):
            if new:
                lines.append(word)
            else:
                lines[-1] += f" {word}"
        yield [line.replace("\0", " ") for line in lines]


def splits(whole: int, parts: int) -> Iterator[Sequence[int]]:
    """Every way to part so many into so many."""
    if parts == 1:
        yield (whole,)
        return
    for first in range(whole + 1):
        for rest in splits(whole - first, parts - 1):
            yield (first, *rest)
