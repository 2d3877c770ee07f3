"""What is said at the foot of a class's screen: in one row, everything is seen in its turn."""

from collections.abc import Sequence
from itertools import groupby
from pathlib import Path
from typing import Any

import pytest

from classclock.clock.source import MS, WoundSource
from classclock.live.on_disk import Lacking, OnDisk
from classclock.plan.settings.club import Club
from classclock.screens.live.class_views import ClassViews
from classclock.screens.live.foot.foot import Foot
from classclock.sound.loudspeaker import SilentLoudspeaker
from classclock.sound.output import LOST
from tests.screens.conftest import OPENED

FULL = Lacking(7, False, False, Path("/depot"), "the disk is full")  # noqa: FBT003
SIZES = [(60, 18), (120, 36), (213, 60)]
SPEED = 40
LOOK = 0.5
"""Seconds between two looks at the foot."""
TURN = 6
"""Looks in three seconds."""


class FortyTimes(WoundSource):
    """A class at forty times the speed, wound by hand: a second of real time is forty of it."""

    def stroke_ms(self, _: float) -> int:
        return self._base // MS // SPEED


async def glances(coach: Any, seconds: float, speed: int = 1, taps: str = "") -> list[str]:
    """The foot as it is seen every half second, while these are called all the while."""
    feet = []
    for number in range(round(seconds / LOOK)):
        if taps:
            await coach.press(taps[number % len(taps)])
        await coach.wind(LOOK * speed)
        feet.append(coach.foot())
    return feet


def stays(feet: Sequence[str], text: str) -> int:
    """For how many looks on end this was there, at most."""
    runs = [len(list(same)) for has, same in groupby(text in foot for foot in feet) if has]
    return max(runs, default=0)


# -- at speed 40, on a machine that is late ---------------------------------------------


