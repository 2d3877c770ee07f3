"""What is wrong with a class, in words: first what to do, and short enough for the least window."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from classclock.clock.source import MS, WoundSource
from classclock.live.on_disk import Lacking, OnDisk
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
REFUSED = Lacking(12, False, True, Path("/depot"), "the disk can only be read")  # noqa: FBT003
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
    session: Session, speaker: BrokenLoudspeaker, monkeypatch: pytest.MonkeyPatch
) -> None:
    session.check_clock = True
    monkeypatch.setattr(OnDisk, "refused", REFUSED)
    speaker.said = output.LOST
    session.club = Club()
    session.left_out = "movements.toml is left out (line 4: no such pattern)"
    found = troubles_of(session, battery="plug the laptop in: battery at 14 %")
    keys = [one.key for one in found]
    assert keys == [
        "check the clock",
        "files",
        "battery",
        "sound",
        "card",
        "movements",
    ]
    assert found[1].text == (
        "F8 saves elsewhere: 12 entries and the results aren't on disk in /depot "
        "(the disk can only be read); it is tried again"
    )
    assert found[1].shorter[-1] == "F8: 12 entries aren't on disk"


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


def test_a_disk_that_is_full_or_slow_is_said_as_long_as_all_is_on_it(
    session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    session.spare.short = True
    assert words(session) == ["free some space: the disk is nearly full"]
    session.spare.given_up = True
    full = "free some space: the disk is full, this class is saved in the last of it"
    assert words(session) == [full]
    with monkeypatch.context() as patched:
        patched.setattr(OnDisk, "slow", True)
        slow = "the disk is slow: a power cut now could lose the last taps"
        assert words(session) == [full, slow]
        patched.setattr(OnDisk, "refused", REFUSED)
        (refused,) = words(session)
        assert "12 entries" in refused
    session.spare.short = session.spare.given_up = False
    assert words(session) == []


def test_in_the_least_window_no_trouble_takes_more_than_two_turns(
    session: Session, speaker: BrokenLoudspeaker, monkeypatch: pytest.MonkeyPatch
) -> None:
    session.check_clock = True
    monkeypatch.setattr(OnDisk, "refused", REFUSED)
    speaker.said = output.NO_SOUND
    session.club = Club()
    session.left_out = "movements.toml is left out (line 4: no such pattern)"
    room = words_room(60 - TIME, "2 of 7")

    def turns(one: Notice) -> tuple[str, ...]:
        return row_parts((one.text, *one.shorter), room)

    found = troubles_of(session, battery="plug the laptop in: battery at 14 %")
    monkeypatch.undo()
    session.spare.given_up = True
    monkeypatch.setattr(OnDisk, "slow", True)
    found += troubles_of(session, battery="")
    assert {"files", "room", "slow"} <= {one.key for one in found}
    assert {one.key: len(turns(one)) for one in found if len(turns(one)) > 2} == {}
