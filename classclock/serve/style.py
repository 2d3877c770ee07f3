"""The page's colours: the same roles and the same values as the terminal's, from the same place."""

from msgspec.structs import asdict

from classclock.wall.colours.theme import DARK, LIGHT, Shades, Theme

_NARROW = "(max-width: 760px)"
"""A phone, which has a look of its owner's; a TV has the club's."""


def theme_css(theme: str) -> str:
    """Custom properties such as `--key` and `--ahead-block`; `theme` is the club's, by its name."""
    dark, light = _properties(DARK), _properties(LIGHT)
    usual = light if theme == LIGHT.name else dark
    return (
        f":root {{ {usual} }}\n"
        f"@media {_NARROW} and (prefers-color-scheme: light) {{ :root {{ {light} }} }}\n"
        f"@media {_NARROW} and (prefers-color-scheme: dark) {{ :root {{ {dark} }} }}\n"
        f':root[data-theme="light"] {{ {light} }}\n'
        f':root[data-theme="dark"] {{ {dark} }}\n'
    )


def _properties(theme: Theme) -> str:
    said = [f"color-scheme: {theme.name}"]
    for role, value in asdict(theme).items():
        name = role.replace("_", "-")
        if isinstance(value, Shades):
            said += [f"--{name}-{part}: {colour}" for part, colour in asdict(value).items()]
        elif isinstance(value, str) and value.startswith("#"):
            said.append(f"--{name}: {value}")
    return "; ".join(said)
