from textual import events

from classclock.clock.class_clock import ClassClock
from classclock.clock.source import MS, NEVER, MachineSource, WoundSource


def test_a_class_counts_from_the_moment_it_was_opened() -> None:
    source = WoundSource(start=77 * MS)
    clock = ClassClock(source, opened=source.now())
    assert clock.now() == 0
    source.jump(1500 * MS + MS - 1)
    assert clock.now() == 1500, "a millisecond counts when it is full"


def test_a_class_opened_before_the_machines_clock_began_still_counts() -> None:
    clock = ClassClock(WoundSource(start=0), opened=-90_000 * MS)
    assert clock.now() == 90_000


def test_a_wait_and_a_sound_are_for_the_moment_itself() -> None:
    source = MachineSource()
    clock = ClassClock(source, opened=source.now())
    moment = clock.now() + 60_000
    assert clock.raw(moment) == clock.opened + moment * MS
    assert 59 < clock.real_seconds(moment) <= 60
    assert clock.real_seconds(clock.now()) == 0
    by_hand = ClassClock(WoundSource(), opened=0)
    assert by_hand.raw(60_000) == NEVER


def test_a_tap_belongs_to_the_moment_its_key_arrived() -> None:
    source = MachineSource()
    clock = ClassClock(source, opened=source.now() - 60_000 * MS)
    stamp = events.Key("n", "n").time - 0.3
    assert clock.now() - 5_000 < clock.arrived(stamp) <= clock.now() - 300
