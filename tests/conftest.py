"""What tests of several rooms ask for."""

import signal
from collections.abc import Callable, Iterator

import pytest
from hypothesis import settings

from classclock.units.loads import Load, parse_load

pytest_plugins = (
    "tests.books_on_each_storage",
    "tests.depot_classes",
    "tests.own_server",
    "tests.written_segments",
)

# A busy machine is no fault. The test command takes the first, as it is to stay under ten minutes.
settings.register_profile("quick", deadline=None, max_examples=30)
settings.register_profile("usual", deadline=None)
settings.load_profile("usual")


@pytest.fixture(scope="session")
def kg() -> Callable[[str], Load]:
    """A load as it is written, in a club of kilograms."""
    return lambda written: parse_load(written, "kg")


@pytest.fixture
def ctrl_c() -> Iterator[Callable[[], None]]:
    """Strikes it; the tests may have been begun where a shell has it ignored, behind an `&`."""
    usual = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield lambda: signal.raise_signal(signal.SIGINT)
    signal.signal(signal.SIGINT, usual)


@pytest.fixture(autouse=True)
def _little_spare_room(monkeypatch: pytest.MonkeyPatch) -> None:
    """Hundreds of classes keep a megabyte each, if nobody says otherwise."""
    monkeypatch.setattr("classclock.book.files.spare_room.ROOM", 16_384)
