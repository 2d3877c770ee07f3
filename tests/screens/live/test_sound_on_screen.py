"""What a class hands to the loudspeaker, and the keys for it."""

from typing import Any


async def test_the_count_in_is_handed_to_the_loudspeaker_ahead(open_class: Any) -> None:
    async with open_class() as coach:
        await coach.press("enter")
        await coach.wind(6)
        kinds = [cue.kind for cue in coach.speaker.scheduled]
        assert kinds == ["short", "short"]
        await coach.wind(2.5)
        assert [cue.kind for cue in coach.speaker.scheduled][-2:] == ["short", "go"]


async def test_a_hold_silences_what_was_scheduled(open_class: Any) -> None:
    async with open_class() as coach:
        await coach.start()
        await coach.wind(8 * 60 - 61)
        assert coach.speaker.scheduled
        await coach.press("space")
        assert coach.speaker.scheduled == []


async def test_the_sound_is_checked_muted_and_turned_by_keys(open_class: Any) -> None:
    async with open_class() as coach:
        await coach.press("f4")
        assert coach.speaker.muted
        assert "sound off" in coach.foot()
        await coach.press("f4", "f5")
        assert not coach.speaker.muted
        assert coach.speaker.volume == 70
        await coach.press("f6")
        assert coach.speaker.volume == 80
        await coach.press("f3")
        assert [cue.kind for cue in coach.speaker.scheduled] == ["short"] * 3 + ["go"]


async def test_no_sound_check_disturbs_a_running_clock(open_class: Any) -> None:
    async with open_class() as coach:
        await coach.start()
        ahead = list(coach.speaker.scheduled)
        await coach.press("f3")
        assert coach.speaker.scheduled == ahead
        assert "check the sound before the start" in coach.foot()
