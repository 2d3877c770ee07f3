"""What a class on its screen saves, and what it says where it cannot."""

import json
from pathlib import Path
from typing import Any


async def test_the_results_are_saved_at_the_cap_without_any_key(
    open_class: Any, tmp_path: Path
) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(60)
        await coach.press("n")
        await coach.wind(15 * 60)
        await coach.screen.work.saving.finished()
        saved = list((tmp_path / "results").glob("*.json"))
        assert len(saved) == 1
        piece = json.loads(saved[0].read_text("utf-8"))["pieces"][0]
        assert piece["status"] == "provisional"


async def test_files_that_cannot_be_saved_stand_as_a_trouble_until_they_are(
    open_class: Any, tmp_path: Path
) -> None:
    async with open_class(segment=1) as coach:
        (tmp_path / "results").write_text("in the way")
        await coach.start()
        await coach.wind(16 * 60)
        await coach.screen.work.saving.finished()
        await coach.wind(1)
        await coach.reads("F8 saves elsewhere: the results aren't on disk")
        (tmp_path / "results").unlink()
        await coach.wind(6)
        await coach.screen.work.saving.finished()
        await coach.wind(1)
        assert "F8 saves elsewhere" not in coach.seen()


async def test_another_place_is_offered_while_there_is_trouble(
    open_class: Any, tmp_path: Path
) -> None:
    async with open_class(segment=1) as coach:
        await coach.press("f8")
        assert "all is on disk" in coach.foot()
        (tmp_path / "results").write_text("in the way")
        await coach.start()
        await coach.wind(16 * 60)
        await coach.screen.work.saving.finished()
        await coach.press("f8")
        coach.screen.overlays.place.text = str(tmp_path / "stick")
        await coach.press("enter")
        assert list((tmp_path / "stick" / "results").glob("*.json"))
        assert "saved in" in coach.seen()
