"""One start of the machine told from another, on each system as far as it can be told."""

import ctypes
import datetime as dt
import time
import uuid
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.machine import boot, clocks
from classclock.machine.boot import SLACK, boot_id, same_boot
from tests.machine.elsewhere import as_on, module_of

SESSION = "7A1C0F5E-5B39-4E0B-9C0E-0D8E6B1F2A34"
STARTED = dt.datetime(2026, 11, 30, 6, 12, 4, tzinfo=dt.UTC)
STARTS = st.datetimes(timezones=st.just(dt.UTC))


def named(start: dt.datetime) -> str:
    return f"since {start.isoformat(timespec='milliseconds')}"


def test_linux_names_each_start_and_so_does_the_journal() -> None:
    """random(4): boot_id is "a random string of the form 6fd5a44b-…", made once at boot."""
    assert uuid.UUID(boot_id())
    assert boot_id() == boot_id()


def test_macos_names_each_start(monkeypatch: pytest.MonkeyPatch) -> None:
    def sysctlbyname(name: bytes, into: Any, size: Any, *_: object) -> int:
        assert name == b"kern.bootsessionuuid"
        into.value = SESSION.encode()
        return 0

    assert macos(monkeypatch, sysctlbyname).boot_id() == SESSION


def test_macos_that_doesn_t_say_goes_by_when_it_was(monkeypatch: pytest.MonkeyPatch) -> None:
    module = macos(monkeypatch, lambda *_: -1)
    assert module.boot_id().startswith("since 2")


def macos(patch: pytest.MonkeyPatch, sysctlbyname: Any) -> Any:
    library = SimpleNamespace(sysctlbyname=sysctlbyname)
    stand_in = module_of("ctypes", **{**vars(ctypes), "CDLL": lambda _: library})
    return as_on("darwin", boot.__name__, patch, ctypes=stand_in)


def windows(patch: pytest.MonkeyPatch, *, now: dt.datetime, up: dt.timedelta) -> str:
    """The name of the start at that time of day, with the machine up for so long."""
    with patch.context() as there:
        there.setattr(time, "time_ns", lambda: round(now.timestamp() * 1000) * 1_000_000)
        there.setattr(clocks, "raw_clock", lambda: up // dt.timedelta(microseconds=1) * 1000)
        return str(as_on("win32", boot.__name__, there).boot_id())


def test_windows_tells_a_start_by_when_it_was(monkeypatch: pytest.MonkeyPatch) -> None:
    up = dt.timedelta(hours=3, milliseconds=250)
    name = windows(monkeypatch, now=STARTED + up, up=up)
    assert name == named(STARTED)
    drift = dt.timedelta(seconds=2)
    later = windows(monkeypatch, now=STARTED + 5 * up + drift, up=5 * up)
    assert later != name
    assert same_boot(later, name)


def test_a_time_of_day_that_was_set_is_taken_for_another_start(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """What can't be told there: the class then asks the coach to check the clock."""
    up = dt.timedelta(hours=3)
    before = windows(monkeypatch, now=STARTED + up, up=up)
    after = windows(monkeypatch, now=STARTED + up + dt.timedelta(minutes=1), up=up)
    assert not same_boot(before, after)


def test_where_linux_says_nothing_it_goes_by_when_it_was(monkeypatch: pytest.MonkeyPatch) -> None:
    def unreadable(*_: object, **__: object) -> str:
        raise FileNotFoundError

    monkeypatch.setattr(Path, "read_text", unreadable)
    assert boot_id().startswith("since 2")
    assert same_boot(boot_id(), boot_id())


@given(STARTS, st.timedeltas(-SLACK, SLACK))
def test_starts_as_near_as_two_clocks_drift_are_one(
    start: dt.datetime, apart: dt.timedelta
) -> None:
    try:
        other = start + apart
    except OverflowError:
        return
    # the names are cut to milliseconds
    if abs(apart) <= SLACK - dt.timedelta(milliseconds=1):
        assert same_boot(named(start), named(other))


@given(STARTS, STARTS)
def test_starts_further_apart_are_two(one: dt.datetime, other: dt.datetime) -> None:
    if abs(one - other) > SLACK + dt.timedelta(milliseconds=1):
        assert not same_boot(named(one), named(other))


@given(st.text(), st.text())
def test_names_that_say_nothing_are_the_same_only_if_they_are_equal(one: str, other: str) -> None:
    assert same_boot(one, other) == (one == other)


@pytest.mark.parametrize("broken", ["since", "since ", "since yesterday", "since 2026-11-30", ""])
def test_a_broken_name_is_another_start(broken: str) -> None:
    assert not same_boot(broken, named(STARTED))
    assert not same_boot(named(STARTED), broken)
