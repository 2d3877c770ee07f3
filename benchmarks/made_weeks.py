"""A made club's last weeks: plans, journals as far as their opening, results. All invented."""

import datetime as dt
import json
import random
from pathlib import Path

from benchmarks.made_club import made_class
from classclock.book.files.event_lines import event_line
from classclock.book.files.journal import Anchor
from classclock.machine.bundled import bundled
from classclock.tally.events import ClassOpened

A_DAY, PLANS_A_DAY = 7, 2


def write_weeks(folder: Path, today: dt.date, *, days: int, plans: int) -> None:
    """Seven classes a day by two plans, on the days until this one; and so many plan files.

    Of the plan files every hundredth has a date in the days to come.
    """
    chance = random.Random(1)  # noqa: S311  a sample, no secret
    samples = [path.read_text("utf-8") for path in sorted(bundled("plans").glob("*.toml"))]
    for name in ("journals", "results", "plans"):
        (folder / name).mkdir(parents=True, exist_ok=True)
    for back in range(days):
        day = today - dt.timedelta(days=back)
        texts = [
            chance.choice(samples).replace('title = "', f'title = "{day} {one}: ', 1)
            for one in range(PLANS_A_DAY)
        ]
        for number in range(A_DAY):
            _write_class(folder, day, 8 + 2 * number, chance.choice(texts), chance)
    for number in range(plans):
        text = chance.choice(samples)
        day = today + dt.timedelta(days=number // 100 % 7 if number % 100 == 0 else -number)
        lines = text.split("\n")
        at = next(place for place, line in enumerate(lines) if line.startswith("title"))
        lines[at] = f'title = "Plan {number}"\ndate = {day}'
        (folder / "plans" / f"plan-{number:04}.toml").write_text("\n".join(lines), "utf-8")


def _write_class(folder: Path, day: dt.date, hour: int, text: str, chance: random.Random) -> None:
    wall = f"{day}T{hour:02}:00:00.000+01:00"
    stem = f"{day}-{hour:02}00-made"
    opening = event_line(ClassOpened(0, "made", text, "kg", (), None), 0, wall)
    (folder / "journals" / f"{stem}.jsonl").write_bytes(Anchor("boot", 0, 0, wall).line() + opening)
    document = made_class(0, chance)
    document |= {"started": wall, "journal": f"{stem}.jsonl"}
    (folder / "results" / f"{stem}.json").write_text(
        json.dumps(document, ensure_ascii=False, indent=1), "utf-8"
    )
