"""No key waits for a look through all that a class has loaded; after the class it is given back."""

import asyncio
import gc
from typing import Any


async def test_what_a_class_has_loaded_is_left_alone_while_it_is_open_and_no_longer(
    open_class: Any,
) -> None:
    gc.unfreeze()
    async with open_class() as coach:
        async with asyncio.timeout(10):  # until a thread has read what the club remembers
            while not gc.get_freeze_count():
                await coach.pilot.pause()
        assert gc.get_freeze_count() > 10_000
    assert gc.get_freeze_count() == 0
