"""Colour arithmetic, pure: mixing, and contrast as WCAG 2.2 defines it."""

from functools import lru_cache
from itertools import product

_CUBE = (0, 95, 135, 175, 215, 255)
_GREYS = range(8, 239, 10)
_FIXED = (*product(_CUBE, repeat=3), *((grey,) * 3 for grey in _GREYS))
"""Of 256 colours those that are the same in every terminal: xterm's numbers 16 to 255."""


def channels(colour: str) -> tuple[int, int, int]:
    """Red, green and blue, 0 to 255, of `#rrggbb`."""
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def is_grey(colour: str) -> bool:
    return len(set(channels(colour))) == 1


def _linear(channel: int) -> float:
    share = channel / 255
    return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4


def luminance(colour: str) -> float:
    """Relative luminance, 0 to 1 (WCAG 2.2, definition)."""
    red, green, blue = map(_linear, channels(colour))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio, 1 to 21: (L1 + 0.05) / (L2 + 0.05) (WCAG 2.2, 1.4.3 and 1.4.6)."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def mix(ground: str, ink: str, share: int) -> str:
    """Between ground (0) and ink (255)."""
    return "#" + "".join(
        f"{(low * (255 - share) + high * share + 127) // 255:02x}"
        for low, high in zip(channels(ground), channels(ink), strict=True)
    )


@lru_cache(maxsize=256)
def of_256(colour: str) -> str:
    """The nearest of the 240 fixed ones of 256 colours."""
    wanted = channels(colour)

    def distance(other: tuple[int, ...]) -> int:
        return sum((one - two) ** 2 for one, two in zip(wanted, other, strict=True))

    return "#" + "".join(f"{channel:02x}" for channel in min(_FIXED, key=distance))
