"""Screens that show six digits and wait."""

from collections.abc import Iterator

from classclock.serve.door import MOST_WAITING, Door


def drawn(*digits: str) -> Iterator[str]:
    return iter(digits)


async def test_the_one_with_these_digits_is_let_in_and_no_other() -> None:
    door = Door(draw=drawn("111111", "222222").__next__)
    one, other = door.knock(), door.knock()
    assert one is not None
    assert other is not None
    assert not door.let_in("333333", "/secret/")
    assert door.let_in("222222", "/secret/")
    assert other.let_in.result() == "/secret/"
    assert not one.let_in.done()
    assert door.digits == ("111111",)
    assert not door.let_in("222222", "/secret/"), "once"


async def test_two_never_show_the_same() -> None:
    door = Door(draw=drawn("111111", "111111", "222222").__next__)
    door.knock()
    door.knock()
    assert door.digits == ("111111", "222222")


async def test_too_many_are_not_taken_and_who_leaves_makes_room() -> None:
    told: list[int] = []
    door = Door(lambda: told.append(1))
    waiting = [door.knock() for _ in range(MOST_WAITING)]
    assert door.knock() is None
    first = waiting[0]
    assert first is not None
    door.leave(first)
    assert not door.is_full
    assert len(told) == MOST_WAITING + 1


async def test_digits_are_six_whatever_is_drawn() -> None:
    door = Door()
    for _ in range(MOST_WAITING):
        door.knock()
    assert all(len(digits) == 6 and digits.isdecimal() for digits in door.digits)
