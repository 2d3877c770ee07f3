"""Taking back, bringing back, giving to the other lane."""

from collections.abc import Callable

from classclock.tally.commands import BringBack, Command, Move, TakeBack, Tap

Commands = Callable[..., list[Command]]
Said = Callable[..., str]
Left = Callable[..., str]


def test_take_back_that_lanes_last_entry(commands: Commands) -> None:
    assert commands("-n") == [TakeBack("p-noor")]


def test_backspace_takes_back_the_newest_entry_whoevers(commands: Commands) -> None:
    assert commands("<backspace>") == [TakeBack()]


def test_backspace_takes_off_the_last_sign_of_what_is_pending(
    commands: Commands, left: Left
) -> None:
    assert left("12<backspace>") == "1"
    assert left(">n<backspace>") == ">"
    assert commands("7+12<backspace><backspace>n") == commands("7+n")


def test_minus_then_backspace_brings_back(commands: Commands, left: Left) -> None:
    assert commands("-<backspace>") == [BringBack()]
    assert left("-<backspace>") == ""


def test_after_a_backspace_that_empties_it_nothing_is_taken_back_for_a_moment(
    commands: Commands, said: Said
) -> None:
    def again_after(ms: int) -> list[tuple[int, str]]:
        return [(0, "1"), (100, "<backspace>"), (100 + ms, "<backspace>")]

    assert commands(again_after(10)) == []
    assert commands(again_after(699)) == []
    assert "no entry was taken back" in said(again_after(699))
    assert commands(again_after(700)) == [TakeBack()]


def test_a_backspace_meant_for_what_has_just_lapsed_takes_nothing_back(
    commands: Commands,
) -> None:
    assert commands([(0, "12"), (4_100, "<backspace>")]) == []
    assert commands([(0, "12"), (4_700, "<backspace>")]) == [TakeBack()]


def test_the_first_ones_last_entry_was_the_second_ones(commands: Commands) -> None:
    assert commands(">nb") == [Move("p-noor", "p-bram")]


def test_an_entry_cannot_move_to_its_own_lane(commands: Commands, said: Said) -> None:
    assert commands(">nn") == []
    assert "are one lane" in said(">nn")
    assert commands(">nnb") == [Move("p-noor", "p-bram")]


def test_an_entry_typed_just_now_can_be_taken_back_at_once(commands: Commands) -> None:
    assert commands("n<backspace>") == [Tap("p-noor"), TakeBack()]
    assert commands("n-n") == [Tap("p-noor"), TakeBack("p-noor")]
