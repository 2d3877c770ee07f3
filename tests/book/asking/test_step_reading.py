"""How scores with an option stood beside the others', as the book has it."""

from datetime import datetime
from typing import Any

import pytest

from classclock.book.asking.step_reading import StepQuestion, uses_for
from classclock.plan.model import Plan
from classclock.plan.reading.plan_reading import parse_plan
from classclock.planning.next_steps import Used
from tests.depot_classes import DepotClasses

BEGAN = int(datetime.fromisoformat("2026-11-30T18:30:00+01:00").timestamp() * 1000)
PLAN = """
title = "Turntable Monday"
[[segment]]
name = "Turntable"
benchmark = "turntable"
format = "rounds-in-time"
time = "16:00"
  [[segment.station]]
  movement = "box step-over"
  reps = 27
  options = ["lower box", "Stufe höher"]
"""


@pytest.fixture
def plan() -> Plan:
    read, _ = parse_plan(PLAN, "t.toml")
    assert read is not None
    return read


def with_option(lane: dict[str, Any], *options: str | None) -> dict[str, Any]:
    return {**lane, "options": list(options), "modification": ", ".join(filter(None, options))}


@pytest.fixture
def club(depot: DepotClasses, storage: str) -> DepotClasses:
    """Odell on the lower box beside four others; a score of hers that nobody settled."""
    others = [depot.rounds(name, rounds) for name, rounds in (("Bram", 8), ("Mei", 10))]
    late, pair = depot.rounds("Uri", 3, late=True), depot.rounds("Noor + Tuva", 12)
    odell = depot.rounds
    every = (*others, late, pair)
    depot.held("2026-03-02", depot.turntable(with_option(odell("Odell", 2), "lower box"), *every))
    depot.held("2026-11-02", depot.turntable(with_option(odell("Odell", 5), "Lower  Box"), *every))
    depot.held(
        "2026-11-09",
        depot.third_rail(
            with_option(depot.timed("Odell", "60 reps"), None, "lower box"),
            depot.timed("Bram", "6:00"),
            depot.timed("Mei", "36 reps"),
        ),
    )
    depot.held("2026-11-16", depot.turntable(with_option(odell("Odell", 7), None), *every))
    depot.held(
        "2026-11-18",
        depot.turntable(with_option(odell("Odell", 7), "stufe höher"), *others),
        depot.squats(depot.lifted("Odell", "60 kg")),
    )
    depot.held("2026-11-23", depot.turntable(odell("Odell", 9), *every, status="provisional"))
    return depot


def test_each_score_stands_beside_all_others_of_that_piece_the_latest_first(
    club: DepotClasses, plan: Plan
) -> None:
    uses = uses_for(club.folder, StepQuestion(["odell", "nobody"], plan, BEGAN, 5))
    (segment,) = plan.segment
    # In March is too long ago; late scores, pairs and what wasn't settled tell nothing.
    # For time: 60 reps in 720 s beside 72 reps in 360 s and 36 reps in 720 s.
    assert uses.of("odell", segment, 0, 1) == (
        Used(60 / 720, (36 / 720, 72 / 360)),
        Used(5 * 27.0, (8 * 27.0, 10 * 27.0)),
    )
    assert uses.of("odell", segment, 0, 2) == (Used(7 * 27.0, (8 * 27.0, 10 * 27.0)),)
    # As written only in this piece itself.
    assert uses.of("odell", segment, 0, 0) == (Used(7 * 27.0, (8 * 27.0, 10 * 27.0)),)
    assert uses.of("nobody", segment, 0, 1) == ()


def test_a_club_without_a_book_says_nothing(depot: DepotClasses, plan: Plan) -> None:
    uses = uses_for(depot.folder, StepQuestion(["odell"], plan, BEGAN, 5))
    assert uses.of("odell", plan.segment[0], 0, 1) == ()
