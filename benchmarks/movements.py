"""Movements proposed while one is typed, and a folder of plans checked against them."""

import tomllib
from contextlib import redirect_stderr, redirect_stdout
from io import StringIO
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from benchmarks.figure import Figure
from classclock.clock.source import MS, raw_now
from classclock.commands.command_line import main
from classclock.machine.bundled import bundled
from classclock.plan.movements.library import Library, Movement
from classclock.plan.movements.proposals import propose
from classclock.plan.movements.starter_library import starter_library

_MOVEMENTS = 2000
_PLANS = 2000
_TYPED = "kettlebell swing"


def proposing() -> Figure:
    """The slowest keystroke of a name, in a library of 2,000 that is used for the first time."""
    starter = starter_library().movements
    many = [
        Movement.model_validate({**one.model_dump(), "name": f"{one.name} {number}", "aliases": ()})
        for number in range(_MOVEMENTS // len(starter) + 1)
        for one in starter
    ]
    library = Library(many[:_MOVEMENTS])
    took = []
    for letters in range(1, len(_TYPED) + 1):
        before = raw_now()
        assert propose(_TYPED[:letters], library)
        took.append((raw_now() - before) / MS)
    return Figure("propose from 2,000 movements, slowest key", max(took), "ms", most=16)


def checking() -> Figure:
    """Check a folder of 2,000 plans, every eighth with a hint; beside it, their TOML read alone."""
    samples = sorted(bundled("plans").glob("*.toml"))
    with TemporaryDirectory() as named:
        folder = Path(named)
        for number in range(_PLANS):
            text = samples[number % len(samples)].read_text("utf-8")
            if number % 8 == 0:
                text = text.replace("  standard", "# standard")
                text = text.replace('movement = "', 'movement = "odd ', 1)
            (folder / f"{number:04}.toml").write_text(text, "utf-8")
        said = StringIO()
        before = raw_now()
        with redirect_stdout(said), redirect_stderr(said):
            main(["check", named, "--club", named])
        took = (raw_now() - before) / MS / 1000
        assert said.getvalue().count("hint: ") == _PLANS // 8
        floors = []
        for _ in range(3):
            before = raw_now()
            for path in folder.iterdir():
                tomllib.loads(path.read_text("utf-8"))
            floors.append((raw_now() - before) / MS / 1000)
    return Figure("check 2,000 plans", took, "s", median(floors), most=10)
