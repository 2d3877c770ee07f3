"""What stands for words where there is no room: one table, no sign twice, each in every font."""

import ast
from pathlib import Path

import pytest

import classclock
from classclock.plan.formats.counting import CountsBy
from classclock.screens.canvas.letters import dot_letters, low_letters, outline_type
from classclock.screens.canvas.letters.mosaic import HALVES, QUADRANTS
from classclock.tally.keys.key_help import SIGN_LINES, key_help
from classclock.tally.keys.lone_keys import KeyPhase
from classclock.tally.signs import DOUBTS, GOAL_MARK, SIGNS, Sign, signed, told_by

ROOT = Path(classclock.__file__).parent
EVERY = list(SIGNS.values())
README = ROOT.parent / "README.md"


def test_no_sign_stands_for_two_things_and_no_word_does() -> None:
    assert len({one.sign for one in EVERY}) == len(EVERY)
    assert len({one.word for one in EVERY}) == len(EVERY)


@pytest.mark.parametrize("one", EVERY, ids=lambda one: one.word)
def test_a_sign_is_one_sign_of_ascii_and_nobodys_key_or_number(one: Sign) -> None:
    assert len(one.sign) == 1
    assert one.sign.isascii()
    assert one.sign.isprintable()
    assert not one.sign.isalnum()
    assert not one.sign.isspace()


@pytest.mark.parametrize("one", EVERY, ids=lambda one: one.word)
def test_a_sign_can_be_drawn_in_every_way_to_draw_letters(one: Sign) -> None:
    assert dot_letters.can_draw(one.sign)
    for mosaic in (HALVES, QUADRANTS):
        assert low_letters.can_draw(one.sign, mosaic)
    assert outline_type.can_draw(one.sign)


def test_what_the_results_say_tells_which_doubt_it_is() -> None:
    for doubt in DOUBTS:
        if SIGNS[doubt].flag:
            assert told_by(f"round 5 {SIGNS[doubt].flag}") == doubt
    assert told_by("Piet has finished: -p takes it back") == "less"
    assert signed("fast", "round 5") == '" round 5'


def test_the_readme_has_each_sign_with_its_word_and_what_it_says() -> None:
    rows = [f"| `{one.sign}` | {one.word} | {one.meaning} |" for one in EVERY]
    assert "\n".join(rows) in README.read_text("utf-8")


def test_the_help_has_each_sign_once() -> None:
    signs = [*(one.sign for one in EVERY), GOAL_MARK]
    assert sorted(line.keys for line in SIGN_LINES) == sorted(signs)


@pytest.mark.parametrize(
    ("counts_by", "phase", "shown"),
    [
        ("rounds", "running", f'?"~<_{GOAL_MARK}'),
        ("rounds", "over", '?"~<%#)'),
        ("load", "board", "^&"),
        ("nothing", "running", ""),
    ],
)
def test_the_help_has_those_that_can_be_seen(
    counts_by: CountsBy, phase: KeyPhase, shown: str
) -> None:
    lines = key_help(counts_by, phase, SIGN_LINES)
    assert {line.keys for line in lines} == set(shown)


def test_what_is_drawn_takes_its_signs_from_the_table() -> None:
    signs = {one.sign for one in EVERY} - {")", "_"}  # which stand in many a text
    files = {*ROOT.glob("wall/**/*.py"), *ROOT.glob("screens/live/**/*.py")}
    files -= {*ROOT.glob("screens/live/**/*_desk.py")}  # there they are keys
    files -= {ROOT / "wall" / "on_disk_words.py"}  # ~ is a folder there
    files -= {ROOT / "wall" / "colours" / "mixing.py"}  # # begins a colour there
    own = [
        (path.name, node.value)
        for path in files
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Constant) and node.value in signs
    ]
    assert own == []
