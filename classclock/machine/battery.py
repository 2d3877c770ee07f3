"""Whether the laptop's battery runs low. Linux says so in a folder; elsewhere nothing is known."""

from collections.abc import Callable
from pathlib import Path

SUPPLIES = Path("/sys/class/power_supply")
LOW = 20
"""Percent."""
_BETWEEN = 30_000
"""Milliseconds of real time between two readings."""


def low_battery(supplies: Path = SUPPLIES) -> str:
    """What to say of a battery that runs low and isn't being charged; empty when all is well."""
    for supply in sorted(supplies.glob("*")):
        percent = _read(supply / "capacity")
        if _read(supply / "type") != "Battery" or _read(supply / "scope") == "Device":
            continue
        if percent.isdecimal() and int(percent) <= LOW and _read(supply / "status") != "Charging":
            return f"plug the laptop in: battery at {percent} %"
    return ""


class Battery:
    """The laptop's battery, read now and then."""

    def __init__(self, read: Callable[[], str] = low_battery) -> None:
        self._read, self._read_at = read, -_BETWEEN
        self.low = ""
        """That it ran low when it was last read, in words."""

    def look(self, real: int) -> None:
        """At this moment of real time (ms): read it, if it is time."""
        if real - self._read_at >= _BETWEEN:
            self._read_at = real
            self.low = self._read()


def _read(path: Path) -> str:
    try:
        return path.read_text(encoding="ascii").strip()
    except (OSError, UnicodeDecodeError):
        return ""
