"""Every colour in one place, named after what it means.

The hues are Okabe and Ito's (2008; Wong, Nature Methods 8 (2011) 441), told apart by colour-blind
eyes. On a dark ground only #E69F00, #56B4E9 and #F0E442 of them reach 7:1 as text; the others, and
darkened ones on light ground, are surfaces or are darkened until they do. No meaning is carried by
hue alone: a word or a sign always stands beside it.
"""

from msgspec import Struct

from classclock.wall.colours.mixing import mix
from classclock.wall.hue import Hue


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
