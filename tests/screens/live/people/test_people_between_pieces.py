"""Who is here, opened over a class: whole use between two pieces, at every size."""

from collections.abc import Callable
from pathlib import Path
from threading import Event, current_thread, main_thread
from typing import Any

import pytest

from classclock.book.asking import people_reading
from classclock.clock.source import stamp_now
from classclock.live import session as session_module
from classclock.plan.settings.club import Club
from classclock.screens.canvas.look import Look
from classclock.screens.live.people.people_list_drawing import draw_people_list
from classclock.tally.lanes import Person
from tests.screens.conftest import CARD

SIZES = [(60, 18), (120, 36), (213, 60)]
LIFT = """
title = "Depot Thursday"
[[segment]]
name = "Front squat"
format = "interval"
repeat = 5
steps = [{ work = "2:00", label = "3 reps" }]
lift = "front squat"
sets = [{ reps = 3, load = "60 kg" }, { reps = 3, load = "65 kg" }]
score = "load"
[[segment]]
name = "Turntable"
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
"""
LIFTLESS = """
title = "Mobility"
[[segment]]
name = "Mobility"
format = "countdown"
time = "8:00"
"""
HOSTILE = ("[red]Odell[/red]", "\x1b[31mBram", "🦊 Uri", "\u202eleon", "טל")


async def asks_who(coach: Any) -> None:
    """`+`, and the club's names are read."""
    await coach.press("plus")
    await coach.screen.work.reading.finished()
    await coach.screen.work.naming.finished()


