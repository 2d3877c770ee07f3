"""What the app holds, over real processes: none of their troubles may reach the class."""

import os
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from classclock.clock.source import NEVER, raw_now
from classclock.sound import supervision
from classclock.sound.loudspeaker import Loudspeaker, Scheduled, SilentLoudspeaker, Speaker
from classclock.sound.messages import (
    SILENT,
    Cancel,
    Mute,
    Ready,
    Schedule,
    Skipped,
    SoundNotice,
    SoundOrder,
    SoundStatus,
    Volume,
    read_order,
)
from classclock.sound.output import BACK, LOST
from classclock.sound.supervision import GIVEN_UP, SLOW, Supervisor
from tests.signals import KILL, STOP

MS = 1_000_000
SECOND = 1000 * MS
Until = Callable[[Callable[[], bool]], None]
Open = Callable[..., Loudspeaker]
PRETENDED = """
import sys
for text in sys.stdin:
    if '"ask"' in text:
        print('{"message": "alive"}', flush=True)
    else:
        with open(sys.argv[1], "a") as told:
            told.write(text)
"""


@pytest.fixture
def told(tmp_path: Path) -> Path:
    """Where a pretended player writes what it is told."""
    return tmp_path / "told"


@pytest.fixture
def opened(told: Path) -> Iterator[Open]:
    """Open a loudspeaker over a pretended player, and close it after the test."""
    loudspeakers: list[Loudspeaker] = []

    def start(**settings: object) -> Loudspeaker:
        pretended = (sys.executable, "-c", PRETENDED, str(told))
        settings = {"command": pretended, "ask_every_s": 0.1, **settings}
        loudspeakers.append(Loudspeaker(**settings))  # type: ignore[arg-type]  # a test's choice
        loudspeakers[-1].start()
        return loudspeakers[-1]

    yield start
    for loudspeaker in loudspeakers:
        loudspeaker.close()


def orders(told: Path) -> list[SoundOrder]:
    return [read_order(text) for text in told.read_bytes().splitlines()] if told.exists() else []


def pid(loudspeaker: Loudspeaker) -> int:
    running = loudspeaker._player.pid
    assert running is not None
    return running


def test_what_is_handed_over_before_the_player_is_there_reaches_it(
    opened: Open, told: Path, until: Until
) -> None:
    loudspeaker = opened()
    due = raw_now() + 60 * SECOND
    loudspeaker.schedule("a", "go", due)
    until(lambda: Schedule("a", "go", due) in orders(told))


def test_orders_arrive_in_their_order_and_cues_earlier_by_what_the_tv_lags(
    opened: Open, told: Path, until: Until
) -> None:
    loudspeaker = opened(offset_ms=120, volume=70)
    until(lambda: len(orders(told)) == 2)
    due = raw_now() + 60 * SECOND
    loudspeaker.schedule("a", "go", due)
    loudspeaker.set_volume(130)
    loudspeaker.mute(on=True)
    loudspeaker.cancel_all()
    until(lambda: len(orders(told)) == 6)
    assert orders(told) == [
        Volume(70),
        Mute(on=False),
        Schedule("a", "go", due - 120 * MS),
        Volume(100),
        Mute(on=True),
        Cancel(),
    ]


def test_a_killed_player_is_started_again_and_told_what_is_still_ahead(
    opened: Open, told: Path, until: Until
) -> None:
    loudspeaker = opened()
    until(lambda: len(orders(told)) == 2)
    ahead = raw_now() + 60 * SECOND
    loudspeaker.schedule("past", "short", raw_now() - 5)
    loudspeaker.schedule("ahead", "go", ahead)
    loudspeaker.mute(on=True)
    until(lambda: len(orders(told)) == 5)
    first = pid(loudspeaker)
    os.kill(first, KILL)
    until(lambda: len(orders(told)) == 8)
    assert orders(told)[5:] == [Volume(100), Mute(on=True), Schedule("ahead", "go", ahead)]
    assert pid(loudspeaker) != first


def test_a_hung_player_never_holds_up_the_class_and_is_replaced(
    opened: Open, told: Path, until: Until
) -> None:
    loudspeaker = opened()
    until(lambda: len(orders(told)) == 2)
    hung = pid(loudspeaker)
    os.kill(hung, STOP)
    before = raw_now()
    for number in range(2000):  # more than a pipe holds
        loudspeaker.schedule(f"cue {number % 7}", "short", before + 3600 * SECOND)
    assert raw_now() - before < SECOND
    until(lambda: loudspeaker._player.pid not in (hung, None))
    until(lambda: len(orders(told)) >= 2 + 2 + 7)


def test_a_player_that_hangs_while_nothing_is_handed_over_is_replaced_too(
    opened: Open, told: Path, until: Until
) -> None:
    loudspeaker = opened()
    until(lambda: len(orders(told)) == 2)
    hung = pid(loudspeaker)
    os.kill(hung, STOP)
    until(lambda: len(orders(told)) == 4)
    assert pid(loudspeaker) != hung


