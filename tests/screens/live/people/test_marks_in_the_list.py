"""What the room may see of who is here: a sign for a mark, and no load of who is off the wall."""

from typing import Any

import pytest

from classclock.plan.settings.club import Club
from classclock.tally.lanes import Person
from tests.screens.conftest import CARD
from tests.screens.live.people.piece_and_lift import LIFT_AND_PIECE, SIZES, asks_who, words

SECRET = (
    Person("i1", "Ilse", "i", newcomer=True, marks=("newcomer", "under 18")),
    Person("b1", "Bram", "b", marks=("off the wall",)),
    Person("n1", "Noor", "n"),
)
MARKS = ("newcomer", "under 18", "back after weeks", "off the wall")


@pytest.mark.parametrize("size", SIZES)
async def test_a_mirrored_list_shows_a_sign_and_no_mark(
    open_class: Any, size: tuple[int, int]
) -> None:
    async with open_class(people=SECRET, size=size) as coach:
        for keys in (("ctrl+p",), ("f7",), ("n", "1"), ("i", "1")):
            await coach.press(*keys)
            await coach.wind(1)
            seen = words(coach.seen())
            assert not any(mark in seen for mark in MARKS), keys
            assert "•" in seen
        people = {person.id: person for person in coach.live.record.people}
        assert people["n1"].marks == ("under 18",)
        assert people["i1"].marks == ("newcomer",)


async def test_where_only_the_coach_sees_it_f7_shows_the_marks(open_class: Any) -> None:
    club = Club.model_validate({"tv": {"mirrored": False}}).model_copy(update={"emergency": CARD})
    async with open_class(people=SECRET, club=club) as coach:
        await coach.press("ctrl+p")
        assert not any(mark in words(coach.seen()) for mark in MARKS)
        await coach.press("f7")
        seen = words(coach.seen())
        assert "under 18, newcomer" in seen or "newcomer, under 18" in seen


async def test_who_is_off_the_wall_keeps_their_load_to_themselves(open_class: Any) -> None:
    async with open_class(LIFT_AND_PIECE, people=SECRET) as coach:
        await coach.press("ctrl+p", "b", "tab", *"77.5", "enter")
        await coach.wind(1)
        assert "77.5" not in coach.seen()
        (bram,) = (lane for lane in coach.live.lineup() if lane.id == "b1")
        assert {str(load) for load in bram.loads} == {"77.5 kg"}


async def test_a_mark_is_written_down_for_later_classes(open_class: Any, tmp_path: Any) -> None:
    async with open_class(people=SECRET) as coach:
        await coach.press("ctrl+p", "n", "f7", "1")
        await coach.screen.work.marking.finished()
        written = (tmp_path / "changes.jsonl").read_text("utf-8")
        assert '"n1"' in written
        assert "under 18" in written


async def test_a_visitors_mark_is_written_down_once_they_have_a_name(
    open_class: Any, tmp_path: Any
) -> None:
    async with open_class() as coach:
        await coach.press("ctrl+p")
        await asks_who(coach)
        await coach.press("question_mark", "enter")
        await coach.press("f7", "1")
        await coach.screen.work.marking.finished()
        assert "under 18" in coach.live.record.people[-1].marks
        changes = tmp_path / "changes.jsonl"
        assert "under 18" not in (changes.read_text("utf-8") if changes.exists() else "")
        await coach.press("ctrl+e", *"Tuva", "enter")
        await coach.screen.work.marking.finished()
        assert "under 18" in changes.read_text("utf-8")
