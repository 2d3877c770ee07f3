"""The same colours for a terminal: with as many of them as it has."""

from typing import TYPE_CHECKING

from msgspec.structs import astuple, replace

from classclock.machine.terminal import Colours
from classclock.wall.colours.mixing import of_256
from classclock.wall.colours.theme import DARK, LIGHT, Shades, Theme, variables

if TYPE_CHECKING:
    from textual.theme import Theme as TextualTheme

SIXTEEN = Theme(
    name="sixteen",
    dark=True,
    ground="black",
    band="black",
    bar="black",
    ink="bright_white",
    quiet="white",
    faint="bright_black",
    key="bright_yellow",
    key_ink="black",
    key_ground="bright_white",
    ahead=Shades("bright_cyan", "bright_cyan", "cyan", "bright_black"),
    level=Shades("bright_white", "bright_green", "green", "bright_black"),
    behind=Shades("bright_yellow", "bright_yellow", "yellow", "bright_black"),
    first=Shades("white", "bright_white", "white", "bright_black"),
    doubtful="bright_yellow",
    alarm_ink="bright_white",
    alarm_ground="red",
    hold_ink="black",
    hold_ground="bright_yellow",
)
"""For terminals with sixteen colours, whose exact shades are the terminal's own."""


def theme_for(colours: Colours, *, bright_room: bool) -> Theme:
    if colours == 16:
        return SIXTEEN
    if colours == 256:
        return _day_of_256() if bright_room else _night_of_256()
    return LIGHT if bright_room else DARK


def _night_of_256() -> Theme:
    """But for blue: the nearest misses 7:1 as text, and between blocks it is violet."""
    night = _nearest_of_256(DARK)
    return replace(night, ahead=replace(night.ahead, text="#5fafff", other="#005f87"))


def _day_of_256() -> Theme:
    """As for the night: where the nearest misses 7:1 as text, or 3:1 as a block, a darker one."""
    day = _nearest_of_256(LIGHT)
    return replace(
        day,
        bar=day.band,
        quiet="#3a3a3a",
        doubtful="#5f0000",
        ahead=replace(day.ahead, text="#00005f"),
        level=replace(day.level, block="#00875f"),
        first=replace(day.first, text="#3a3a3a"),
    )


def _nearest_of_256(theme: Theme) -> Theme:
    """Ink and ground become greys, and so do the tones between them on the edge of a letter."""
    nearest: dict[str, str | Shades] = {}
    for field in Theme.__struct_fields__:
        value = getattr(theme, field)
        if isinstance(value, Shades):
            nearest[field] = Shades(*map(of_256, astuple(value)))
        elif isinstance(value, str) and value.startswith("#"):
            nearest[field] = of_256(value)
    return replace(theme, **nearest)


def textual_theme(theme: Theme) -> "TextualTheme":
    """The same colours for Textual; sixteen-colour names become its own `ansi_` names."""
    from textual.theme import Theme as TextualTheme  # noqa: PLC0415 - slow; only the app needs it

    def named(colour: str) -> str:
        return colour if colour.startswith("#") else f"ansi_{colour}"

    return TextualTheme(
        name=f"classclock-{theme.name}",
        primary=named(theme.ahead.block),
        secondary=named(theme.quiet),
        accent=named(theme.doubtful),
        warning=named(theme.behind.block),
        error=named(theme.alarm_ground),
        success=named(theme.level.block),
        foreground=named(theme.ink),
        background=named(theme.ground),
        surface=named(theme.band),
        panel=named(theme.bar),
        dark=theme.dark,
        variables={name: named(colour) for name, colour in variables(theme).items()},
    )
