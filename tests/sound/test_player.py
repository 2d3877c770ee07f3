"""The player process, a real one, told to be silent."""

import os
import subprocess
import sys
from collections.abc import Iterator

import pytest

from classclock.clock.source import raw_now
from classclock.sound.messages import (
    Alive,
    Ask,
    Cancel,
    Mute,
    Quit,
    Ready,
    Schedule,
    Skipped,
    SoundNotice,
    SoundOrder,
    SoundStatus,
    Volume,
    line,
    read_status,
)
from classclock.sound.output import SILENCED
from classclock.sound.supervision import COMMAND

SECOND = 1_000_000_000


class Started:
    """A player process and its two pipes."""

    def __init__(self, sound: str = "silent") -> None:
        self.process = subprocess.Popen(
            COMMAND,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            bufsize=0,
            env={**os.environ, "CLASSCLOCK_SOUND": sound},
        )

    def tell(self, *orders: SoundOrder) -> None:
        assert self.process.stdin is not None
        self.process.stdin.write(b"".join(map(line, orders)))

    def hear(self) -> SoundStatus:
        assert self.process.stdout is not None
        return read_status(self.process.stdout.readline())

    def close(self) -> int:
        assert self.process.stdin is not None
        self.process.stdin.close()
        return self.process.wait(5)


@pytest.fixture
def player() -> Iterator[Started]:
    started = Started()
    assert [started.hear(), started.hear()] == [Ready("silent"), SoundNotice(SILENCED)]
    with started.process:
        yield started
        started.process.kill()


def test_it_answers_and_keeps_what_is_ahead_to_itself(player: Started) -> None:
    player.tell(Volume(40), Mute(on=True), Schedule("a", "go", raw_now() + 60 * SECOND), Ask())
    assert player.hear() == Alive()


def test_a_cue_over_a_second_late_is_left_out_and_reported(player: Started) -> None:
    player.tell(Schedule("late", "go", raw_now() - 2 * SECOND))
    assert player.hear() == Skipped("late")


def test_a_cue_a_little_late_is_not_reported(player: Started) -> None:
    player.tell(Schedule("a", "go", raw_now() - SECOND // 2), Cancel(), Ask())
    assert player.hear() == Alive()


def test_it_ends_when_the_app_is_gone_whatever_is_ahead(player: Started) -> None:
    player.tell(Schedule("a", "go", raw_now() + 60 * SECOND))
    before = raw_now()
    assert player.close() == 0
    assert raw_now() - before < SECOND


def test_it_ends_when_it_is_told_to(player: Started) -> None:
    player.tell(Quit())
    assert player.process.wait(5) == 0


def test_it_goes_on_after_a_line_that_makes_no_sense(player: Started) -> None:
    assert player.process.stdin is not None
    player.process.stdin.write(b"beep!\n")
    notice = player.hear()
    assert isinstance(notice, SoundNotice)
    assert "F3 checks the sound" in notice.text
    player.tell(Ask())
    assert player.hear() == Alive()


def test_a_setting_that_makes_no_sense_is_said_and_leaves_it_silent() -> None:
    started = Started("trumpet")
    with started.process:
        said = [started.hear() for _ in range(3)]
        assert started.close() == 0
    assert isinstance(said[0], SoundNotice)
    assert "CLASSCLOCK_SOUND is 'trumpet'" in said[0].text
    assert Ready("silent") in said


def test_it_starts_without_the_libraries_of_the_screens() -> None:
    code = (
        "import sys, classclock.sound.player; "
        "sys.exit(any(m in sys.modules for m in "
        "('textual', 'rich', 'pydantic', 'sqlalchemy', 'PIL', 'asyncio', 'miniaudio', 'numpy')))"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
