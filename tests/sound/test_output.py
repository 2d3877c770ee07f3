"""What the cues are heard through, when loudspeakers come and go."""

from collections.abc import Iterator

import pytest

from classclock.sound import output
from classclock.sound.agenda import Agenda
from classclock.sound.backends.backend import NoSound
from classclock.sound.messages import Ready, SoundNotice, SoundStatus
from classclock.sound.output import BACK, LOST, NO_PLAYER, NO_SOUND, SILENCED, Output


class PretendedLoudspeaker:
    name = "loudspeaker"

    def __init__(self) -> None:
        self.broken: str | None = None
        self.closed = False

    def fault(self) -> str | None:
        return self.broken

    def close(self) -> None:
        self.closed = True


class Room:
    """A room in which a loudspeaker is there or not, and an output that is tended."""

    def __init__(self, wish: str = "miniaudio") -> None:
        self.there = True
        self.opened: list[PretendedLoudspeaker] = []
        self.said: list[SoundStatus] = []
        self.agenda = Agenda(lambda _name: None)
        self.output = Output(self.agenda, {}, lambda: 0, self.said.append, wish)

    def open(self, *_: object) -> PretendedLoudspeaker:
        if not self.there:
            raise NoSound("none")
        self.opened.append(PretendedLoudspeaker())
        return self.opened[-1]

    def tend(self, times: int = 1) -> list[SoundStatus]:
        self.said.clear()
        for _ in range(times):
            self.output.tend()
        return list(self.said)


@pytest.fixture
def room(monkeypatch: pytest.MonkeyPatch) -> Iterator[Room]:
    room = Room()
    monkeypatch.setitem(output.WAYS, "miniaudio", room.open)
    yield room
    if room.output._backend is not None:
        room.output._backend.close()


def test_a_loudspeaker_that_is_there_is_used_and_left_alone(room: Room) -> None:
    assert room.tend() == [Ready("loudspeaker")]
    assert room.tend(50) == []
    assert len(room.opened) == 1


def test_without_a_loudspeaker_the_coach_is_told_once_and_it_is_tried_again(room: Room) -> None:
    room.there = False
    assert room.tend() == [Ready("silent"), SoundNotice(NO_SOUND, lasts=True)]
    assert room.tend(50) == []
    room.there = True
    assert room.tend(6) == [Ready("loudspeaker"), SoundNotice(BACK)]


def test_where_nothing_that_plays_is_installed_nobody_is_sent_to_the_loudspeaker(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """miniaudio has no wheels for Linux on arm64, and is left out there."""
    for name in ("miniaudio_backend.installed", "simpleaudio_backend.installed_safely"):
        monkeypatch.setattr(f"classclock.sound.output.{name}", lambda: False)
    said: list[SoundStatus] = []
    tended = Output(Agenda(lambda _name: None), {}, lambda: 0, said.append)
    tended.tend()
    tended.tend()
    assert said == [Ready("silent"), SoundNotice(NO_PLAYER, lasts=True)]


def test_a_loudspeaker_that_is_unplugged_is_said_and_taken_up_again(room: Room) -> None:
    room.tend()
    room.opened[0].broken = "gone"
    assert room.tend() == [Ready("silent"), SoundNotice(LOST, lasts=True)]
    assert room.opened[0].closed
    assert room.tend(6) == [Ready("loudspeaker"), SoundNotice(BACK)]
    assert room.tend(50) == []


def test_silence_that_was_asked_for_is_said_and_never_tried_otherwise() -> None:
    room = Room("silent")
    assert room.tend() == [Ready("silent"), SoundNotice(SILENCED)]
    assert room.tend(50) == []


def test_a_wish_that_nobody_knows_is_answered_with_those_that_there_are() -> None:
    with pytest.raises(ValueError, match="simpleaudio, miniaudio, silent"):
        Room("trumpet")
