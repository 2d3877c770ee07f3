"""Who comes late, to which piece, and with which key."""

from collections.abc import Callable
from typing import Any

from classclock.tally.lanes import Person
from classclock.tally.lineup import MOST_LANES


def _to_the_piece(coach: Any) -> None:
    """Through the warm-up, to the board of the piece."""
    coach.start()
    coach.wind(60)
    coach.type("<enter>")


def test_who_came_during_the_warm_up_starts_the_piece_with_the_rest_and_isnt_late(
    coach: Any,
) -> None:
    live = coach.session.live
    coach.start()
    coach.wind(30)
    live.add_person(Person("uri", "Uri", ""))
    coach.wind(30)
    coach.type("<enter>")
    coach.start()
    assert not live.record.sheet.tallies["uri"].late


def test_after_a_false_start_who_had_come_late_starts_with_the_rest(coach: Any) -> None:
    live = coach.session.live
    _to_the_piece(coach)
    coach.start()
    coach.wind(5)
    live.add_person(Person("uri", "Uri", ""))
    assert live.record.sheet.tallies["uri"].late
    coach.wind(2)
    coach.type("<space>")
    coach.wind(2)
    coach.type("<ctrl+r>")
    coach.start()
    assert not live.record.sheet.tallies["uri"].late


def test_who_comes_late_to_a_full_heat_takes_nobodys_key_and_runs_in_the_next(
    open_class: Callable[..., Any],
) -> None:
    coach = open_class(*(f"Tram {number}" for number in range(MOST_LANES)))
    live = coach.session.live
    _to_the_piece(coach)
    coach.start()
    coach.wind(30)
    keys = {lane.key: lane.id for lane in live.record.sheet.lanes}
    said = live.add_person(Person("uri", "Uri", "")).text
    assert said == "all 26 keys are taken: Uri comes in the next heat"
    assert {lane.key: lane.id for lane in live.record.sheet.lanes} == keys
    coach.wind(960)
    coach.wind(2)
    coach.type("*<enter>")
    assert live.record.chosen.heat == 2
    coach.start()
    assert [lane.name for lane in live.record.sheet.lanes] == ["Uri"]
    assert not live.record.sheet.tallies["uri"].late
