"""What is wrong with a class, in words: first what to do, and short enough for the least window."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from classclock.clock.source import MS, WoundSource
from classclock.live.session import Session
from classclock.live.session_opening import open_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club, Emergency
from classclock.screens.live.foot.foot_row import words_room
from classclock.screens.live.foot.wordings import row_parts
from classclock.sound import output, supervision
from classclock.sound.loudspeaker import SilentLoudspeaker
from classclock.tally import commands as cmd
from classclock.tally.lane_keys import people_named
from classclock.wall.notices.notice import Notice
from classclock.wall.notices.troubles import troubles_of

PLAN = """
title = "Points Lever"
[[segment]]
name = "Warm-up"
format = "countdown"
time = "8:00"
"""
TIME = len(" 18:20  ends 19:00 ")
CARD = Emergency(address="0 Points Row", defibrillator="hall", first_aid="desk", call="112")


class BrokenLoudspeaker(SilentLoudspeaker):
    said = ""

    @property
    def trouble(self) -> str:
        return self.said


@pytest.fixture
def speaker() -> BrokenLoudspeaker:
    return BrokenLoudspeaker()


@pytest.fixture
def session(tmp_path: Path, speaker: BrokenLoudspeaker) -> Iterator[Session]:
    plan, _ = parse_plan(PLAN, "points-lever.toml")
    assert plan is not None
    session = open_session(
        PlanFile("points-lever", PLAN, plan),
        people_named(("Ilse", "Bram")),
        folder=tmp_path,
        club=Club(emergency=CARD),
        source=WoundSource(0),
        sound=False,
    )
    session.speaker = speaker
    yield session
    session.close()


def wound(session: Session) -> WoundSource:
    assert isinstance(session.source, WoundSource)
    return session.source


def words(session: Session, battery: str = "") -> list[str]:
    return [one.text for one in troubles_of(session, battery=battery)]


def test_a_class_in_which_all_is_well_has_none(session: Session) -> None:
    assert words(session) == []


def test_the_card_is_asked_for_before_the_first_start_and_said_to_be_short_later(
    session: Session,
) -> None:
    session.club = Club()
    assert words(session) == ["press !, then tab: the emergency card is not filled in"]
    session.live.do(cmd.Start())
    assert words(session) == [], "while a clock runs"
    wound(session).jump(10_000 * MS)
    for command in (cmd.HoldClock(), cmd.EndSegment(), cmd.GoTo(0)):
        session.live.do(command)
    assert words(session) == ["the emergency card is not filled in"]
    session.club = Club(emergency=CARD)
    assert words(session) == []


def test_files_come_before_the_battery_and_the_sound_and_the_clock_before_all(
    session: Session, speaker: BrokenLoudspeaker
) -> None:
    session.check_clock = True
    session.journal._trouble = "the class isn't being saved (No space left on device): free some"
    session.results.trouble = "the results can't be saved in /depot (Read-only file system)"
    speaker.said = output.LOST
    session.club = Club()
    session.left_out = "movements.toml is left out (line 4: no such pattern)"
    found = troubles_of(session, battery="plug the laptop in: battery at 14 %")
    keys = [one.key for one in found]
    assert keys == [
        "check the clock",
        "journal",
        "results",
        "battery",
        "sound",
        "card",
        "movements",
    ]
    assert found[1].shorter[0] == "F8 saves in another place: the class isn't being saved"
    assert found[2].shorter[1] == "F8: the results can't be saved"


EVERY_SOUND = (
    output.NO_SOUND,
    output.NO_PLAYER,
    output.LOST,
    supervision.GIVEN_UP,
    supervision.SLOW,
)


@pytest.mark.parametrize("said", EVERY_SOUND)
def test_a_lost_sound_says_first_what_to_do_in_a_row_of_120_columns(
    session: Session, speaker: BrokenLoudspeaker, said: str
) -> None:
    speaker.said = said
    (notice,) = troubles_of(session, battery="")
    room = words_room(120 - TIME, "2 of 3")
    assert row_parts((notice.text, *notice.shorter), room) == (said,)
    speaker.said = ""
    assert words(session) == []


def test_in_the_least_window_no_trouble_takes_more_than_two_turns(
    session: Session, speaker: BrokenLoudspeaker
) -> None:
    session.check_clock = True
    session.journal._trouble = "the disk doesn't confirm what it saves: Input/output error"
    session.results.trouble = "the results can't be saved in /depot (Read-only file system)"
    speaker.said = output.NO_SOUND
    session.club = Club()
    session.left_out = "movements.toml is left out (line 4: no such pattern)"
    room = words_room(60 - TIME, "2 of 7")

    def turns(one: Notice) -> tuple[str, ...]:
        return row_parts((one.text, *one.shorter), room)

    found = troubles_of(session, battery="plug the laptop in: battery at 14 %")
    assert {one.key: len(turns(one)) for one in found if len(turns(one)) > 2} == {}
