"""The ways to share what a club has counted, for a class in its folder."""

from pathlib import Path

from classclock.club.movements import club_library
from classclock.plan.settings.club import Club
from classclock.planning.equipment_offers import EquipmentOffers


def offers_of(club: Club, folder: Path) -> EquipmentOffers:
    """`folder` is the club's, with its movements. Reads files: takes a moment."""
    library, _ = club_library(folder)  # what is wrong with it is said at the start
    return EquipmentOffers(club, library)
