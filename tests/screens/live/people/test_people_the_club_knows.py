"""Who comes in between two pieces is found among those whom the club knows."""

from pathlib import Path
from threading import Event, current_thread, main_thread
from typing import Any

import pytest

from classclock.book.asking import people_reading
from classclock.live import session as session_module
from tests.screens.live.people.piece_and_lift import words

MOBILITY = """
title = "Mobility"
[[segment]]
name = "Mobility"
format = "countdown"
time = "8:00"
"""


async def test_who_came_before_is_found_by_part_of_a_name_with_what_they_used(
    open_class: Any, depot: Any
) -> None:
    lane = depot.reps("Saoirse", 40, options=["step-up"])
    depot.save(depot.document("2026-02-24", depot.piece("Turntable", "rounds-in-time", [lane])))
    async with open_class(folder=depot.folder) as coach:
        await coach.press("ctrl+p", "plus")
        assert "Saoirse" not in coach.seen(), "nobody's attendance is shown unasked"
        await coach.screen.work.naming.finished()
        await coach.press(*"sao")
        assert "Saoirse" in coach.seen()
        await coach.press("enter")
        saoirse = coach.live.record.people[-1]
        assert (saoirse.id, saoirse.name) == ("saoirse", "Saoirse")
        assert "step-up" in words(coach.seen())
        assert coach.live.record.choice("saoirse", 1).options == (2,)


async def test_a_name_that_is_read_while_it_is_typed_for_appears(
    open_class: Any, depot: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    lane = depot.reps("Saoirse", 40)
    depot.save(depot.document("2026-02-25", depot.piece("Rails", "rounds-in-time", [lane])))
    monkeypatch.setattr(session_module, "in_files", lambda _: ())
    async with open_class(MOBILITY, folder=depot.folder) as coach:
        may_read = Event()

        def read(folder: Path) -> Any:
            may_read.wait(10)
            return people_reading.remembered(folder)

        monkeypatch.setattr(session_module, "remembered", read)
        await coach.press("ctrl+p", "plus", *"sao")
        assert "Saoirse" not in coach.seen()
        await coach.press("enter")
        await coach.reads("enter once more takes")
        may_read.set()
        await coach.screen.work.naming.finished()
        await coach.pilot.pause()
        assert "Saoirse" in coach.seen()


async def test_the_club_s_names_are_read_in_a_thread_and_once(
    open_class: Any, depot: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    read: list[str] = []
    known = people_reading.remembered

    def noted(folder: Path) -> Any:
        read.append(current_thread().name)
        return known(folder)

    monkeypatch.setattr(session_module, "remembered", noted)
    monkeypatch.setattr(session_module, "known_for", lambda *_: pytest.fail("read in the loop"))
    async with open_class(MOBILITY, folder=depot.folder) as coach:
        await coach.screen.work.reading.finished()
        assert read == []
        for name in ("Late", "Later"):
            await coach.press("ctrl+p", "plus")
            await coach.screen.work.naming.finished()
            await coach.press(*name, "down", "down", "enter", "escape")
            await coach.wind(2)
        assert [person.name for person in coach.live.record.people[3:]] == ["Late", "Later"]
    assert len(read) == 1
    assert main_thread().name not in read
