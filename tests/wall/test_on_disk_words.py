"""What is said of a class and the disk: who loses what, and nothing that the room may not read."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from classclock.clock.source import MS, WoundSource
from classclock.live.loss import Loss
from classclock.live.on_disk import Lacking
from classclock.live.session import Session
from classclock.live.session_opening import open_session
from classclock.plan.settings.club import Club
from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.lanes import Person
from classclock.wall.on_disk_words import last_words, leave_words, lost_words, unsaved_words
from tests.yard_night import SANDBOX, TURNSTILE, yard_night

PEOPLE = (Person("1", "Ilse", "i"), Person("2", "Bram", "b", marks=("off the wall",)))


@pytest.fixture
def session(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Session]:
    """A piece runs; its start is on disk, and from then on nothing is."""
    session = open_session(
        yard_night(SANDBOX, TURNSTILE),
        PEOPLE,
        folder=tmp_path / "depot",
        club=Club(),
        source=WoundSource(0),
        sound=False,
    )
    session.live.do(cmd.Start())
    jump(session, 20)
    session.journal.settle(5)
    on_disk = session.journal.on_disk
    assert on_disk == session.journal.number
    monkeypatch.setattr(type(session.journal), "on_disk", on_disk)
    monkeypatch.setattr(type(session.journal), "fault", "the disk is full")
    yield session
    session.close()


def jump(session: Session, seconds: int) -> None:
    assert isinstance(session.source, WoundSource)
    session.source.jump(seconds * 1000 * MS)


def words(session: Session) -> tuple[str, ...]:
    return lost_words(session.on_disk.loss, session.live.record.people)


def test_whoever_keeps_theirs_off_the_wall_is_named_without_their_score(session: Session) -> None:
    for key in "ib":
        session.key(key, 0.0)
    assert words(session) == ("Ilse 1+? (on disk 0+?)", "Bram's score")
    printed = "\n".join(last_words(session).lines)
    assert "Bram's score" in printed
    assert "Bram 1" not in printed


def test_what_was_noted_at_an_emergency_is_not_read_out(session: Session) -> None:
    session.live.record_event(ev.EmergencyNoted(session.live.clock.now(), "Ilse: dizzy"))
    assert words(session) == ("the note on the emergency",)
    said = (*leave_words(session).lost, leave_words(session).says, *last_words(session).lines)
    assert not any("dizzy" in line for line in said)


def test_what_changes_no_score_is_counted(session: Session) -> None:
    session.live.do(cmd.HoldClock())
    assert words(session) == ("the last entry of the class",)
    jump(session, 2)
    session.live.do(cmd.Resume())
    assert words(session) == ("the last 2 entries of the class",)


def test_in_two_pieces_it_is_said_in_which(session: Session) -> None:
    session.key("i", 0.0)
    jump(session, 130)
    for sign in ("*", "<enter>", "<enter>"):
        session.key(sign, 0.0)
        jump(session, 2 if sign == "*" else 12)
    session.key("i", 0.0)
    assert session.live.record.chosen.segment == 1
    first, *_ = words(session)
    assert first == "Ilse 1+0 in Sandbox (on disk 0+?)"


def test_a_class_that_is_all_on_disk_can_be_left_and_rejoined(
    session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(type(session.journal), "on_disk", session.journal.number)
    monkeypatch.setattr(type(session.journal), "fault", "")
    asked = leave_words(session)
    assert asked.says == "The clock runs on: classclock resume rejoins this class."
    assert (asked.lost, asked.warns) == ((), False)
    last = last_words(session)
    assert last.all_on_disk
    assert last.lines == (
        f"left before its end: classclock resume {session.journal.path} goes on with it",
    )


def test_what_is_still_being_written_is_named_as_well(
    session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(type(session.journal), "fault", "")
    session.key("i", 0.0)
    asked = leave_words(session)
    assert asked.says == "Not yet on disk, one moment:"
    assert (asked.lost, asked.warns) == (("Ilse 1+? (on disk 0+?)",), True)
    assert "the disk hasn't confirmed it" in last_words(session).lines[0]


def test_a_class_of_which_nothing_is_on_disk_cannot_be_rejoined(
    session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(type(session.journal), "on_disk", 0)
    assert not any("resume" in line for line in last_words(session).lines)
    assert "it can't be rejoined: nothing of it is on disk" in last_words(session).lines[-1]


@pytest.mark.parametrize(
    ("lacking", "said", "brief"),
    [
        ((1, False, False), "1 entry isn't on disk", "1 entry isn't on disk"),
        ((3, False, False), "3 entries aren't on disk", "3 entries aren't on disk"),
        ((9, True, False), "nothing of this class is on disk", "class isn't on disk"),
        ((0, False, True), "the results aren't on disk", "results aren't on disk"),
        ((0, False, False), "what comes now can't be saved", "class can't be saved"),
        (
            (3, False, True),
            "3 entries and the results aren't on disk",
            "3 entries aren't on disk",
        ),
    ],
)
def test_what_isnt_on_disk_is_said_with_where_and_why_and_what_to_do_first(
    lacking: tuple[int, bool, bool], said: str, brief: str
) -> None:
    wordings = unsaved_words(Lacking(*lacking, Path("/depot"), "the disk is full"))
    assert wordings[0] == (
        f"F8 saves elsewhere: {said} in /depot (the disk is full); it is tried again"
    )
    assert wordings[-1] == f"F8: {brief}"
    assert max(wordings, key=len) == wordings[0]


def test_a_home_is_written_as_people_do(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(Path, "home", lambda: tmp_path)
    said = unsaved_words(Lacking(1, False, False, tmp_path / "depot", "the disk is full"))[0]  # noqa: FBT003
    assert " in ~/depot (" in said


def test_nothing_lost_is_nothing_said() -> None:
    assert lost_words(Loss(), PEOPLE) == ()


def test_the_sample_class_can_be_left_and_nothing_of_it_is_kept(session: Session) -> None:
    session.sample = True
    session.key("i", 0.0)
    asked = leave_words(session)
    assert (asked.says, asked.warns) == ("This is the sample class: nothing of it is kept.", False)
