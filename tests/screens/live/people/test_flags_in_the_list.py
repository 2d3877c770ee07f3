"""Who comes back, and who may try the next option, in a class: for the coach's own screen alone."""

from datetime import date, timedelta
from typing import Any

import pytest

from classclock.plan.settings.club import Club
from classclock.tally.lanes import Choice, Person
from tests.depot_classes import DepotClasses
from tests.screens.conftest import CARD, OPENED
from tests.screens.live.people.piece_and_lift import PIECE, words

PEOPLE = (Person("piet", "Piet", "p"), Person("odell", "Odell", "o"))
OTHERS = (("Bram", 8), ("Mei", 9), ("Uri", 7))
SAID = ("first in", "half", "college", "next?", "look at")


@pytest.fixture
def club(depot: DepotClasses) -> DepotClasses:
    """Piet was away for five weeks; Odell did the step-up six times, as well as the others."""
    today = date.fromisoformat(str(OPENED)[:10])
    step_up: dict[str, Any] = {"options": ["step-up", None], "modification": "step-up"}
    for days in range(77, 0, -7):
        lanes = [
            depot.rounds(name, rounds) for name, rounds in (("Bram", 8), ("Mei", 9), ("Uri", 7))
        ]
        lanes.append(depot.rounds("Odell", 8, **(step_up if days < 43 else {})))
        if days >= 35:
            lanes.append(depot.rounds("Piet", 8))
        day = str(today - timedelta(days=days))
        depot.held(day, depot.piece("Turntable", "rounds-in-time", lanes, length_s=960))
    return depot


def of_a_club(*, mirrored: bool) -> Club:
    read = Club.model_validate({"tv": {"mirrored": mirrored}})
    return read.model_copy(update={"emergency": CARD})


async def behind_f7(coach: Any) -> None:
    await coach.press("ctrl+p")
    assert not any(said in coach.seen() for said in SAID)
    await coach.press("f7")
    for _ in range(40):  # it is read in a thread
        await coach.pilot.pause()
        if "first in" in coach.seen():
            return
        await coach.screen.workers.wait_for_complete(
            [one for one in coach.screen.workers if one.node is coach.screen]
        )


async def test_where_only_the_coach_sees_it_it_is_said_and_given(
    open_class: Any, club: DepotClasses
) -> None:
    seen_alone = of_a_club(mirrored=False)
    async with open_class(PIECE, people=PEOPLE, club=seen_alone, folder=club.folder) as coach:
        coach.live.choose("odell", 0, Choice((2, 0)))
        await behind_f7(coach)
        seen = words(coach.seen())
        assert "Piet: first in 5 weeks" in seen
        assert "less is always right" in seen.lower()
        assert "lower box next?" in seen
        await coach.press("5")
        (piet,) = (lane for lane in coach.live.lineup() if lane.id == "piet")
        assert piet.portion.name == "about half: 8 minutes"  # no benchmark: no score tells
        await coach.press("5")
        (piet,) = (lane for lane in coach.live.lineup() if lane.id == "piet")
        assert not piet.portion
    kept = [path.read_bytes() for path in club.folder.glob("journals/*") if path.is_file()]
    assert kept
    assert not any(said.encode() in one for one in kept for said in ("first in", "college", "away"))


async def test_a_mirrored_list_says_nothing_of_it_and_gives_nothing(
    open_class: Any, club: DepotClasses
) -> None:
    mirrored = of_a_club(mirrored=True)
    async with open_class(PIECE, people=PEOPLE, club=mirrored, folder=club.folder) as coach:
        await coach.press("ctrl+p", "p", "f7", "5", "ctrl+o")
        await coach.pilot.pause()
        assert not any(said in coach.seen() for said in SAID)
        assert all(not lane.portion for lane in coach.live.lineup())
