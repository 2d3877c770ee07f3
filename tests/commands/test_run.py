"""`run`, as it is typed."""

import pytest

from tests.commands.typed import Typed


@pytest.mark.parametrize("names", ["Ilse, Bram, Ilse", "Ilse,ilse", "Zo\u00eb, Zoe\u0308"])
def test_two_people_of_one_name_differ_before_the_start(names: str, typed: Typed) -> None:
    said = typed("run", "turntable", "--athletes", names)
    assert said.status == 2
    assert "is there twice: give one an initial" in said.err


@pytest.mark.parametrize("speed", ["0", "1001", "fast"])
def test_a_speed_is_a_number_of_times(speed: str, typed: Typed) -> None:
    said = typed("run", "turntable", "--speed", speed)
    assert said.status == 2
    assert "write a whole number from 1 to 1000" in said.err


@pytest.mark.parametrize("nobody", ["", " ", " , "])
@pytest.mark.parametrize("command", [("run",), ("rehearse", "--taps", "taps.csv")])
def test_a_class_of_nobody_is_refused_in_words(
    typed: Typed, command: tuple[str, ...], nobody: str
) -> None:
    said = typed(*command, "turntable", "--athletes", nobody)
    assert said.status == 2
    assert f'"{nobody}" names nobody: write who it is, with commas between' in said.err
