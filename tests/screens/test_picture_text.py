"""A picture as text says what is seen, and nothing of how its cells were cut into segments."""

from itertools import product

import pytest
from rich.segment import Segment

from classclock.screens.canvas.cells import style
from classclock.wall.colours.mixing import mix
from tests.screens.picture_text import picture_text
from tests.screens.roles import INKS, ROLES, SURFACES, THEME, role

INK, QUIET, GROUND = THEME.ink, THEME.quiet, THEME.ground


def colours(*segments: Segment) -> str:
    return picture_text([segments]).split("\n")[3]


def said(text: str, ink: str, ground: str = GROUND, *, bold: bool = False) -> Segment:
    return Segment(text, style(ink, ground, bold=bold))


def test_no_two_roles_share_a_colour() -> None:
    assert len(set(ROLES.values())) == len(ROLES) == 30


def test_the_characters_come_first_and_then_the_colours() -> None:
    rows = [[said("Ilse ", INK), said(" 7", QUIET, bold=True)]]
    lines = picture_text(rows).split("\n")
    assert lines[0] == "Ilse  7"
    assert lines[3:] == ["1  6:ink/ground 1:*quiet/ground", ""]


def test_rows_of_the_same_colours_are_told_once() -> None:
    rows = [[said("Ilse", INK)], [said("Bram", INK)], [said("Noor", QUIET)]]
    assert picture_text(rows).split("\n")[5:] == ["1-2  4:ink/ground", "3  4:quiet/ground", ""]


def test_how_cells_are_cut_into_segments_makes_no_difference() -> None:
    whole = colours(said("Ilse and Bram", INK))
    assert colours(said("Ilse", INK), said(" ", QUIET), said("and Bram", INK)) == whole


@pytest.mark.parametrize(
    "other",
    [
        said("Ilse", QUIET),
        said("Ilse", INK, THEME.band),
        said("Ilse", INK, bold=True),
        said("Ils", INK),
    ],
)
def test_what_looks_otherwise_is_told_otherwise(other: Segment) -> None:
    assert colours(other) != colours(said("Ilse", INK))


def test_a_block_is_a_block_however_it_is_made() -> None:
    block = THEME.ahead.block
    assert picture_text([[said("██", block)]]) == picture_text([[said("  ", INK, block)]])


def test_a_smooth_edge_has_the_colour_that_it_is_nearest_to() -> None:
    for (surface, under), (ink, over) in product(SURFACES.items(), INKS.items()):
        for share in (*range(0, 256, 15), 127, 128):
            assert role(mix(under, over, share)) == (ink if share >= 128 else surface)


def test_a_colour_of_no_role_is_told_as_it_is() -> None:
    assert role("#12a034") == "#12a034"