def test_a_new_player_doesn_t_repeat_what_was_played_early_for_a_tv_that_lags(
    opened: Open, told: Path, until: Until
) -> None:
    loudspeaker = opened(offset_ms=120, now=lambda: 0)
    until(lambda: len(orders(told)) == 2)
    loudspeaker.schedule("played", "short", 100 * MS)
    loudspeaker.schedule("ahead", "go", 200 * MS)
    until(lambda: len(orders(told)) == 4)
    os.kill(pid(loudspeaker), KILL)
    until(lambda: len(orders(told)) == 7)
    assert orders(told)[6] == Schedule("ahead", "go", 80 * MS)


def test_a_player_that_keeps_ending_is_given_up_with_a_notice_and_a_check_tries_again(
    until: Until,
) -> None:
    said: list[SoundStatus] = []
    supervisor = Supervisor(
        said.append, tuple, command=(sys.executable, "-c", ""), pauses_s=(0.01, 0.01)
    )
    supervisor.start()
    until(lambda: said == [SoundNotice(GIVEN_UP, lasts=True)])
    until(lambda: supervisor._thread is not None and not supervisor._thread.is_alive())
    supervisor.start()
    until(lambda: said == [SoundNotice(GIVEN_UP, lasts=True)] * 2)
    supervisor.close()


def test_a_player_that_can_t_even_be_started_doesn_t_raise(tmp_path: Path, until: Until) -> None:
    said: list[SoundStatus] = []
    supervisor = Supervisor(said.append, tuple, command=(str(tmp_path / "none"),), pauses_s=(0.01,))
    supervisor.start()
    until(lambda: said == [SoundNotice(GIVEN_UP, lasts=True)])
    supervisor.close()


def test_a_sound_system_that_doesn_t_answer_is_a_trouble_as_long_as_it_doesn_t(
    opened: Open, monkeypatch: pytest.MonkeyPatch, until: Until
) -> None:
    monkeypatch.setattr(supervision, "_SLOW", 2)
    loudspeaker = opened(ask_every_s=0.02)
    until(lambda: loudspeaker.trouble == SLOW)
    assert loudspeaker.poll() == (), "it is no news besides"


def test_a_sound_that_is_back_or_muted_is_no_trouble(opened: Open) -> None:
    loudspeaker = opened()
    for status in (Ready(SILENT), SoundNotice(LOST, lasts=True)):
        loudspeaker._heard(status)
    assert loudspeaker.trouble == LOST
    loudspeaker.mute(on=True)
    assert loudspeaker.trouble == ""
    loudspeaker.mute(on=False)
    assert loudspeaker.trouble == LOST
    loudspeaker._heard(Ready(SILENT))
    assert loudspeaker.trouble == LOST, "nobody hears anything through that"
    for status in (Ready("miniaudio"), SoundNotice(BACK)):
        loudspeaker._heard(status)
    assert loudspeaker.trouble == ""
    assert loudspeaker.poll() == (SoundNotice(BACK),)


def test_the_app_is_told_through_the_real_player_what_it_must_know(
    opened: Open, until: Until
) -> None:
    loudspeaker = opened(
        command=supervision.COMMAND,
        environ={**os.environ, "CLASSCLOCK_SOUND": "silent"},
        ask_every_s=1.0,  # a real one takes its time to start on a busy machine
    )
    until(lambda: loudspeaker.backend == "silent")
    loudspeaker.schedule("late", "go", raw_now() - 5 * SECOND)
    loudspeaker.schedule("never", "go", NEVER)
    said: list[SoundNotice | Skipped] = []

    def skipped() -> bool:
        said.extend(loudspeaker.poll())
        return Skipped("late") in said

    until(skipped)
    running = pid(loudspeaker)
    loudspeaker.close()
    with pytest.raises(ProcessLookupError):
        os.kill(running, 0)


def test_closing_a_hung_player_doesn_t_take_long(opened: Open, told: Path, until: Until) -> None:
    loudspeaker = opened()
    until(lambda: len(orders(told)) == 2)
    hung = pid(loudspeaker)
    os.kill(hung, STOP)
    before = raw_now()
    loudspeaker.close()
    assert raw_now() - before < 2 * SECOND
    with pytest.raises(ProcessLookupError):
        os.kill(hung, 0)


def test_the_sound_check_is_a_count_in_whose_moments_the_screen_can_show(
    opened: Open, told: Path, until: Until
) -> None:
    loudspeaker = opened(now=lambda: 0)
    until(lambda: len(orders(told)) == 2)
    cues = loudspeaker.check()
    assert [(cue.kind, cue.due // MS) for cue in cues] == [
        ("short", 500),
        ("short", 1500),
        ("short", 2500),
        ("go", 3500),
    ]
    until(lambda: len(orders(told)) == 6)
    assert orders(told)[2:] == [Schedule(cue.id, cue.kind, cue.due) for cue in cues]


def test_a_silent_loudspeaker_remembers_what_it_was_told() -> None:
    silent = SilentLoudspeaker(now=lambda: 0)
    speaker: Speaker = silent
    speaker.start()
    speaker.schedule("a", "go", 5)
    speaker.schedule("b", "end", 9)
    speaker.schedule("a", "go", 7)
    assert silent.scheduled == [Scheduled("b", "end", 9), Scheduled("a", "go", 7)]
    speaker.cancel_all()
    assert silent.scheduled == []
    assert speaker.check() == tuple(silent.scheduled)
    assert speaker.poll() == ()
