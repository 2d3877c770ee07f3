"""A class fills whatever window it has, and paints only what changed."""

from typing import Any

import pytest
from textual.events import Resize
from textual.geometry import Region, Size

from classclock.screens.canvas.held_resize import HeldResize
from classclock.screens.canvas.layout.arrange import arrange
from classclock.screens.live.wall.big_clock import BigClock
from classclock.screens.live.wall.lane_row import LaneRow


async def test_only_the_lane_that_changed_is_painted_anew(
    open_class: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    painted: list[str] = []
    repaint = LaneRow.repaint

    def watched(row: LaneRow) -> None:
        painted.append(row.content.name if row.content else "")
        repaint(row)

    monkeypatch.setattr(LaneRow, "repaint", watched)
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(60)
        await coach.press("i")
        await coach.wind(60)
        await coach.press("i")
        painted.clear()
        await coach.press("n")
        assert painted == ["Noor"]


async def test_a_tick_repaints_only_the_digits_that_changed(
    open_class: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    refreshed: list[Region] = []

    def watched(_: BigClock, *regions: Region) -> None:
        refreshed.extend(regions)

    async with open_class() as coach:
        await coach.start()
        await coach.wind(3)
        clock = coach.screen.query_one(BigClock)
        assert clock.face.text == "7:57"
        monkeypatch.setattr(BigClock, "refresh", watched)
        await coach.wind(1)
        assert clock.face.text == "7:56"
        (changed,) = refreshed
        assert clock.size.width / 2 < changed.x  # the 6, and neither the 7 nor the 5
        assert 0 < changed.width < clock.size.width / 3


async def test_a_window_too_small_says_what_it_needs(open_class: Any) -> None:
    async with open_class(size=(50, 12)) as coach:
        seen = " ".join(coach.seen().split())
        assert "needs 60 columns and 18 rows; this window has 50 x 12" in seen


@pytest.mark.parametrize("size", [(60, 18), (80, 24), (120, 36), (213, 60), (240, 70)])
@pytest.mark.parametrize("people", [1, 8, 26])
async def test_every_lane_is_on_the_wall_at_every_size(
    open_class: Any, size: tuple[int, int], people: int
) -> None:
    names = tuple(f"P{number:02}" for number in range(people))
    async with open_class(segment=1, size=size, names=names) as coach:
        await coach.start()
        shown = [row for row in coach.screen.query(LaneRow) if row.size.area]
        assert len(shown) == people
        screen = coach.screen.region
        assert all(row.region in screen and row.region.bottom < size[1] for row in shown)


async def test_a_window_made_larger_in_the_middle_is_filled_anew(open_class: Any) -> None:
    async with open_class(segment=1, size=(80, 24)) as coach:
        await coach.start()
        small = [row.size for row in coach.screen.query(LaneRow) if row.size.area]
        await coach.pilot.resize_terminal(213, 60)
        await coach.pilot.pause()
        large = [row.size for row in coach.screen.query(LaneRow) if row.size.area]
        assert large[0].width > small[0].width
        assert large[0].height > small[0].height


def test_a_new_size_waits_for_digits_that_are_about_to_change_but_never_twice() -> None:
    until = 0.5
    held = HeldResize(lambda: until)
    first, second = (Resize(Size(120, rows), Size(120, rows)) for rows in (36, 37))
    assert held.wait(first) == 0
    until = 0.08
    assert held.wait(first) == pytest.approx(0.11)
    assert held.wait(first) == 0  # digits that change all the time would hold it up for good
    assert held.wait(second) == pytest.approx(0.11)


async def test_a_digit_or_a_tap_lays_out_nothing(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.press("i")
        await coach.wind(5)  # GO has gone
        laid_out = arrange.cache_info().misses
        for _ in range(12):
            await coach.wind(5)
            await coach.press("i", "n")
        assert arrange.cache_info().misses == laid_out
