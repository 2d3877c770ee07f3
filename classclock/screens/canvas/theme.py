"""Every colour in one place, named after what it means.

The hues are Okabe and Ito's (2008; Wong, Nature Methods 8 (2011) 441), told apart by colour-blind
eyes. On a dark ground only #E69F00, #56B4E9 and #F0E442 of them reach 7:1 as text; the others, and
darkened ones on light ground, are surfaces or are darkened until they do. No meaning is carried by
hue alone: a word or a sign always stands beside it.
"""

from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import astuple, replace

from classclock.machine.terminal import Colours
from classclock.screens.canvas.colours import mix, of_256
from classclock.wall.hue import Hue

if TYPE_CHECKING:
    from textual.theme import Theme as TextualTheme


class Shades(Struct, frozen=True):
    """One meaning's colours: as text, and as blocks that lie side by side."""

    text: str
    block: str
    other: str
    """Every second block."""
    running: str
    """The block not complete yet."""


class Theme(Struct, frozen=True):
    name: str
    dark: bool
    ground: str
    band: str
    """Ground of every second lane, of boxes still empty."""
    bar: str
    """Ground of the status line."""
    ink: str
    quiet: str
    faint: str
    """Ticks and lines; never text."""
    key: str
    """A lane's key as a large letter on the ground."""
    key_ink: str
    key_ground: str
    """A key as a small cap, in lanes of one row and in help."""
    ahead: Shades
    level: Shades
    behind: Shades
    first: Shades
    doubtful: str
    alarm_ink: str
    alarm_ground: str
    hold_ink: str
    hold_ground: str

    def shades(self, standing: Hue) -> Shades:
        return {
            "ahead": self.ahead,
            "level": self.level,
            "behind": self.behind,
            "first": self.first,
        }[standing]


def _shades(ground: str, text: str, block: str) -> Shades:
    return Shades(text, block, mix(ground, block, 150), mix(ground, block, 70))


_NIGHT = "#0b0e12"
DARK = Theme(
    name="dark",
    dark=True,
    ground=_NIGHT,
    band="#12171e",
    bar="#1a2028",
    ink="#f4f1e8",
    quiet="#b4bac2",
    faint="#4a525e",
    key="#f0e442",
    key_ink=_NIGHT,
    key_ground="#f4f1e8",
    ahead=_shades(_NIGHT, "#56b4e9", "#56b4e9"),
    level=_shades(_NIGHT, "#f4f1e8", "#009e73"),
    behind=_shades(_NIGHT, "#e69f00", "#e69f00"),
    first=_shades(_NIGHT, "#b4bac2", "#b4bac2"),
    doubtful="#f0e442",
    alarm_ink="#f4f1e8",
    alarm_ground="#7a2900",
    hold_ink=_NIGHT,
    hold_ground="#f0e442",
)

_DAY = "#fbfaf6"
LIGHT = Theme(
    name="light",
    dark=False,
    ground=_DAY,
    band="#f1eee6",
    bar="#e6e2d8",
    ink="#14171c",
    quiet="#3c4148",
    faint="#a8a498",
    key="#7a2900",
    key_ink=_DAY,
    key_ground="#14171c",
    ahead=_shades(_DAY, "#00497a", "#0072b2"),
    level=_shades(_DAY, "#14171c", "#009e73"),
    behind=_shades(_DAY, "#7a2900", "#d55e00"),
    first=_shades(_DAY, "#3c4148", "#6a7079"),
    doubtful="#4f4700",
    alarm_ink=_DAY,
    alarm_ground="#7a2900",
    hold_ink="#14171c",
    hold_ground="#f0e442",
)

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


def text_pairs(theme: Theme) -> tuple[tuple[str, str, str], ...]:
    """Every text colour with every ground it may stand on: (what, text, ground)."""
    on_any_ground = {
        "ink": theme.ink,
        "quiet": theme.quiet,
        "ahead": theme.ahead.text,
        "level": theme.level.text,
        "behind": theme.behind.text,
        "first": theme.first.text,
        "key": theme.key,
        "doubtful": theme.doubtful,
    }
    grounds = {"ground": theme.ground, "band": theme.band, "bar": theme.bar}
    return (
        *(
            (f"{text} on {ground}", colour, under)
            for text, colour in on_any_ground.items()
            for ground, under in grounds.items()
        ),
        ("key cap", theme.key_ink, theme.key_ground),
        ("alarm", theme.alarm_ink, theme.alarm_ground),
        ("hold", theme.hold_ink, theme.hold_ground),
        ("doubtful sign", theme.ground, theme.doubtful),
    )


_PLAIN = (
    *("ground", "band", "bar", "ink", "quiet", "faint", "key", "key_ink", "key_ground"),
    *("doubtful", "alarm_ink", "alarm_ground", "hold_ink", "hold_ground"),
)


def variables(theme: Theme) -> dict[str, str]:
    """For style sheets: `$ground`, `$ink`, `$ahead`, `$key-ink` and so on."""
    plain = {name.replace("_", "-"): getattr(theme, name) for name in _PLAIN}
    standings = {
        f"{name}{part}": colour
        for name in ("ahead", "level", "behind", "first")
        for shades in [getattr(theme, name)]
        for part, colour in (("", shades.text), ("-block", shades.block))
    }
    return plain | standings | {"alarm": theme.alarm_ground, "hold": theme.hold_ground}


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
