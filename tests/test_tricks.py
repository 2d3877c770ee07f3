"""Each trick is where its switch looks for it: one that misses measures nothing."""

import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchmarks.tricks.chosen import ALL, chosen
from benchmarks.tricks.inner_imports import inner_imports
from benchmarks.tricks.pairs import Pairs
from benchmarks.window import ROOT

SWITCHED_OFF = """
from importlib import import_module
from benchmarks.tricks.switches import SWITCHES
from benchmarks.tricks.without import CLOCK_EVENTS, note_late
for switch in SWITCHES.values():
    switch.do(import_module(switch.module) if switch.module else None)
note_late(import_module(CLOCK_EVENTS), [])
"""
IN_A_FUNCTION = """
import json
def read():
    import csv
    from rich.table import Table
"""


def test_what_is_switched_off_and_what_is_watched_is_there() -> None:
    ran = subprocess.run(
        [sys.executable, "-c", SWITCHED_OFF], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert (ran.returncode, ran.stderr) == (0, "")


def test_imports_within_functions_are_found(tmp_path: Path) -> None:
    package = tmp_path / "depot"
    package.mkdir()
    (package / "rails.py").write_text(IN_A_FUNCTION)
    assert inner_imports(package) == {"depot.rails": [("csv", ""), ("rich.table", "Table")]}


def test_tricks_are_chosen_by_words_in_their_names() -> None:
    modules, kept = ["book.asking", "live.session"], ["wall.a:b", "wall.c:d"]
    assert chosen([], [], []) == list(ALL)
    assert chosen(["resize"], [], []) == ["resize held"]
    assert chosen(["imports:each"], modules, []) == ["imports:book", "imports:live"]
    assert chosen(["kept:wall.a", "kept:each"], [], kept) == [
        "kept:wall.a",
        *("kept:wall.a:b", "kept:wall.c:d"),
    ]
    for word in ("resizing", "kept:screens", "imports:wall", "sound:each"):
        with pytest.raises(ValueError, match="no such trick"):
            chosen(["resize", word], modules, kept)


@given(st.lists(st.tuples(st.floats(1, 100), st.floats(1, 100)), min_size=30, max_size=30))
def test_thirty_differences_have_their_median_between_the_tenth_and_the_21st(
    measured: list[tuple[float, float]],
) -> None:
    # Conover, Practical Nonparametric Statistics (1999), 3.2: binomial 1/2, n = 30; from memory.
    pairs = Pairs([having for having, _ in measured], [lacking for _, lacking in measured])
    ordered = sorted(pairs.differences)
    assert pairs.interval == (ordered[9], ordered[20])
