"""No key waits for a look through all that a class has loaded; after the class it is given back."""

import asyncio
import gc
from typing import Any

import pytest

from classclock.machine.collecting import all_again, little_and_often


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What is asked of Python, in its order; it isn't done, as a whole run holds much else."""
    asked: list[str] = []
    for name in ("freeze", "unfreeze"):
        monkeypatch.setattr(
            f"classclock.machine.collecting.gc.{name}", lambda n=name: asked.append(n)
        )
    return asked


async def test_what_a_class_has_loaded_is_left_alone_while_it_is_open_and_no_longer(
    open_class: Any, asked: list[str]
) -> None:
    async with open_class() as coach:
        async with asyncio.timeout(10):  # until a thread has read what the club remembers
            while not asked:
                await coach.pilot.pause()
        assert set(asked) == {"freeze"}
    assert asked[-1] == "unfreeze"


def test_what_is_left_alone_is_looked_at_again() -> None:
    limits = gc.get_threshold()
    try:
        little_and_often()
        assert gc.get_freeze_count() > 10_000
        all_again()
        assert gc.get_freeze_count() == 0
    finally:
        gc.set_threshold(*limits)
