"""Too little equipment, on the board and at "who is here": said in a line, shared by a digit."""

from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from classclock.club.movements import club_library
from classclock.machine.terminal import Terminal
from classclock.plan.movements.starter_library import starter_library
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.planning.equipment_check import equipment_lines, room_for
from classclock.planning.equipment_offers import EquipmentOffers
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import SIXTEEN
from classclock.screens.live.overlays.share_overlay import ShareOverlay
from classclock.screens.live.wall.wall_view import WallView
from classclock.screens.pages.who.who_desk import WhoDesk
from classclock.screens.pages.who.who_drawing import draw_who
from classclock.screens.pages.who.who_list import WhoList, likely_end
from classclock.tally.decide_groups import AS_PLANNED
from classclock.tally.lanes import Lane
from classclock.tally.piece import Piece
from classclock.wall.modification import starts_at

PLAIN = Look(SIXTEEN, Terminal(16, None))
SIZES = [(60, 18), (120, 36), (213, 60)]
CLUB = Club.model_validate({"equipment": {"bars": 6, "boxes": 4}})
NAMES: tuple[str, ...] = ("Ilse", "Bram", "Noor", "Piet", "Tuva", "Uri", "Saoirse")
NAMES += ("Odell", "Xenia", "Joris", "Femke", "Wout", "Yara", "Lev")
PLAN = """
title = "Depot Thursday"
[[segment]]
name   = "Headway"
format = "rounds-in-time"
time   = "15:00"
  [[segment.station]]
  movement = "push press"
  reps     = 9
  standard = "arms straight"
  caution  = ["Shoulder pain overhead: to the shoulders only."]
  options  = ["strict press, lighter"]
  [[segment.station]]
  movement = "box step-over"
  reps     = 6
  [[segment.station]]
  movement = "bodyweight squat"
  reps     = 15
[[segment]]
name   = "Cool-down"
format = "countdown"
time   = "5:00"
"""
SHORT = "14 bars are needed at once, 6 are here"


def words(text: str) -> str:
    return " ".join(text.split())


async def learned(coach: Any) -> None:
    """What the movements need is read, in a thread else."""
    coach.session.learn_equipment()
    coach.screen.show()
    await coach.pilot.pause()


@pytest.mark.parametrize("size", SIZES)
async def test_a_digit_shares_what_is_short_and_0_takes_it_back(
    open_class: Any, size: tuple[int, int]
) -> None:
    async with open_class(PLAN, names=NAMES, size=size, club=CLUB, look=PLAIN) as coach:
        await learned(coach)
        assert SHORT in words(coach.seen())
        assert "Shoulder pain overhead: to the shoulders only." in words(coach.seen())
        await coach.press("ctrl+t")
        seen = words(coach.seen())
        assert "1 in pairs, one works while the other rests, start at different stations" in seen
        assert "2 2 heats of 7, start at different stations" in seen
        assert "17:10 longer" in seen
        assert "a digit chooses, escape leaves it" in seen
        await coach.press("2")
        starts = [(lane.heat, lane.start_station) for lane in coach.live.lineup()]
        spread = [0, 0, 1, 1, 2, 2, 2]
        assert starts == [(heat, station) for heat in (1, 2) for station in spread]
        assert "heat 1, at push press" in words(coach.seen())
        assert "I Ilse, B Bram" in words(coach.seen())
        await coach.press("0")
        assert {lane.heat for lane in coach.live.lineup()} == {1}
        assert SHORT in words(coach.seen())


async def test_who_starts_where_is_drawn_large_once_a_way_is_chosen(open_class: Any) -> None:
    async with open_class(PLAN, names=NAMES, size=(213, 60), club=CLUB, look=Look()) as coach:
        await learned(coach)
        await coach.press("ctrl+t")
        assert "a digit chooses, escape leaves it" in coach.seen()
        await coach.press("2")
        overlay = coach.screen.query_one(ShareOverlay)
        assert overlay.starts[1].startswith("heat 1, at push press")
        assert "0: as planned" in coach.seen()
        assert "heat 1" not in plain_text(overlay.paint(*overlay.size)), "drawn, not typed"
        assert overlay.size.height > 3 * len(overlay.starts)


