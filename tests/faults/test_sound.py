"""Cues as they are heard while a class runs, and what a class notices when there are none.

ITU-R BT.1359-1 (1998): sound is noticed apart from its picture from 45 ms early to 125 ms late.
The limits here are this project's own, and narrower on the late side.
"""

import os
from contextlib import suppress
from pathlib import Path

import pytest

from tests.faults.conftest import Seen, Times, WatchedClub
from tests.faults.heard import Heard, ListenedTo
from tests.signals import KILL, STOP
from tests.sound.recording import CAN_BE_RECORDED, PLAYERS, silent_room, way_to
from tests.terminal.conftest import Terminal


@pytest.mark.real_time
@pytest.mark.usefixtures("in_the_table")
@CAN_BE_RECORDED
@pytest.mark.parametrize("player", PLAYERS)
def test_every_cue_is_heard_at_its_moment_and_together_with_its_digit(
    player: str, club: WatchedClub, times: Times, seen: Seen, *, thorough: bool
) -> None:
    if player != "miniaudio" and not thorough:
        pytest.skip("takes its time: python -m tests.faults tries it")
    heard = listened_to(club, player, times(1, 27), busy=False, tries=1 if thorough else 3)
    seen(in_words(heard))
    evenly_and_together(heard)
    assert max(heard.after_digit_ms) <= 45
    if thorough:  # beside other tests the machine is too busy for the rare late paint
        assert share(sorted(heard.after_digit_ms), 5) >= -20


@pytest.mark.real_time
@pytest.mark.usefixtures("in_the_table")
@CAN_BE_RECORDED
@pytest.mark.parametrize("player", PLAYERS)
def test_cues_stay_even_while_26_lanes_are_tapped_20_times_a_second_and_the_window_is_resized(
    player: str, club: WatchedClub, times: Times, seen: Seen, *, thorough: bool
) -> None:
    if player != "miniaudio" and not thorough:
        pytest.skip("takes its time: python -m tests.faults tries it")
    heard = listened_to(club, player, times(1, 27), busy=True, tries=1 if thorough else 3)
    seen(in_words(heard))
    assert heard.taps_kept == heard.taps
    evenly_and_together(heard)
    if thorough:
        digit = sorted(heard.after_digit_ms)
        assert share(digit, 5) >= -20
        assert share(digit, 95) <= 45


@pytest.mark.real_time
@pytest.mark.usefixtures("in_the_table")
@CAN_BE_RECORDED
@pytest.mark.parametrize("player", PLAYERS)
def test_a_player_killed_or_hanging_and_a_device_gone_cost_the_class_a_notice_and_nothing_else(
    player: str, club: WatchedClub, *, thorough: bool
) -> None:
    if not thorough:
        pytest.skip("takes its time: python -m tests.faults tries it")
    with silent_room(player) as room:
        terminal = club.begins("5:00", speed=1, **way_to(room))
        club.waits_until(0, terminal)
        first = player_of(terminal)
        os.kill(first, KILL)
        club.calls("n", "Noor", terminal)
        terminal.waits_for(lambda: player_of(terminal) not in (0, first), "another player")
        second = player_of(terminal)
        os.kill(second, STOP)
        club.calls("b", "Bram", terminal)
        terminal.waits_for(lambda: player_of(terminal) not in (0, second), "a third player")
        terminal.passes(4)
    terminal.says("the sound is gone", within=30)
    at = club.moment()
    club.calls("i", "Ilse", terminal)
    assert 0 <= club.tapped()[-1]["at"] - at < 50
    assert club.names_tapped() == ["Noor", "Bram", "Ilse"]


def listened_to(club: WatchedClub, player: str, steps: int, *, busy: bool, tries: int) -> Heard:
    """A run of the piece; another program's burst is no fault of the class's, so tried again."""
    for _ in range(tries):
        with silent_room(player) as room:
            heard = ListenedTo(club, room, busy=busy, steps=steps).run()
        if share(sorted(heard.spacing_ms), 99) < 5:
            break
    return heard


def player_of(terminal: Terminal) -> int:
    """The sound player that this program runs now; 0 if there is none."""
    children = Path(f"/proc/{terminal._child.pid}/task").glob("*/children")
    for child in (int(one) for each in children for one in each.read_text("ascii").split()):
        with suppress(OSError):
            if b"classclock.sound.player" in Path(f"/proc/{child}/cmdline").read_bytes():
                return child
    return 0


def in_words(heard: Heard) -> str:
    spacing, digit = sorted(heard.spacing_ms), sorted(heard.after_digit_ms)
    due = sorted(heard.after_due_ms)
    return (
        f"{heard.cues} cues, {heard.missed} not heard; spacing off by {share(spacing, 50):.2f} ms "
        f"(median), {share(spacing, 99):.2f} (p99), {spacing[-1]:.2f} (worst); after the moment "
        f"{due[0]:.1f} to {due[-1]:.1f} ms; after the digit {share(digit, 50):.1f} ms (median), "
        f"{share(digit, 5):.1f} to {share(digit, 95):.1f} (p5 to p95), {digit[0]:.1f} to "
        f"{digit[-1]:.1f} in all; {heard.taps_kept} of {heard.taps} taps, "
        f"typed {heard.behind_ms:.0f} ms late at most"
    )


def evenly_and_together(heard: Heard) -> None:
    """As even as the aim is; together as far as nobody notices, for most cues."""
    spacing, digit = sorted(heard.spacing_ms), sorted(heard.after_digit_ms)
    assert heard.missed == 0
    assert share(spacing, 50) < 1
    assert share(spacing, 99) < 5
    assert -20 <= share(digit, 50) <= 45


def share(ordered: list[float], percent: int) -> float:
    """The least value that so many percent of these are at or below (nearest rank)."""
    return ordered[max(0, -(-len(ordered) * percent // 100) - 1)]
