"""One side of a loaded bar, in words and as a picture that a screen can scale."""

from msgspec import Struct

from classclock.strength.bar_loading import Lighter, Loading
from classclock.strength.plate_change import PlateChange
from classclock.units.bars_and_plates import Bar
from classclock.units.loads import Load, plain, shown

_FULL_SIZE_KG = 10
"""From here up plates for training have one diameter. Common practice, no source."""
_ROWS = 7


class PlateShape(Struct, frozen=True):
    """A plate seen from the side."""

    label: str
    height: float
    """As a share of the largest plate's, above 0 and up to 1."""
    thickness: int
    """In cells of a text picture, where the thinnest takes 1."""


def side_words(loading: Loading) -> str:
    """The plates of one side, from the middle outwards: `20 + 10 + 1.25 a side`."""
    if not loading.plates:
        return "the empty bar" if loading.collar is None else "collars, no plates"
    labels = " + ".join(plate_labels(loading))
    return f"{labels} a side" + (", then the collar" if loading.collar is not None else "")


def lighter_words(target: Load, lighter: Lighter) -> str:
    """What to take for a load that is too light for the bar."""
    offers = []
    if lighter.bar is not None:
        offers.append(f"the {lighter.bar.name}")
    if lighter.kettlebell is not None:
        offers.append(f"a kettlebell of {lighter.kettlebell}")
    if lighter.dumbbell is not None:
        offers.append(f"a dumbbell of {lighter.dumbbell}")
    if lighter.two_dumbbells is not None:
        offers.append(f"two dumbbells of {lighter.two_dumbbells}")
    which = "the bar" if lighter.bar is not None else "every bar of the club"
    take = ", or ".join(offers) if offers else "something lighter; the club's list has nothing"
    return f"{shown(target)} is below {which}. Take {take}."


def plate_labels(loading: Loading) -> tuple[str, ...]:
    """What each plate says: its unit too, where it isn't the bar's."""
    return _labels(loading.plates, loading.bar)


def change_words(change: PlateChange, bar: Bar, *, brief: bool = False) -> str:
    """What changes on each side of the bar: `on 10 + 5, off 1.25`; in brief `+10 +5 -1.25`."""
    on, off = _labels(change.on, bar), _labels(change.off, bar)
    if brief:
        return " ".join((*(f"+{plate}" for plate in on), *(f"-{plate}" for plate in off)))
    sides = (("on", on), ("off", off))
    parts = [f"{word} {' + '.join(plates)}" for word, plates in sides if plates]
    return ", ".join(parts) or "the same plates"


def _labels(plates: tuple[Load, ...], bar: Bar) -> tuple[str, ...]:
    unit = bar.weight.unit
    return tuple(plain(plate.amount) if plate.unit == unit else str(plate) for plate in plates)


def side_shapes(loading: Loading) -> tuple[PlateShape, ...]:
    """The plates of one side, from the middle outwards, for a screen to draw."""
    labels = plate_labels(loading)
    return tuple(
        PlateShape(label, _height(plate), _thickness(plate))
        for label, plate in zip(labels, loading.plates, strict=True)
    )


def side_picture(loading: Loading) -> tuple[str, ...]:
    """One side as lines of text, the bar's middle on the left."""
    shapes = side_shapes(loading)
    middle = _ROWS // 2
    lines = []
    for row in range(_ROWS):
        sign = "━" if row == middle else " "
        cells = [sign * 6]
        for shape in shapes:
            width = max(len(shape.label) + 2, shape.thickness + 2)
            reach = round(shape.height * middle)
            if row == middle:
                cells.append(shape.label.center(width, "█"))
            else:
                cells.append(("█" if abs(row - middle) <= reach else " ") * width)
            cells.append(sign)
        lines.append("".join((*cells, sign * 3)).rstrip())
    return tuple(line for line in lines if line)


def _height(plate: Load) -> float:
    return max(0.3, min(1.0, float(plate.kg) / _FULL_SIZE_KG))


def _thickness(plate: Load) -> int:
    kg = plate.kg
    return 1 + sum(kg >= limit for limit in (5, 15, 25))