async def test_the_wall_says_from_where_each_ones_rounds_are_counted(open_class: Any) -> None:
    async with open_class(PLAN, names=NAMES, size=(213, 60), club=CLUB, look=PLAIN) as coach:
        await learned(coach)
        await coach.press("ctrl+t")
        await coach.press("2")
        lanes = [lane for lane in coach.live.lineup() if lane.heat == 1]
        stations = [one.movement for one in coach.live.record.segment.station]
        await coach.start()
        wall = coach.screen.query_one(WallView)
        said = [lane.start for lane in wall.lanes]
        assert said == [f"from {stations[lane.start_station]}" for lane in lanes]
        assert len(set(said)) == len(stations)
        assert f"from {stations[1]}" in words(coach.seen())


@pytest.mark.parametrize(
    ("starts", "said"),
    [((0, 0), ""), ((0, 1), "box step-over"), ((1, 1), "box step-over"), ((2, 1), "box step-over")],
)
def test_a_start_is_said_unless_all_start_at_the_first_station(
    starts: tuple[int, int], said: str
) -> None:
    """Common practice, no source: who starts elsewhere must know, were it everybody in a heat."""
    plan, _ = parse_plan(PLAN, "depot.toml")
    assert plan is not None
    lanes = [
        Lane(name, name, name[0], (name,), start_station=start)
        for name, start in zip(("ilse", "bram"), starts, strict=True)
    ]
    assert starts_at(Piece.of(plan.segment[0], "kg"), lanes[1], lanes) == said


async def test_where_all_start_together_the_wall_says_nothing_of_it(open_class: Any) -> None:
    async with open_class(PLAN, names=NAMES, club=CLUB, look=PLAIN) as coach:
        await coach.start()
        wall = coach.screen.query_one(WallView)
        assert not any("from" in lane.modification for lane in wall.lanes)


@pytest.mark.parametrize("size", SIZES)
async def test_every_way_has_its_digit_on_the_screen_and_so_has_the_plan(
    open_class: Any, size: tuple[int, int]
) -> None:
    async with open_class(PLAN, names=NAMES, size=size, club=CLUB, look=PLAIN) as coach:
        await learned(coach)
        await coach.press("ctrl+t")
        lines = [line.strip() for line in coach.seen().splitlines()]
        ways = coach.session.offer().ways
        for number, way in enumerate(ways, start=1):
            first, cost = way.words.split(",")[0].split(";")[0], way.brief.split("; ")[-1]
            at = next(at for at, line in enumerate(lines) if line.startswith(f"{number}  {first}"))
            assert cost in " ".join(lines[at : at + 4])
        assert "0  all start together, as planned" in lines


async def test_escape_leaves_it_and_enter_starts_though_the_list_is_open(open_class: Any) -> None:
    async with open_class(PLAN, names=NAMES, club=CLUB, look=PLAIN) as coach:
        await learned(coach)
        await coach.press("ctrl+t")
        await coach.press("escape")
        assert not coach.screen.overlays.share.display
        await coach.press("ctrl+t")
        await coach.press("9")
        assert not coach.live.record.shared, "there is no ninth way"
        await coach.start()
        assert coach.live.phase == "running"
        assert not coach.screen.overlays.share.display
        await coach.press("1", "2", "i")
        assert coach.live.record.sheet.tallies[coach.live.lineup()[0].id].odd == 12
        await coach.press("ctrl+t")
        assert "before the start" in coach.seen()


async def test_where_nothing_is_counted_the_key_says_what_to_write(open_class: Any) -> None:
    async with open_class(PLAN, names=NAMES, look=PLAIN) as coach:
        assert "needed at once" not in coach.seen()
        await coach.press("ctrl+t")
        assert "write [equipment] in club.toml" in coach.seen()


async def test_the_way_that_is_chosen_can_be_another_one(open_class: Any) -> None:
    async with open_class(PLAN, names=NAMES, club=CLUB, look=PLAIN) as coach:
        await learned(coach)
        await coach.press("ctrl+t")
        await coach.press("1")
        assert len(coach.live.lineup()) == 7
        await coach.press("ctrl+t")
        assert "a digit chooses" in coach.seen()
        await coach.press("2")
        assert len(coach.live.lineup()) == 14


