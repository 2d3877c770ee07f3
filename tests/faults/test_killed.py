"""A class that is cut off: nothing shown is lost, nothing counts twice, the clock is right."""

import random
from pathlib import Path

import pytest

from classclock.book.files.journal import read_journal
from classclock.live.replaying import replayed
from tests.faults.conftest import Machine, Seen, Times, WatchedClub
from tests.faults.killed import KilledClass


@pytest.mark.real_time
def test_killed_at_any_moment_every_tap_that_was_shown_is_there_once_and_the_clock_is_right(
    club: WatchedClub, times: Times, seen: Seen
) -> None:
    kills = times(3, 200)
    found = KilledClass(club, random.Random(26)).run(kills)  # noqa: S311  a sample, no secret
    off, taken = sorted(found.off_ms), sorted(found.taken_ms)
    seen(
        f"{found.before_the_wall} kills while rejoining; {found.typed} taps typed, "
        f"{found.shown} were shown, {len(found.lost)} lost, {len(found.doubled)} twice; "
        f"clock off by {off[0]:.1f} to {off[-1]:.1f} ms in {len(off)} looks, a key's moment "
        f"{taken[len(taken) // 2]:.1f} ms after it was typed ({taken[-1]:.0f} at worst), the "
        f"digits right {max(found.clock_ms):.0f} ms after the first paint at the latest"
    )
    assert found.lost == []
    assert found.doubled == []
    assert off[0] >= -1
    assert off[-1] < 5
    assert taken[-1] < 50


@pytest.fixture
def journal(machine: Machine) -> Path:
    """The journal of a class in which much happened, as a killed process leaves it."""
    coach = machine.opens("Ilse", "Bram", "Noor", "Saoirse")
    coach.type("<down>")
    coach.start()
    for keys in ("n", "5b", "7+i", "s", "-s", "-<backspace>", ">ni", ":b1", ".s", "<space>") * 4:
        coach.wind(9)
        coach.type(keys)
    coach.session.close()
    return coach.session.journal.path


def test_cut_at_any_byte_of_its_last_2_kb_the_journal_gives_all_that_was_whole_and_goes_on(
    journal: Path, machine: Machine, times: Times, seen: Seen
) -> None:
    whole, complete = journal.read_bytes(), read_journal(journal)
    cuts = range(len(whole) - 2048, len(whole) + 1)
    step = len(cuts) // times(64, len(cuts))
    torn = 0
    for cut in cuts[::step]:
        journal.write_bytes(whole[:cut])
        session = machine.rejoins(journal)
        kept = whole[:cut].count(b"\n") - 1  # the first line is no event
        assert session.journal.number == kept
        session.key("n", 0.0)
        record = session.live.record
        session.close()
        again = read_journal(journal)
        assert not again.torn
        assert again.events[:kept] == complete.events[:kept]
        assert replayed(again) == record
        torn += whole[cut - 1 : cut] != b"\n"
    seen(f"{torn} tore a line; every whole line was there, and the class went on")


def test_the_end_of_the_journal_lost_in_a_power_cut_and_full_of_nothing_is_left_out(
    journal: Path, machine: Machine
) -> None:
    # Some file systems keep a file's new length and lose what was in it: it reads as NUL bytes.
    whole = journal.read_bytes()
    lines = whole.splitlines(keepends=True)
    journal.write_bytes(b"".join(lines[:-3]) + bytes(len(b"".join(lines[-3:]))))
    session = machine.rejoins(journal)
    assert session.journal.number == len(lines) - 1 - 3
    session.close()
    assert not read_journal(journal).torn
