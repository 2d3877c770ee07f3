"""What the terminal can show, worked out from its environment."""

from collections.abc import Mapping

from msgspec import Struct


class Terminal(Struct, frozen=True):
    true_colour: bool = True
    block_characters: bool = True
    """False where only ASCII comes out."""
    sextants: bool = True
    """Unicode 13's characters for cells of two by three dots."""


_TRUE_COLOUR = ("truecolor", "24bit")
_NO_SEXTANTS = ("linux", "screen", "vt100", "vt220", "dumb")


def terminal_from(environment: Mapping[str, str], encoding: str) -> Terminal:
    """From variables such as COLORTERM, TERM and NO_COLOR, and the output's encoding."""
    unicode = encoding.lower().replace("-", "").startswith("utf")
    kind = environment.get("TERM", "")
    return Terminal(
        true_colour=unicode
        and environment.get("COLORTERM", "").lower() in _TRUE_COLOUR
        and not environment.get("NO_COLOR"),
        block_characters=unicode,
        sextants=unicode and not kind.startswith(_NO_SEXTANTS),
    )