async def test_what_matters_is_read_at_forty_times_the_speed_with_everybody_calling(
    open_class: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Every look comes twenty seconds of the class late: each passes over cues."""
    said = ""
    monkeypatch.setattr(SilentLoudspeaker, "trouble", property(lambda _: said))
    source = FortyTimes(0, wall=OPENED)
    async with open_class(segment=1, source=source, notice="rejoined") as coach:
        await coach.press("enter")
        await coach.wind(10)
        said = LOST
        monkeypatch.setattr(OnDisk, "refused", FULL)
        feet = await glances(coach, 30, SPEED, taps="ibn")
        assert any("not sounded, over a second late" in line for line in texts(coach))
        assert stays(feet, "rejoined") >= TURN
        assert stays(feet, "look at the loudspeaker and its cable") >= TURN
        assert stays(feet, "7 entries aren't on disk") >= TURN
        assert any("round" in foot for foot in feet), "and so are answers"
        await coach.press("x")
        assert "nobody has the key x" in coach.foot()
        feet = await glances(coach, 3, SPEED, taps="ibn")
        assert stays(feet, "nobody has the key x") >= TURN - 1


async def test_what_was_said_of_a_tap_is_gone_where_scores_are_shown(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.press("enter")
        await coach.wind(70)
        await coach.press("i")
        await coach.wind(60)
        assert "Ilse, round 1" in coach.foot()
        await coach.wind(1_000)
        assert coach.live.phase == "over"
        assert "Ilse" not in coach.foot()
        await coach.press("5", "i")
        assert "Ilse" in coach.foot(), "what is typed now is answered now"


def texts(coach: Any) -> list[str]:
    return [one.notice.text for one in coach.screen.notices.log.newest_first()]


async def test_rejoined_is_not_pushed_out_by_a_sound_that_was_left_out(open_class: Any) -> None:
    async with open_class(segment=1, source=FortyTimes(0, wall=OPENED), notice="rejoined") as coach:
        await coach.start()
        feet = [coach.foot(), *await glances(coach, 8, SPEED)]
        assert stays(feet, "rejoined") >= TURN
        assert stays(feet, "not sounded, over a second late") >= TURN, "and then that"


# -- on the board -----------------------------------------------------------------------


@pytest.mark.parametrize("size", SIZES)
async def test_three_troubles_on_the_board_come_in_turn_in_one_row(
    open_class: Any, size: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(OnDisk, "refused", FULL)
    async with open_class(size=size, club=Club()) as coach:
        coach.session.left_out = "movements.toml is left out (line 4: no such pattern)"
        coach.screen.show()
        feet = await glances(coach, 30)
        assert stays(feet, "enter starts") >= TURN, "the keys have a turn, too"
        assert {"1 of 3", "2 of 3", "3 of 3"} <= {
            foot[at : at + 6] for foot in feet for at in range(len(foot))
        }
        for text in ("F8", "tab", "movements.toml"):
            assert any(text in foot for foot in feet), text
        assert all("! " in foot and "ends 19:00" in foot for foot in feet)
        assert coach.screen.query_one(Foot).size.height == 1
        assert coach.screen.query_one(ClassViews).size.height == size[1] - 1


async def test_the_board_says_at_every_start_what_the_card_lacks_and_no_more_once_it_lacks_nothing(
    open_class: Any,
) -> None:
    async with open_class(club=Club()) as coach:
        assert "press !, then tab: the emergency card is not filled in" in coach.foot()
        await coach.press("down")
        await coach.reads("tab: fill in the emergency card")
        await coach.press("exclamation_mark", "tab")
        await coach.press(*"yard", "enter", *"hall", "enter", *"desk", "enter", *"112", "enter")
        await coach.press("escape")
        assert "emergency card is" not in coach.foot()
        assert "fill in" not in coach.foot()


async def test_a_disk_that_can_be_written_again_is_said_no_longer_at_the_next_look(
    open_class: Any, tmp_path: Path
) -> None:
    async with open_class(segment=1) as coach:
        (tmp_path / "results").write_text("in the way")
        await coach.start()
        await coach.wind(16 * 60)
        await coach.screen.work.saving.finished()
        await coach.reads("the results aren't on disk")
        (tmp_path / "results").unlink()
        coach.screen.work.saving.ask()
        await coach.screen.work.saving.finished()
        await coach.pilot.pause()
        assert "on disk" not in coach.foot()


# -- keys -------------------------------------------------------------------------------


async def test_a_key_is_answered_at_once_though_a_trouble_stands_there(open_class: Any) -> None:
    async with open_class(club=Club()) as coach:
        assert "press !, then tab" in coach.foot()
        await coach.press("f4")
        assert "sound off" in coach.foot()
        feet = await glances(coach, 6)
        assert stays(feet, "press !, then tab") >= TURN - 1, "it is read afterwards"


async def test_a_refusal_gives_way_to_its_own_key_only(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(30)
        await coach.press("n", "n")
        assert "n again within 1.2 s: not counted" in coach.foot()
        await coach.press("i")
        assert "n again within 1.2 s: not counted" in coach.foot()
        await coach.wind(1.3)
        await coach.press("n")
        assert "Noor, round 2" in coach.foot()


# -- the list ---------------------------------------------------------------------------


@pytest.mark.parametrize("size", SIZES)
async def test_the_list_has_all_notices_the_newest_first_and_swallows_no_tap(
    open_class: Any, size: tuple[int, int]
) -> None:
    async with open_class(segment=1, size=size, notice="rejoined") as coach:
        await coach.start()
        await coach.wind(30)
        await coach.press("x", "ctrl+n")
        seen = coach.seen()
        assert seen.index("18:20:42  nobody has the key x") < seen.index("18:20:00  rejoined")
        await coach.press("n", "1", "2", "i")
        seen = coach.seen()
        assert seen.index("Ilse, 0+12") < seen.index("Noor, round 1") < seen.index("rejoined")
        tallies = coach.live.record.sheet.tallies
        assert [len(tallies["Noor"].rounds), tallies["Ilse"].odd] == [1, 12]
        await coach.press("escape")
        assert "rejoined" not in coach.seen()
        await coach.wind(2)
        await coach.press("ctrl+n")
        assert "rejoined" in coach.seen()
        await coach.wind(2)
        await coach.press("ctrl+n")
        assert "rejoined" not in coach.seen()


async def test_a_list_longer_than_the_window_has_pages(open_class: Any) -> None:
    async with open_class(size=(60, 18), notice="rejoined") as coach:
        for number in range(30):
            coach.screen.notices.answer(f"answer {number};")
        await coach.press("ctrl+n")
        assert "answer 29;" in coach.seen()
        assert "rejoined" not in coach.seen()
        assert "page down (1 of 4)" in coach.seen()
        await coach.press("pagedown", "pagedown", "pagedown", "pagedown")
        assert "rejoined" in coach.seen()
        await coach.press("pageup")
        assert "rejoined" not in coach.seen()


async def test_a_held_down_ctrl_n_does_not_flicker(open_class: Any) -> None:
    async with open_class(notice="rejoined") as coach:
        await coach.press("ctrl+n")
        for _ in range(5):
            await coach.wind(0.035)
            await coach.press("ctrl+n")
        assert coach.screen.overlays.notices.display
