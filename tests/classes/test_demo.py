"""The demo: invented athletes, who did the same piece a week before."""

from datetime import datetime
from pathlib import Path

import pytest

from classclock.clock.source import WoundSource
from classclock.demo.calls import calls
from classclock.demo.sample_class import NAMES, demo_class
from classclock.live.session import Session


@pytest.fixture
def demo(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Session:
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    source = WoundSource(wall=datetime.fromisoformat("2026-03-03T18:30:00+01:00"))
    session, _ = demo_class(tmp_path, seed=3, source=source, speed=1, sound=False)
    return session


def test_everybody_has_a_run_of_a_week_before_to_be_ahead_of_or_behind(demo: Session) -> None:
    assert demo.remember() == ""
    demo.key("<enter>", 0.0)
    sheet = demo.live.record.sheet
    assert sheet is not None
    runs = demo.results.own_bests.runs(sheet.piece, sheet.lanes, sheet.timeline.total)
    assert {sheet.tallies[lane].lane.name for lane in runs} == set(NAMES)
    demo.close()


def test_the_same_seed_makes_the_same_class_again_and_another_day_another_one(
    demo: Session,
) -> None:
    demo.key("<enter>", 0.0)
    sheet = demo.live.record.sheet
    assert sheet is not None
    assert calls(sheet, 3) == calls(sheet, 3)
    assert calls(sheet, 3) != calls(sheet, 4)
    assert calls(sheet, 3) != calls(sheet, 3, day="another")
    demo.close()
