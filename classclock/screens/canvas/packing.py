"""A drawing as bytes, to be handed from one process of ours to another."""

import msgspec
from rich.segment import Segment
from rich.style import Style

from classclock.screens.canvas.cells import Drawing, style

_Look = tuple[str, str, bool]
"""Ink, ground, and whether it is bold."""


class _Packed(msgspec.Struct, array_like=True):
    looks: list[_Look]
    rows: list[list[tuple[str, int]]]
    """Each segment's text, and the number of its look."""


def pack(drawing: Drawing) -> bytes:
    """The drawing's bytes.

    Raises:
        ValueError: a segment has no ink or no ground, which in no drawing of ours is so.
    """
    looks: dict[_Look, int] = {}
    rows = [
        [(part.text, looks.setdefault(_look(part.style), len(looks))) for part in row]
        for row in drawing
    ]
    return msgspec.msgpack.encode(_Packed(list(looks), rows))


def unpack(data: bytes) -> Drawing:
    """The drawing that was packed.

    Raises:
        msgspec.DecodeError: these are other bytes, or not all of them are here.
    """
    packed = msgspec.msgpack.decode(data, type=_Packed)
    styles = [style(ink, ground, bold=bold) for ink, ground, bold in packed.looks]
    return tuple(
        tuple(Segment(text, styles[number]) for text, number in row) for row in packed.rows
    )


def _look(style: Style | None) -> _Look:
    if style is None or style.color is None or style.bgcolor is None:
        raise ValueError("a segment of a drawing has an ink and a ground")
    return style.color.name, style.bgcolor.name, bool(style.bold)
