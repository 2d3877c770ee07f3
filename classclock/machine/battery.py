"""Whether the laptop's battery runs low. Linux says so in a folder; elsewhere nothing is known."""

from pathlib import Path

SUPPLIES = Path("/sys/class/power_supply")
LOW = 20
"""Percent."""


def low_battery(supplies: Path = SUPPLIES) -> str:
    """What to say of a battery that runs low and isn't being charged; empty when all is well."""
    for supply in sorted(supplies.glob("*")):
        percent = _read(supply / "capacity")
        if _read(supply / "type") != "Battery" or _read(supply / "scope") == "Device":
            continue
        if percent.isdecimal() and int(percent) <= LOW and _read(supply / "status") != "Charging":
            return f"battery at {percent} %: plug the laptop in"
    return ""


def _read(path: Path) -> str:
    try:
        return path.read_text(encoding="ascii").strip()
    except (OSError, UnicodeDecodeError):
        return ""
