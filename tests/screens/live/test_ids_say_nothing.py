"""Ids are for files: a screen, a message and what is written for people have names alone."""

from pathlib import Path
from typing import Any

from classclock.book.asking.people_reading import people_called

PAIRS = """
title = "Turntable Tuesday"
[[segment]]
name = "Turntable"
format = "rounds-in-time"
time = "2:00"
teams = 2
  [[segment.station]]
  movement = "box step-over"
  reps = 6
  options = ["lower box"]
[[segment]]
name = "Front squat"
format = "countdown"
time = "2:00"
score = "load"
lift = "front squat"
"""
NAMES = ("Ilse", "Bram", "Noor", "Мария")
KEYS = (
    "i",
    "b",
    "3",
    "i",
    "minus",
    "i",
    "minus",
    "backspace",
    "asterisk",
    "n",
    "n",
    "question_mark",
)


async def test_no_id_stands_on_the_screen_or_in_what_is_written_for_people(
    open_class: Any, tmp_path: Path
) -> None:
    people = people_called(NAMES, ())
    seen = []
    async with open_class(PAIRS, people=people) as coach:
        for segment in range(2):
            await coach.press("colon", "i", "1")
            seen.append(coach.seen())
            await coach.start()
            for key in KEYS:
                await coach.wind(3)
                await coach.press(key)
                seen.append(coach.seen())
            await coach.press("escape")
            await coach.wind(130)
            for keys in (("6", "0", "b"), ("full_stop", "n"), ("enter",), ("enter",)):
                await coach.wind(3)
                await coach.press(*keys)
                seen.append(coach.seen())
            if not segment:
                await coach.press("enter")
        assert coach.session.save()
        tables = [path for path in coach.session.results.saved if path.suffix == ".csv"]
    assert any("Bram" in screen for screen in seen)
    assert tables
    written = [path.read_text("utf-8") for path in tables]
    for one in people:
        assert not any(one.id in text for text in (*seen, *written, *paths_in(tmp_path)))


def paths_in(folder: Path) -> list[str]:
    return [str(path) for path in folder.rglob("*")]
