"""Who is here, without a screen: the list and the coach's keys on it."""

from collections.abc import Callable
from datetime import UTC, date, datetime
from itertools import count

import pytest

from classclock.book.asking.known_people import KnownPerson
from classclock.plan.model import Plan
from classclock.plan.reading.plan_reading import parse_plan
from classclock.screens.pages.who.who_desk import WhoDesk
from classclock.screens.pages.who.who_list import WhoList, likely_end

NOW = datetime(2026, 3, 3, 18, 28, tzinfo=UTC)
PLAN = """
title = "Turntable Tuesday"
[[segment]]
name = "Warm-up"
format = "countdown"
time = "8:00"
[[segment]]
name = "Turntable"
benchmark = "turntable"
format = "rounds-in-time"
time = "16:00"
  [[segment.station]]
  movement = "box step-over"
  reps = 6
  options = ["lower box", { name = "step-up", reps = 4 }]
  [[segment.station]]
  movement = "dumbbell push press"
  reps = 9
  load = { heavier = "22.5 kg", lighter = "15 kg" }
  options = ["one dumbbell"]
"""


def read(text: str) -> Plan:
    plan, findings = parse_plan(text, "t.toml")
    assert plan is not None, findings
    return plan


@pytest.fixture
def desk() -> Callable[..., WhoDesk]:
    def make(*known: KnownPerson, mirrored: bool = True) -> WhoDesk:
        end = likely_end(NOW, 3_600_000)
        drawn = (f"new-{number}" for number in count(1))
        who = WhoList(read(PLAN), "kg", known, end, lambda: next(drawn))
        return WhoDesk(who, mirrored=mirrored, today=NOW.date())

    return make


def type_in(desk: WhoDesk, *signs: str) -> str:
    """Type signs, words letter by letter; what the last one came to."""
    step = ""
    for sign in signs:
        for one in [sign] if sign.startswith("<") else sign:
            step = desk.sign("<space>" if one == " " else one)
    return step


def test_an_unknown_name_adds_a_newcomer(desk: Callable[..., WhoDesk]) -> None:
    here = desk()
    type_in(here, "Saoirse", "<enter>")
    (saoirse,) = here.who.people
    assert (saoirse.name, saoirse.key, saoirse.newcomer) == ("Saoirse", "s", True)
    assert saoirse.marks == ("newcomer",)


def test_typing_part_of_a_name_finds_who_is_known(desk: Callable[..., WhoDesk]) -> None:
    here = desk(KnownPerson("1", "Špela", "p"), KnownPerson("2", "Noor", "n"))
    type_in(here, "spe", "<enter>")
    assert [person.id for person in here.who.people] == ["1"]
    assert here.text == ""


def test_names_that_begin_with_what_is_typed_come_first(desk: Callable[..., WhoDesk]) -> None:
    here = desk(KnownPerson("1", "Hilke", "h"), KnownPerson("2", "Ilse", "i"))
    type_in(here, "il")
    assert [entry.name for entry in here.entries] == ["Ilse", "Hilke", "il"]


def test_the_last_match_adds_a_second_person_of_the_same_name(
    desk: Callable[..., WhoDesk],
) -> None:
    here = desk(KnownPerson("noor", "Noor", "n"))
    type_in(here, "Noor", "<enter>", "Noor", "<down>", "<enter>")
    assert [person.id for person in here.who.people] == ["noor", "new-1"]
    assert {person.key for person in here.who.people} == {"n", "o"}


def test_two_of_one_name_must_differ_before_the_board(desk: Callable[..., WhoDesk]) -> None:
    here = desk(KnownPerson("noor", "Noor", "n"))
    type_in(here, "Noor", "<enter>", "Noor", "<down>", "<enter>")
    assert type_in(here, "<enter>") == ""
    assert here.notice.startswith("two are called Noor")
    type_in(here, "<ctrl+e>", " B", "<enter>")
    assert type_in(here, "<enter>") == "board"
    assert [person.name for person in here.who.people] == ["Noor", "Noor B"]


