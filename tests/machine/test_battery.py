"""The laptop's battery, as Linux tells of it in a folder."""

from pathlib import Path

import pytest

from classclock.machine.battery import Battery, low_battery


@pytest.mark.parametrize(
    ("percent", "status", "said"),
    [
        ("14", "Discharging", "plug the laptop in: battery at 14 %"),
        ("14", "Charging", ""),
        ("80", "Discharging", ""),
    ],
)
def test_a_low_battery_is_said_unless_it_is_being_charged(
    tmp_path: Path, percent: str, status: str, said: str
) -> None:
    battery = tmp_path / "BAT0"
    battery.mkdir()
    for name, text in (("type", "Battery"), ("capacity", percent), ("status", status)):
        (battery / name).write_text(f"{text}\n")
    assert low_battery(tmp_path) == said


def test_a_mouse_s_battery_is_not_the_laptop_s(tmp_path: Path) -> None:
    mouse = tmp_path / "hid"
    mouse.mkdir()
    for name, text in (("type", "Battery"), ("scope", "Device"), ("capacity", "3")):
        (mouse / name).write_text(text)
    assert low_battery(tmp_path) == ""


def test_a_machine_without_a_battery_says_nothing(tmp_path: Path) -> None:
    assert low_battery(tmp_path / "nothing") == ""


def test_it_is_read_at_once_and_then_twice_a_minute() -> None:
    readings: list[str] = []

    def read() -> str:
        readings.append(f"battery at {20 - len(readings)} %")
        return readings[-1]

    battery = Battery(read)
    assert battery.low == ""
    for real in range(0, 60_500, 500):
        battery.look(real)
    assert len(readings) == 3
    assert battery.low == "battery at 18 %"
