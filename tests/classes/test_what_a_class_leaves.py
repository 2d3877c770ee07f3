"""What a class that was really run leaves for later: the last weeks, and whether a cap fits."""

import datetime as dt
from typing import Any

from classclock.book.asking.fit_reading import FitQuestion, basis_for
from classclock.book.asking.weeks_reading import read_weeks
from classclock.plan.movements.starter_library import starter_library
from classclock.plan.reading.plan_reading import parse_plan
from classclock.planning.cap_fit import cap_fit
from classclock.planning.weeks import weeks_until
from classclock.tally.lineup import draw_lanes
from classclock.tally.piece import Piece

TUESDAY = dt.date(2026, 11, 24)
SIDING = """
title = "Depot Thursday"
[[segment]]
name = "Siding"
format = "capped-for-time"
cap = "10:00"
rounds = 4
  [[segment.station]]
  movement = "bodyweight squats"
  reps = 18
  [[segment.station]]
  movement = "dumbbell push press"
  reps = 9
"""


def run_turntable(open_class: Any) -> Any:
    """Noor does 8 rounds in 16:00, one every two minutes; nobody else starts."""
    coach = open_class()
    coach.start()
    coach.wind(60)
    coach.wind(2)
    coach.type("<enter>")
    coach.start()
    for _ in range(8):
        coach.wind(119.5)
        coach.type("n")
    coach.wind(30)
    coach.type("0n.i1.b1")
    coach.type("<enter>")
    assert coach.session.save()
    return coach


def test_it_is_counted_in_its_week_by_the_plan_in_its_journal(
    open_class: Any, tmp_path: Any
) -> None:
    run_turntable(open_class)
    read = read_weeks(tmp_path, TUESDAY + dt.timedelta(days=1))
    assert read.without_plan == 0
    (held,) = read.held
    assert (held.date, held.title, held.hard) == (TUESDAY, "Depot Tuesday", 960_000)
    weeks = weeks_until(TUESDAY, read.held, (), starter_library())
    assert weeks.weeks[-1].held.patterns["squat"] == 1
    assert weeks.weeks[-1].held.lengths["over 15:00"] == 1


def test_its_movements_tell_of_another_piece(open_class: Any, tmp_path: Any) -> None:
    coach = run_turntable(open_class)
    noor = next(one for one in coach.session.live.record.people if one.name == "Noor")
    plan, _ = parse_plan(SIDING, "siding.toml")
    assert plan is not None
    began = int(dt.datetime(2026, 11, 26, 18, 30, tzinfo=dt.UTC).timestamp() * 1000)
    basis = basis_for(tmp_path, FitQuestion([noor.id], plan, began))
    lanes = draw_lanes(plan.segment[0], [noor], {})
    fit = cap_fit(Piece.of(plan.segment[0], "kg"), lanes, basis)
    # 216 reps in 960 s; 108 take 960 / 2^1.06 = 460.5 s.
    assert fit.by_movements == 1
    assert fit.told[0].finish is not None
    assert abs(fit.told[0].finish - 460_450) < 200
