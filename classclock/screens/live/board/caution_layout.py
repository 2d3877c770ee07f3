"""What to look out for, as parts of a layout: never left out, and close together."""

from collections.abc import Sequence

from classclock.screens.canvas.arranged_drawing import Ink
from classclock.screens.canvas.layout.parts import MOST, OneOf, Stack, Written
from classclock.screens.canvas.look import Look

GROUP = "caution"


def cautions_together(cautions: Sequence[str], *, most: int = MOST) -> OneOf:
    """A line each, or all in one that breaks; in sizes up to `most`."""
    signed = [f" ! {words}" for words in cautions]
    each = [_text(number, words, most) for number, words in enumerate(signed)]
    in_one = _text(len(each), "".join(signed), most)
    return OneOf((Stack(tuple(each)), in_one))


def _text(number: int, words: str, most: int) -> Written:
    return Written((GROUP, number), words, GROUP, "caution", 9, breaks=True, most=most)


def caution_ink(look: Look) -> Ink:
    return Ink(look.theme.alarm_ink, look.theme.alarm_ground, bold=True)
