"""A made club: ten years of classes, written as results files are. All of it is invented."""

import json
import random
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path
from typing import Any

from tests.blank_results import LANE, PIECE

ATHLETES, BENCHMARKS, IN_A_CLASS, A_DAY = 300, 60, 20, 7
_LIFTS = ("front squat", "deadlift", "strict press")
_LIFTED_EACH = 5
"""Every fifth class lifts, the others count rounds."""
_FIRST = date(2016, 1, 4)
_OPTIONS = ("", "", "", "step-up", "lower box")


def write_classes(folder: Path, count: int, chance: random.Random) -> None:
    """`count` classes of twenty, seven a day, into the results folder of this club's folder."""
    results = folder / "results"
    results.mkdir(parents=True, exist_ok=True)
    for number in range(count):
        document = made_class(number, chance)
        name = document["journal"].removesuffix(".jsonl")
        text = json.dumps(document, ensure_ascii=False, indent=1)
        (results / f"{name}.json").write_text(text, "utf-8")


def made_class(number: int, chance: random.Random) -> dict[str, Any]:
    day = _FIRST + timedelta(days=number // A_DAY)
    hour = 8 + 2 * (number % A_DAY)
    here = chance.sample(range(ATHLETES), IN_A_CLASS)
    lifted = number % _LIFTED_EACH == _LIFTED_EACH - 1
    piece = _lifted(here, chance) if lifted else _counted(here, chance)
    return {
        "title": "A made class",
        "started": f"{day}T{hour:02}:00:00.000+01:00",
        "journal": f"{day}-{hour:02}00-made.jsonl",
        "people": [{"id": _id(one), "name": f"Athlete {one}", "key": "a"} for one in here],
        "pieces": [piece],
    }


def _counted(here: list[int], chance: random.Random) -> dict[str, Any]:
    lanes = list(_lanes(here, chance))
    benchmark = f"benchmark {chance.randrange(BENCHMARKS)}"
    named = {"name": benchmark.title(), "benchmark": benchmark}
    return {**PIECE, **named, "length_s": 960, "lanes": lanes}


def _lifted(here: list[int], chance: random.Random) -> dict[str, Any]:
    strength = {"name": "Strength", "format": "interval", "length_s": 750}
    lift = {"lift": chance.choice(_LIFTS), "sets": [5, 3, 1]}
    return {**PIECE, **strength, **lift, "lanes": list(_lifting_lanes(here, chance))}


def _id(athlete: int) -> str:
    return f"athlete-{athlete:03}"


def _lifting_lanes(here: list[int], chance: random.Random) -> Iterator[dict[str, Any]]:
    for rank, athlete in enumerate(here, start=1):
        first = 40 + 5 * chance.randrange(16)
        made = [first, first + 5, first + 10]
        yield {
            **_lane(athlete, rank),
            "score": f"{made[-1]} kg",
            "load_kg": made[-1],
            "attempts": [
                {"set": number, "load": f"{load} kg", "load_kg": load, "made": True}
                for number, load in enumerate(made, start=1)
            ],
        }


def _lanes(here: list[int], chance: random.Random) -> Iterator[dict[str, Any]]:
    for rank, athlete in enumerate(here, start=1):
        rounds, odd = chance.randint(5, 12), chance.randrange(27)
        option = chance.choice(_OPTIONS)
        yield {
            **_lane(athlete, rank),
            "score": f"{rounds}+{odd}",
            "rounds": rounds,
            "reps": odd,
            "total_reps": rounds * 27 + odd,
            "modification": option,
            "options": [option or None, None, None],
            "splits": [chance.randint(60, 110) for _ in range(rounds)],
            "loads": [chance.choice(("22.5 kg", "15 kg"))],
            "round_reps": [27] * rounds,
        }


def _lane(athlete: int, rank: int) -> dict[str, Any]:
    """What stands in every lane."""
    name = f"Athlete {athlete}"
    return {**LANE, "rank": rank, "athlete": name, "key": "a", "members": [_id(athlete)]}
