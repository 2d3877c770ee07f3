"""Names that may be meant."""

import pytest

from classclock.units.alike import NearNames

KNOWN = ("Agda", "Ilse", "Bram", "\u0141ucja", "Saoirse")


@pytest.mark.parametrize(
    ("written", "near"),
    [
        ("Agdaa", ("Agda",)),
        ("agda", ("Agda",)),
        ("Lucja", ("\u0141ucja",)),
        ("Saorise", ("Saoirse",)),
        ("Mei", ()),
        ("Brom", ()),
        ("", ()),
    ],
)
def test_a_slip_finds_who_was_meant_and_another_name_finds_nobody(
    written: str, near: tuple[str, ...]
) -> None:
    assert NearNames(KNOWN).of(written) == near


def test_three_are_named_unless_somebody_asks_for_fewer_or_more() -> None:
    near = NearNames(("Annika", "Annica", "Annita", "Annija", "Annina"))
    assert len(near.of("Annia", most=1)) == 1
    assert len(near.of("Annia")) == 3
    assert len(near.of("Annia", most=9)) == 5
