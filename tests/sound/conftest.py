"""What the tests of the sound share."""

import importlib.util
import threading
from collections.abc import Callable
from types import ModuleType

import pytest

from classclock.machine.bundled import bundled
from classclock.sound.waves import Waves, read_waves

Until = Callable[[Callable[[], bool]], None]


@pytest.fixture(scope="session")
def make_sounds() -> ModuleType:
    """The script beside the sounds, with its table."""
    spec = importlib.util.spec_from_file_location(
        "make_sounds", bundled("sounds") / "make_sounds.py"
    )
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="session")
def waves() -> Waves:
    return read_waves(bundled("sounds"))


@pytest.fixture(scope="session")
def until() -> Until:
    """Wait for what another process or thread is about to do; ten seconds, then it has failed."""
    pause = threading.Event()

    def wait(happened: Callable[[], bool]) -> None:
        for _ in range(1000):
            if happened():
                return
            pause.wait(0.01)
        pytest.fail("it hasn't happened within ten seconds")

    return wait
