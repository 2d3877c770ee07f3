"""A visitor on the wall, and the line in which somebody says who they are."""

from typing import Any

from classclock.screens.canvas.cells import plain_text


def box(coach: Any) -> str:
    return plain_text(coach.screen.overlays.name.paint(120, 7))


async def test_a_visitor_comes_late_and_is_named_while_the_piece_runs(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.press("plus")
        assert "taps are off. Who came late?" in box(coach)
        await coach.press("question_mark", "enter")
        assert "visitor 1 joined late, key v" in coach.foot()
        await coach.wind(60)
        await coach.press("v")
        await coach.press("plus")
        assert "Who came late, or visitor 1 = Anna?" in box(coach)
        await coach.press(*"1", "equals_sign", *"Anna", "enter")
        assert "visitor 1 is Anna" in coach.foot()
        sheet = coach.live.record.sheet
        assert [tally.lane.name for tally in sheet.tallies.values()] == [
            *("Ilse", "Bram", "Noor", "Anna")
        ]
        await coach.wind(60)
        await coach.press("v")
        assert "Anna, round 2" in coach.foot()
        await coach.press("plus")
        assert "visitor 1" not in box(coach)


async def test_a_name_that_cant_be_given_is_said(open_class: Any) -> None:
    async with open_class(names=("Ilse", "?")) as coach:
        await coach.press("plus", *"1", "equals_sign", *"Ilse", "enter")
        assert "there is a Ilse already: add an initial" in coach.foot()
        await coach.wind(2)
        await coach.press("plus", *"Ilse", "equals_sign", *"Bea", "enter")
        assert "which visitor? visitor 1: as in visitor 1 = Anna" in coach.foot()
        assert [one.name for one in coach.live.record.people] == ["Ilse", "visitor 1"]
