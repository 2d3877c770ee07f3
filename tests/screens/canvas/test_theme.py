"""Colours on the wall: enough contrast for a dark room and a bright one."""

from itertools import combinations

import pytest
import wcag_contrast_ratio
from hypothesis import given
from hypothesis import strategies as st
from rich.color import Color, ColorSystem

from classclock.machine.terminal import ALL, Terminal
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import SIXTEEN, textual_theme, theme_for
from classclock.wall.colours.mixing import channels, contrast, mix, of_256
from classclock.wall.colours.theme import DARK, LIGHT, Theme, text_pairs, variables

ALL_COLOURS = (DARK, LIGHT)
OF_256 = tuple(theme_for(256, bright_room=bright) for bright in (False, True))
STANDINGS = ("ahead", "level", "behind", "first")
colours = st.tuples(*[st.integers(0, 255)] * 3).map(lambda rgb: "#{:02x}{:02x}{:02x}".format(*rgb))


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        ("#777777", "#ffffff", 4.48),
        ("#767676", "#ffffff", 4.54),
        ("#ff0000", "#000000", 5.25),
        ("#000000", "#ffffff", 21.0),
    ],
)
def test_contrast_gives_the_published_ratios(one: str, other: str, ratio: float) -> None:
    # WCAG 2.2, understanding 1.4.3 and pages that quote it.
    assert contrast(one, other) == pytest.approx(ratio, abs=0.005)


@pytest.mark.parametrize(
    ("colour", "on_black"),
    [
        ("#E69F00", 9.32),
        ("#56B4E9", 9.10),
        ("#009E73", 6.14),
        ("#F0E442", 15.88),
        ("#0072B2", 4.05),
        ("#D55E00", 5.43),
        ("#CC79A7", 6.86),
    ],
)
def test_only_three_of_the_palette_are_text_on_dark(colour: str, on_black: float) -> None:
    # Palette: Okabe and Ito (2008), in Wong, Nature Methods 8 (2011) 441; ratios worked out.
    assert contrast(colour, "#000000") == pytest.approx(on_black, abs=0.005)


@given(colours, colours)
def test_contrast_agrees_with_the_wcag_contrast_ratio_package(one: str, other: str) -> None:
    def shares(colour: str) -> tuple[float, ...]:
        return tuple(channel / 255 for channel in channels(colour))

    # The package still has the earlier threshold of 0.03928; no 8-bit colour lies between the two.
    expected = wcag_contrast_ratio.rgb(shares(one), shares(other))
    assert contrast(one, other) == pytest.approx(expected)


@pytest.mark.parametrize(
    ("theme", "what", "text", "ground"),
    [(theme.name, *pair) for theme in (*ALL_COLOURS, *OF_256) for pair in text_pairs(theme)],
)
def test_every_text_stands_out_seven_to_one(theme: str, what: str, text: str, ground: str) -> None:
    assert contrast(text, ground) >= 7, f"{theme}: {what}"  # WCAG 2.2, 1.4.6


@pytest.mark.parametrize("theme", [*ALL_COLOURS, *OF_256], ids=lambda theme: theme.name)
@pytest.mark.parametrize("standing", STANDINGS)
def test_blocks_stand_out_from_the_ground_and_neighbours_differ(
    theme: Theme, standing: str
) -> None:
    shades = getattr(theme, standing)
    assert contrast(shades.block, theme.ground) >= 3  # WCAG 2.2, 1.4.11, graphics
    assert len({shades.block, shades.other, shades.running, theme.ground}) == 4
    assert contrast(shades.block, shades.other) > 1.5


@pytest.mark.parametrize("theme", [*ALL_COLOURS, *OF_256, SIXTEEN], ids=lambda theme: theme.name)
def test_no_two_standings_share_their_block(theme: Theme) -> None:
    blocks = [getattr(theme, standing).block for standing in STANDINGS]
    assert all(one != other for one, other in combinations(blocks, 2))


@given(colours, colours)
def test_a_mix_begins_with_the_ground_and_ends_with_the_ink(ground: str, ink: str) -> None:
    assert mix(ground, ink, 0) == ground
    assert mix(ground, ink, 255) == ink


@pytest.mark.parametrize("theme", [*ALL_COLOURS, *OF_256, SIXTEEN], ids=lambda theme: theme.name)
def test_textual_takes_every_theme_with_its_names(theme: Theme) -> None:
    made = textual_theme(theme)
    system = made.to_color_system().generate()
    assert made.dark is theme.dark
    assert system["background"]
    assert {"ground", "ink", "ahead", "behind", "key-ink", "key-ground", "alarm", "hold"} <= set(
        made.variables
    )
    assert set(made.variables) == set(variables(theme))


def test_the_theme_follows_the_terminal_and_the_room() -> None:
    assert theme_for(ALL, bright_room=False) is DARK
    assert theme_for(ALL, bright_room=True) is LIGHT
    assert theme_for(16, bright_room=True) is SIXTEEN
    assert [theme.name for theme in OF_256] == ["dark", "light"]


def sent(colour: str) -> str:
    """What a terminal of 256 colours is sent for it: Rich chooses the number."""
    return Color.parse(colour).downgrade(ColorSystem.EIGHT_BIT).get_truecolor().hex


@pytest.mark.parametrize(
    ("what", "text", "ground"), [pair for theme in OF_256 for pair in text_pairs(theme)]
)
def test_with_256_colours_text_stands_out_as_it_is_sent(what: str, text: str, ground: str) -> None:
    assert contrast(sent(text), sent(ground)) >= 7, what  # WCAG 2.2, 1.4.6


@pytest.mark.parametrize("theme", OF_256, ids=lambda theme: theme.name)
def test_with_256_colours_a_letters_edge_is_grey(theme: Theme) -> None:
    for share in range(0, 256, 15):
        red, green, blue = channels(sent(mix(theme.ground, theme.ink, share)))
        assert red == green == blue


@given(colours)
def test_one_of_256_is_the_nearest_by_the_numbers_that_rich_knows(colour: str) -> None:
    fixed = [Color.from_ansi(number).get_truecolor() for number in range(16, 256)]

    def distance(other: tuple[int, ...]) -> int:
        return sum((a - b) ** 2 for a, b in zip(channels(colour), other, strict=True))

    assert distance(channels(of_256(colour))) == min(map(distance, fixed))


def test_black_on_a_bright_ground_is_never_bold_where_the_terminal_would_make_it_grey() -> None:
    """xterm does so by default: `boldColors` in its manual, bold 0 to 7 as 8 to 15; from memory."""
    look = Look(SIXTEEN, Terminal(16, None))
    for ground in (SIXTEEN.key_ground, SIXTEEN.hold_ground):
        ((black, *_), *_) = look.text("I", 1, ink="black", ground=ground, bold=True)
        assert black.style is not None
        assert not black.style.bold
    ((bright, *_), *_) = look.text("I", 1, ink=SIXTEEN.ink, bold=True)
    assert bright.style is not None
    assert bright.style.bold