def test_an_empty_class_does_not_begin(desk: Callable[..., WhoDesk]) -> None:
    here = desk()
    assert type_in(here, "<enter>") == ""
    assert here.notice == "nobody is here yet: type a name, then enter"


def test_space_takes_the_highlighted_in_and_out(desk: Callable[..., WhoDesk]) -> None:
    here = desk(KnownPerson("1", "Ilse", "i"), KnownPerson("2", "Bram", "b"))
    type_in(here, "<down>", "<space>")
    assert [person.name for person in here.who.people] == ["Bram"]
    type_in(here, "<space>")
    assert here.who.people == ()


def test_a_digit_toggles_the_option_of_that_number_and_0_is_as_written(
    desk: Callable[..., WhoDesk],
) -> None:
    here = desk()
    type_in(here, "Ilse", "<enter>", "2", "3")
    assert here.who.choices.made[1, "new-1"].options == (2, 1)
    type_in(here, "3")
    assert here.who.choices.made[1, "new-1"].options == (2, 0)
    type_in(here, "1")
    assert here.who.choices.made[1, "new-1"].options == (1, 0)
    type_in(here, "0")
    assert here.who.choices.made[1, "new-1"].options == (0, 0)
    type_in(here, "4")
    assert here.notice == "there are 3 options here"


def test_tab_goes_through_the_loads_that_the_plan_offers(desk: Callable[..., WhoDesk]) -> None:
    here = desk()
    type_in(here, "Ilse", "<enter>")
    loads = []
    for _ in range(3):
        type_in(here, "<tab>")
        loads.append(here.who.choices.made[1, "new-1"].load)
    assert loads == ["heavier", "lighter", None]


def test_what_somebody_used_last_time_is_chosen_for_them_and_said(
    desk: Callable[..., WhoDesk],
) -> None:
    here = desk(KnownPerson("1", "Ilse", "i", modifications={"turntable": ("step-up", "gone")}))
    type_in(here, "Ilse", "<enter>")
    piece = here.options.piece
    assert piece is not None
    assert here.who.choices.made[1, "1"].options == (2, 0)
    assert here.who.choices.words(piece, "1") == "step-up, as before"
    type_in(here, "1")
    assert here.who.choices.words(piece, "1") == "lower box"


def test_a_key_can_be_given_and_who_had_it_gets_another(desk: Callable[..., WhoDesk]) -> None:
    here = desk()
    type_in(here, "Ilse", "<enter>", "Bram", "<enter>", "<ctrl+k>", "I")
    keys = {person.name: person.key for person in here.who.people}
    assert keys == {"Ilse": "l", "Bram": "i"}
    assert here.notice == "Bram: key i; Ilse has l now"
    type_in(here, "<ctrl+k>", "7")
    assert here.notice == "a key is a letter from a to z"


def test_a_key_given_here_stays_when_a_more_regular_person_comes(
    desk: Callable[..., WhoDesk],
) -> None:
    here = desk(KnownPerson("1", "Ilse", "i", classes=80))
    type_in(here, "Bram", "<enter>", "<ctrl+k>", "i", "Ilse", "<enter>")
    assert {person.name: person.key for person in here.who.people} == {"Bram": "i", "Ilse": "l"}
    assert here.notice == "Ilse is here; Ilse has the key l now"


def test_whose_key_changes_because_a_regular_came_is_said(desk: Callable[..., WhoDesk]) -> None:
    here = desk(KnownPerson("1", "Nele", "n", classes=2), KnownPerson("2", "Noor", "n", classes=9))
    type_in(here, "Nele", "<enter>", "Noor", "<enter>")
    assert {person.name: person.key for person in here.who.people} == {"Nele": "e", "Noor": "n"}
    assert "Nele has the key e now" in here.notice


def test_more_than_26_run_in_heats_and_that_is_said(desk: Callable[..., WhoDesk]) -> None:
    here = desk()
    for number in range(27):
        type_in(here, f"Ada {'abcdefghijklmnopqrstuvwxyzz'[number]}{number}", "<enter>")
    assert "27 people run in 2 heats" in here.notice
    assert here.who.heats() == 2