def words(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("size", SIZES)
async def test_ctrl_p_is_named_in_the_foot_and_opens_the_list_and_escape_the_board(
    open_class: Any, size: tuple[int, int]
) -> None:
    async with open_class(size=size) as coach:
        await coach.wind(30)  # what had to be read has been
        assert "ctrl+p who" in coach.foot()
        board = coach.seen()
        await coach.press("ctrl+p")
        seen = words(coach.seen())
        assert "3 here" in seen
        assert all(name in seen for name in ("Ilse", "Bram", "Noor"))
        assert "1 lower box" in seen
        assert "2 step-up" in seen
        assert "escape: close" in seen
        await coach.press("escape")
        assert coach.seen().split("\n")[:-1] == board.split("\n")[:-1]


@pytest.mark.parametrize("size", SIZES)
async def test_an_evening_s_changes_between_two_pieces(
    open_class: Any, size: tuple[int, int]
) -> None:
    async with open_class(size=size) as coach:
        await coach.press("enter")
        await coach.wind(10 + 8 * 60 + 4)
        await coach.press("enter")  # the warm-up is over: the board of the piece
        await coach.press("ctrl+p", "b", "space")  # somebody leaves
        assert "2 here, 1 has left" in words(coach.seen())
        await coach.press("n", "2")  # an option
        assert "step-up" in words(coach.seen())
        await asks_who(coach)
        await coach.press(*"Late", "enter")  # a latecomer by name
        assert "3 here, 1 has left" in words(coach.seen())
        await coach.press("ctrl+e", "space", "R", "enter")  # another name
        assert "Late R" in words(coach.seen())
        await coach.press("escape")
        assert {lane.name for lane in coach.live.lineup()} == {"Ilse", "Noor", "Late R"}
        assert "Bram" not in "".join(coach.seen().split("\n")[:-1])
        await coach.wind(2)
        await coach.press("ctrl+p", "b", "space", "escape")  # and back
        assert {lane.name for lane in coach.live.lineup()} == {"Ilse", "Bram", "Noor", "Late R"}
        await coach.press("enter")
        await coach.wind(10)
        assert coach.live.phase == "running"
        (noor,) = (lane for lane in coach.live.record.sheet.lanes if lane.name == "Noor")
        assert noor.options == (2, 0)
        assert {person.name: person.key for person in coach.live.record.people}["Bram"] == "b"


async def test_a_load_is_changed_before_a_lift_and_taken_back(open_class: Any) -> None:
    async with open_class(LIFT) as coach:
        await coach.press("ctrl+p", "n", "tab", *"62.5", "enter")
        assert "62.5 kg" in words(coach.seen())
        await coach.press("b", "tab", "2", "colon", *"67.5", "enter")
        loads = {lane.name: [str(one) for one in lane.loads] for lane in coach.live.lineup()}
        assert loads["Noor"] == ["62.5 kg", "62.5 kg"]
        assert loads["Bram"] == ["60 kg", "67.5 kg"]
        await coach.press("n", "tab", "enter")  # nothing typed: as planned
        (noor,) = (lane for lane in coach.live.lineup() if lane.name == "Noor")
        assert "62.5 kg" not in map(str, noor.loads)
        await coach.press("n", "tab", *"heavy", "enter")
        assert '"heavy" is not a load' in coach.foot()


async def test_the_loads_by_name_and_the_options_are_those_of_the_piece_to_come(
    open_class: Any,
) -> None:
    async with open_class(LIFT) as coach:
        await coach.press("down", "ctrl+p", "n", "tab", "1")
        assert "lower box, heavier" in words(coach.seen())
        await coach.press("0", "tab", "tab")
        assert "lower box, heavier" not in words(coach.seen())
        assert not any(coach.live.record.choice("Noor", 1).options)
        assert coach.live.record.choice("Noor", 1).load is None


async def test_while_a_piece_runs_ctrl_p_says_what_to_do_instead(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.press("enter", "ctrl+p")
        await coach.reads("the count-in runs: space calls it off")
        await coach.wind(10)
        await coach.wind(30)
        await coach.press("ctrl+p")
        await coach.reads("the clock runs: + adds somebody")
        assert not coach.screen.overlays.people.display
        await coach.press("space")
        await coach.wind(2)
        await coach.press("ctrl+p")
        assert coach.screen.overlays.people.display
        assert "held at" in words(coach.seen())
        await coach.press("escape")
        assert not coach.screen.overlays.people.display


async def test_on_the_last_screen_it_opens_too(open_class: Any) -> None:
    async with open_class() as coach:
        await coach.press("enter")
        await coach.wind(10 + 8 * 60 + 4)
        await coach.press("enter")
        await coach.wind(2)
        await coach.press("enter")
        await coach.wind(10 + 16 * 60 + 4)
        await coach.press("ctrl+p")
        assert "3 here" in words(coach.seen())
        await coach.press("escape")
        for _ in range(5):  # each of three is asked for their odd reps
            await coach.press("enter")
            await coach.wind(2)
        assert coach.live.phase == "closed"
        await coach.press("ctrl+p")
        assert "3 here" in words(coach.seen())
        await coach.press("b", "space", "escape")
        assert "Bram" in coach.live.record.left


async def test_a_key_held_down_opens_the_list_once(open_class: Any) -> None:
    async with open_class() as coach:
        for _ in range(8):
            await coach.press("ctrl+p")
            await coach.wind(0.04)
        assert coach.screen.overlays.people.display


async def test_textual_s_own_palette_does_not_answer(open_class: Any) -> None:
    async with open_class() as coach:
        await coach.press("ctrl+p")
        assert coach.pilot.app.screen is coach.screen
        await coach.wind(2)
        await coach.press("ctrl+p")
        assert coach.pilot.app.screen is coach.screen
        assert not coach.screen.overlays.people.display, "ctrl+p closes it too"


async def test_a_name_that_another_has_is_refused_and_a_comma_makes_two(open_class: Any) -> None:
    async with open_class() as coach:
        await coach.press("ctrl+p")
        await asks_who(coach)
        coach.screen.overlays.people.paste("Bea, Pavel")
        await coach.press("enter")
        names = [person.name for person in coach.live.record.people]
        assert names == ["Ilse", "Bram", "Noor", "Bea", "Pavel"]
        await coach.press("ctrl+e", "ctrl+u", *"Ilse", "enter")
        await coach.reads("there is a Ilse already")
        assert [person.name for person in coach.live.record.people] == names


async def test_a_visitor_comes_and_is_named_later(open_class: Any) -> None:
    async with open_class() as coach:
        await coach.press("ctrl+p")
        await asks_who(coach)
        await coach.press("question_mark", "enter")
        assert "visitor 1" in words(coach.seen())
        visitor = coach.live.record.people[-1]
        await coach.press("ctrl+e", *"Tuva", "enter")
        tuva = coach.live.record.people[-1]
        assert (tuva.id, tuva.name) == (visitor.id, "Tuva")
        assert visitor.visitor
        assert not tuva.visitor


# -- what the room may see -------------------------------------------------------------

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
    async with open_class(LIFT, people=SECRET) as coach:
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


# -- how it is drawn -------------------------------------------------------------------


@pytest.mark.parametrize("size", [(60, 18), (80, 24), (120, 36), (213, 60), (240, 70)])
@pytest.mark.parametrize("people", [1, 12, 26, 40])
async def test_every_size_is_filled_to_the_last_cell_whatever_the_names(
    open_class: Any,
    size: tuple[int, int],
    people: int,
    check_filled: Callable[..., None],
) -> None:
    names = [f"{HOSTILE[number % len(HOSTILE)]} {number}" for number in range(people)]
    here = tuple(
        Person(str(number), name, chr(97 + number % 26)) for number, name in enumerate(names)
    )
    async with open_class(people=here) as coach:
        desk = coach.screen.overlays.people.desk
        desk.open()
        for keys in ("", "<end>", "<space>", "<f7>", "<f7>", "+", "x"):
            if keys:
                desk.sign(keys)
            check_filled(draw_people_list(desk, *size, Look()), *size)


@pytest.mark.parametrize("size", SIZES)
async def test_the_last_of_forty_can_be_reached_and_seen(
    open_class: Any, size: tuple[int, int]
) -> None:
    here = tuple(
        Person(str(number), f"Rider {number}", chr(97 + number % 26)) for number in range(40)
    )
    async with open_class(people=here, size=size) as coach:
        await coach.press("ctrl+p", "end")
        assert "Rider 39" in coach.seen()
        await coach.press("space")
        assert coach.live.record.left.keys() == {"39"}


async def test_keys_typed_at_once_are_all_taken(open_class: Any) -> None:
    async with open_class() as coach:
        now = stamp_now()
        for sign in ("<ctrl+p>", "b", "<space>", "<escape>"):
            coach.screen.control.stroke(sign, now)
        await coach.pilot.pause()
        assert coach.live.record.left.keys() == {"Bram"}
        assert not coach.screen.overlays.people.display


# -- whom the club knows ---------------------------------------------------------------


async def test_who_came_before_is_found_by_part_of_a_name_with_what_they_used(
    open_class: Any, depot: Any
) -> None:
    lane = depot.reps("Saoirse", 40, options=["step-up"])
    depot.save(depot.document("2026-02-24", depot.piece("Turntable", "rounds-in-time", [lane])))
    async with open_class(folder=depot.folder) as coach:
        await coach.press("ctrl+p", "plus")
        assert "Saoirse" not in coach.seen(), "nobody's attendance is shown unasked"
        await coach.screen.work.naming.finished()
        await coach.press(*"sao")
        assert "Saoirse" in coach.seen()
        await coach.press("enter")
        saoirse = coach.live.record.people[-1]
        assert (saoirse.id, saoirse.name) == ("saoirse", "Saoirse")
        assert "step-up" in words(coach.seen())
        assert coach.live.record.choice("saoirse", 1).options == (2,)


async def test_a_name_that_is_read_while_it_is_typed_for_appears(
    open_class: Any, depot: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    lane = depot.reps("Saoirse", 40)
    depot.save(depot.document("2026-02-25", depot.piece("Rails", "rounds-in-time", [lane])))
    monkeypatch.setattr(session_module, "in_files", lambda _: ())
    async with open_class(LIFTLESS, folder=depot.folder) as coach:
        may_read = Event()

        def read(folder: Path) -> Any:
            may_read.wait(10)
            return people_reading.remembered(folder)

        monkeypatch.setattr(session_module, "remembered", read)
        await coach.press("ctrl+p", "plus", *"sao")
        assert "Saoirse" not in coach.seen()
        await coach.press("enter")
        await coach.reads("enter once more takes")
        may_read.set()
        await coach.screen.work.naming.finished()
        await coach.pilot.pause()
        assert "Saoirse" in coach.seen()


async def test_the_club_s_names_are_read_in_a_thread_and_once(
    open_class: Any, depot: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    read: list[str] = []
    known = people_reading.remembered

    def noted(folder: Path) -> Any:
        read.append(current_thread().name)
        return known(folder)

    monkeypatch.setattr(session_module, "remembered", noted)
    monkeypatch.setattr(session_module, "known_for", lambda *_: pytest.fail("read in the loop"))
    async with open_class(LIFTLESS, folder=depot.folder) as coach:
        await coach.screen.work.reading.finished()
        assert read == []
        for name in ("Late", "Later"):
            await coach.press("ctrl+p", "plus")
            await coach.screen.work.naming.finished()
            await coach.press(*name, "down", "down", "enter", "escape")
            await coach.wind(2)
        assert [person.name for person in coach.live.record.people[3:]] == ["Late", "Later"]
    assert len(read) == 1
    assert main_thread().name not in read