def test_the_board_and_check_say_it_in_the_same_words(tmp_path: Path) -> None:
    plan, _ = parse_plan(PLAN, "t.toml")
    assert plan is not None
    people = WhoList(plan, "kg", (), likely_end(datetime(2026, 3, 3, tzinfo=UTC), 3_600_000))
    for name in NAMES:
        people.toggle(people.entries(name)[-1])
    offer = EquipmentOffers(CLUB, club_library(tmp_path)[0]).of(plan, 0, people.people, {})
    assert offer is not None
    lines = equipment_lines(plan, room_for(14, CLUB, starter_library()))
    for way in offer.ways:
        assert f"      {way.words}" in lines
    for piece in offer.short.split("; "):
        assert f"    Headway: {piece}" in lines


@pytest.fixture
def desk(tmp_path: Path) -> WhoDesk:
    plan, _ = parse_plan(PLAN, "t.toml")
    assert plan is not None
    end = likely_end(datetime(2026, 3, 3, 18, tzinfo=UTC), 3_600_000)
    desk = WhoDesk(WhoList(plan, "kg", (), end), mirrored=True, today=end.date())
    desk.sharing.offers = EquipmentOffers(CLUB, club_library(tmp_path)[0])
    for name in NAMES:
        for sign in (*name, "<enter>"):
            desk.sign(sign)
    return desk


def test_who_is_here_shares_too_as_long_as_the_same_people_are_here(desk: WhoDesk) -> None:
    (offer,) = desk.sharing.short()
    assert offer.short.startswith(SHORT)
    desk.sign("<ctrl+t>")
    desk.sign("9")
    assert desk.notice == f"there are {len(offer.ways)} ways here"
    desk.sign("2")
    sharing = desk.sharing.of(0).sharing
    assert sharing is not None
    assert sharing.way.startswith("2 heats of 7")
    assert not desk.who.choices.made, "the digit was no option"
    desk.sign("<space>")
    assert desk.sharing.of(0) == AS_PLANNED, "somebody went: the places no longer fit"
    desk.sign("<ctrl+t>")
    desk.sign("1")
    desk.sign("<ctrl+t>")
    desk.sign("0")
    assert desk.sharing.of(0) == AS_PLANNED


def test_with_the_ways_open_a_name_can_be_typed_all_the_same(desk: WhoDesk) -> None:
    desk.sign("<ctrl+t>")
    desk.sign("P")
    assert (desk.text, desk.sharing.asked) == ("P", None)


def test_more_than_nine_options_are_chosen_from_in_turn() -> None:
    options = ", ".join(f'"easier {number}"' for number in range(1, 12))
    text = PLAN.replace('options  = ["strict press, lighter"]', f"options = [{options}]")
    plan, findings = parse_plan(text, "t.toml")
    assert plan is not None, findings
    end = likely_end(datetime(2026, 3, 3, 18, tzinfo=UTC), 3_600_000)
    desk = WhoDesk(WhoList(plan, "kg", (), end), mirrored=True, today=end.date())
    for sign in (*"Ilse", "<enter>"):
        desk.sign(sign)
    piece = desk.options.piece
    assert piece is not None
    ident = desk.who.people[0].id
    desk.sign("9")
    assert desk.who.choices.of(piece, ident).options == (9, 0, 0)
    desk.sign("<ctrl+o>")
    desk.sign("2")
    assert desk.who.choices.of(piece, ident).options == (11, 0, 0)
    seen = ["".join(cell.text for cell in row) for row in draw_who(desk, 120, 36, Look())]
    assert any("2 easier 11 (:n11)" in row for row in seen), "as the class will call it"
    desk.sign("3")
    assert desk.notice == "there are 2 options here"
    desk.sign("0")
    assert desk.who.choices.of(piece, ident).options == (0, 0, 0)
    desk.sign("<ctrl+o>")
    desk.sign("1")
    assert desk.who.choices.of(piece, ident).options == (1, 0, 0)
