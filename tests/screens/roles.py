"""A theme whose every colour is another, so that a cell's colour tells which role it has.

Two roles of a real theme may share a colour: a picture in that one couldn't say which was meant.
Surfaces differ in their red and have no blue, inks differ in their green and have all of it: so a
mixture of both, on a letter's smooth edge, can be told apart again.
"""

from functools import lru_cache

from msgspec.structs import replace

from classclock.wall.colours.mixing import channels, mix
from classclock.wall.colours.theme import DARK, Shades, Theme

SURFACES = {
    name: f"#{40 * number:02x}0000"
    for number, name in enumerate(
        ("ground", "band", "bar", "key_ground", "alarm_ground", "hold_ground"), start=1
    )
}
"""What letters stand on."""


def _fields() -> dict[str, tuple[str, ...]]:
    """The roles in each field of a theme: the field itself, or its shades."""
    roles: dict[str, tuple[str, ...]] = {}
    for field in Theme.__struct_fields__:
        value = getattr(DARK, field)
        if isinstance(value, Shades):
            roles[field] = tuple(f"{field}.{shade}" for shade in Shades.__struct_fields__)
        elif isinstance(value, str) and value.startswith("#"):
            roles[field] = (field,)
    return roles


_FIELDS = _fields()
INKS = {
    name: f"#00{10 * number:02x}ff"
    for number, name in enumerate(
        (name for names in _FIELDS.values() for name in names if name not in SURFACES), start=1
    )
}
ROLES = SURFACES | INKS
_NAMES = {colour: name for name, colour in ROLES.items()}


def _theme() -> Theme:
    colours = {field: [ROLES[name] for name in names] for field, names in _FIELDS.items()}
    return replace(
        DARK, **{field: Shades(*own) if len(own) > 1 else own[0] for field, own in colours.items()}
    )


THEME = _theme()


@lru_cache(maxsize=4096)
def role(colour: str) -> str:
    """The role of a colour; of an ink mixed with a surface the one that it is nearest to.

    A colour of no role is itself, as `#rrggbb`.
    """
    if colour in _NAMES:
        return _NAMES[colour]
    share = channels(colour)[2]
    for surface, under in SURFACES.items():
        for ink, over in INKS.items():
            if mix(under, over, share) == colour:
                return ink if share >= 128 else surface
    return colour
