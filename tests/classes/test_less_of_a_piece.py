"""Less than the whole piece, from the board to the book."""

import json
from typing import Any

from classclock.book.files.saved_results import read_results
from classclock.records.class_entries import read_class
from classclock.tally.lanes import Choice, Portion
from classclock.wall.board_content import board_now

PIECE = 1
AGREED = Choice((2, 0, 0), portion=Portion("about half: 4 rounds", rounds=4))


def to_the_board(coach: Any) -> None:
    coach.start()
    coach.wind(60)
    coach.type("<enter>")
    assert coach.session.live.record.chosen.segment == PIECE


def modifies(coach: Any) -> str:
    lanes = board_now(coach.session).lanes
    return next(lane.modification for lane in lanes if lane.name == "Noor")


def test_such_a_score_bears_its_name_and_is_never_compared_to_as_written(coach: Any) -> None:
    live = coach.session.live
    noor = next(person for person in live.record.people if person.name == "Noor")
    assert live.choose(noor.id, PIECE, AGREED).text == "Noor: step-up, about half: 4 rounds"
    to_the_board(coach)
    coach.start()
    for _ in range(4):
        coach.wind(120)
        coach.type("ni")
    coach.wind(485)
    coach.type("0n3i.b1")
    coach.wind(2)
    coach.type("*<enter>")
    assert live.phase == "closed"
    coach.session.save()
    (path,) = coach.session.results.saved[:1]
    (piece,) = json.loads(path.read_text("utf-8"))["pieces"]
    lanes = {lane["athlete"]: lane for lane in piece["lanes"]}
    assert lanes["Noor"]["modification"] == "step-up, about half: 4 rounds"
    assert lanes["Noor"]["portion"] == "about half: 4 rounds"
    assert "portion" not in lanes["Ilse"]
    results = {one.result.athlete: one.result for one in read_class(read_results(path)).entries}
    assert results["Noor"].why_not == "less than the whole piece"
    assert not results["Noor"].compares(results["Ilse"])
    assert results["Ilse"].counts


def test_it_is_taken_back_on_the_board_as_an_option_is(coach: Any) -> None:
    live = coach.session.live
    noor = next(person for person in live.record.people if person.name == "Noor")
    live.choose(noor.id, PIECE, AGREED)
    to_the_board(coach)
    assert modifies(coach) == "step-up, about half: 4 rounds"
    coach.wind(2)
    coach.type(":n1")
    assert modifies(coach) == "lower box, about half: 4 rounds"
    coach.wind(1)
    coach.type(":n0")
    assert modifies(coach) == "as written"