def test_left_and_right_move_the_class_s_end(desk: Callable[..., WhoDesk]) -> None:
    here = desk()
    assert f"{here.who.ends:%H:%M}" == "19:30"
    type_in(here, "<right>", "<right>", "<left>")
    assert f"{here.who.ends:%H:%M}" == "19:35"


def test_marks_are_set_only_while_they_are_shown_and_the_tv_is_warned_of(
    desk: Callable[..., WhoDesk],
) -> None:
    here = desk(KnownPerson("1", "Ilse", "i", last=date(2026, 1, 20)))
    type_in(here, "Ilse", "<enter>", "<f7>")
    assert here.notice == "the TV shows this too: turn it away or mute it"
    type_in(here, "1", "3")
    assert [person.marks for person in here.who.people] == [("under 18", "back after weeks")]
    type_in(here, "1", "<f7>", "1")
    assert [person.marks for person in here.who.people] == [("back after weeks",)]
    assert here.who.choices.made[1, "1"].options == (1, 0)
    assert here.who.away("1", here.today) == 42


def test_escape_drops_what_is_typed_then_goes_back(desk: Callable[..., WhoDesk]) -> None:
    here = desk()
    assert type_in(here, "No", "<escape>") == ""
    assert here.text == ""
    assert type_in(here, "<escape>") == "back"


@pytest.mark.parametrize("sign", ["\x1b", "\u202e", "\n", "<f12>", "<pageup>"])
def test_a_sign_that_can_not_be_shown_is_never_part_of_a_name(
    sign: str, desk: Callable[..., WhoDesk]
) -> None:
    here = desk()
    here.sign(sign)
    assert here.text == ""


def test_whoever_was_found_by_typing_gets_the_key_and_the_name(
    desk: Callable[..., WhoDesk],
) -> None:
    here = desk()
    type_in(here, "Ilse", "<enter>", "Bram", "<enter>", "br", "<ctrl+k>", "x")
    assert {person.name: person.key for person in here.who.people} == {"Ilse": "i", "Bram": "x"}
    type_in(here, "br", "<ctrl+e>")
    here.paste(" \n V.")
    type_in(here, "<enter>")
    assert [person.name for person in here.who.people] == ["Ilse", "BramV."]
    assert here.highlighted is not None
    assert here.highlighted.name == "BramV."
    assert here.text == ""


def test_a_name_is_left_as_it_was_by_escape_and_by_an_empty_line(
    desk: Callable[..., WhoDesk],
) -> None:
    here = desk()
    type_in(here, "Ilse", "<enter>", "<ctrl+e>", "x", "<escape>", "<ctrl+e>", "<ctrl+u>", "<enter>")
    assert [person.name for person in here.who.people] == ["Ilse"]
    assert here.text == ""


def test_who_was_typed_before_the_book_was_read_is_who_the_club_knows(
    desk: Callable[..., WhoDesk],
) -> None:
    here = desk()
    type_in(here, "noor", "<enter>", "Saoirse", "<enter>", "Bram", "<enter>")
    here.know(
        (
            KnownPerson("k7", "Noor", "x", modifications={"turntable": ("step-up", None)}),
            *(KnownPerson("k8", "Bram", "b"), KnownPerson("k9", "Bram", "r")),
        )
    )
    ids = {person.name: person.id for person in here.who.people}
    assert ids == {"Noor": "k7", "Saoirse": "new-2", "Bram": "new-3"}  # there are two called Bram
    noor = here.who.people[-1]
    assert (noor.id, noor.key, noor.newcomer) == ("k7", "x", False)
    assert here.who.choices.made[1, "k7"].options == (2, 0)


def test_a_question_about_somebody_taken_for_new_is_asked_no_more(
    desk: Callable[..., WhoDesk],
) -> None:
    here = desk()
    type_in(here, "Noor", "<enter>", "<ctrl+k>")
    here.know((KnownPerson("k7", "Noor", "n"),))
    assert here.asked is None
    type_in(here, "<enter>")
    assert [person.id for person in here.who.people] == ["k7"]
