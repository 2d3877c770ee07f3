"""Standing troubles of a running class, and what is tried again because of them."""

from collections.abc import Callable

from classclock.live.session import Session
from classclock.machine.battery import low_battery
from classclock.screens.live.saver import Saver

_RETRY = 5_000
_SOUND = 12_000
_BATTERY = 30_000
"""Milliseconds of real time between two looks."""


class Standing:
    def __init__(
        self, session: Session, saver: Saver, battery: Callable[[], str] = low_battery
    ) -> None:
        self._session, self._saver, self._read_battery = session, saver, battery
        self._battery, self._battery_at = "", -_BATTERY
        self._tried_at = 0
        self._sound, self._sound_at = "", 0

    def troubles(self) -> tuple[str, ...]:
        """In the coach's words, the weightiest first."""
        files = self._session.troubles()
        check = "check the clock: left, right set it by a second, enter when it is right"
        return (
            *((check,) if self._session.check_clock else ()),
            *files,
            *(("F8 saves in another place",) if files else ()),
            *((self._battery,) if self._battery else ()),
            *((self._sound,) if self._sound else ()),
        )

    def sound(self, text: str, real: int) -> None:
        """Say something of the sound for a while; it must not push out what a tap was answered."""
        self._sound, self._sound_at = text, real

    def look_again(self, real: int) -> None:
        """See that the files are there and write what they lack; read the battery now and then."""
        if real - self._sound_at >= _SOUND:
            self._sound = ""
        if real - self._battery_at >= _BATTERY:
            self._battery, self._battery_at = self._read_battery(), real
        if real - self._tried_at >= _RETRY:
            self._tried_at = real
            self._session.journal.try_again()
            if self._session.results.unsaved:
                self._saver.ask()
