"""What is needed on each system, by the markers; `python -m tests.wheels` asks for its wheels."""

import pytest

from tests.wheels import PYTHONS, SYSTEMS, System, needed


@pytest.fixture(params=SYSTEMS, ids=lambda system: system.name)
def system(request: pytest.FixtureRequest) -> System:
    found: System = request.param
    return found


@pytest.mark.parametrize("python", PYTHONS)
def test_what_we_name_and_what_that_names_is_needed_everywhere(system: System, python: str) -> None:
    names = set(needed(system, python))
    assert {"textual", "rich", "pydantic-core", "markupsafe", "psycopg-binary"} <= names
    assert not names & {"pytest", "mypy", "simpleaudio"}, "nobody who only uses it needs these"


def test_sound_is_left_out_where_it_would_want_a_compiler(system: System) -> None:
    assert ("miniaudio" in needed(system, "3.13")) == (system.name != "Linux, arm64")


def test_what_one_system_alone_needs_is_needed_there(system: System) -> None:
    """Windows has no table of time zones of its own, which the driver of PostgreSQL wants."""
    assert ("tzdata" in needed(system, "3.13")) == (system.sys_platform == "win32")
    assert ("filelock" in needed(system, "3.13")) == (system.sys_platform == "win32")
    assert ("jeepney" in needed(system, "3.13")) == (system.sys_platform == "linux")
