"""Faults in how the file is written, which TOML itself can't read."""

import os
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from classclock.club.plan_files import read_plan
from classclock.plan.findings import Finding
from classclock.plan.reading.plan_reading import LARGEST, parse_plan

FindingsIn = Callable[[str], tuple[Finding, ...]]

WALK = '[[segment]]\nname = "Walk"\nformat = "countdown"\ntime = "8:00"\n'

# Each is put on line 6, below a whole segment.
LINES = {
    "time = 16:00": ("16:00 has no quotes", 'Write time = "16:00"'),
    "count_in = 1:30:00": ("1:30:00 has no quotes", 'Write count_in = "1:30:00"'),
    "lift = front squat": ("front squat has no quotes", 'Write lift = "front squat"'),
    "load = 22.5 kg # each": ("22.5 kg has no quotes", 'Write load = "22.5 kg"'),
    "teams = 2 people": ("2 people is not a whole number", "Write teams = 2"),
    "teams = 02": ("can't begin with 0", "Write teams = 2"),
    "separate = True": ("capital", "Write separate = true"),
    'lift: "row"': ('":" in place of "="', 'Write lift = "row"'),
    'lift "row"': ('"=" is missing', 'Write lift = "row"'),
    "lift =": ("has no value", 'Write lift = "front squat"'),
    'lift = "row': ("closing quote", 'Write lift = "row"'),
    "lift = \u201crow\u201d": ("curly quotes", 'Write straight ones: lift = "row"'),
    "cues = { step = false, }": ("a comma before }", "Write cues = { step = false }"),
    'lines = ["a" "b"]': ("can't be read", "quotes, commas and brackets"),
    'lift = "\\q"': ("can't be read", "Write key = value"),
    'lift = "a\x07b"': ("can't be typed", "Type the line again"),
    "teams = 2 separate = true": ("can't be read", "Write key = value"),
    "[[segment.station]": ("isn't closed", "Write [[segment.station]]"),
    "[segment.station]": ("one pair of brackets", "Write [[segment.station]]"),
    'name = "Run"': ('"name" stands here a second time', "Keep one of the two"),
    "warm up first": ("can't be read", 'put "#" before a remark'),
    "teams = 9999-99-99": ("not a whole number", "Write teams = 2"),
    "= 4": ("can't be read", "Write key = value"),
    f"lift = {'[' * 3000}": ("", ""),
    f'lift = "{"a" * 5000}"': ("thousands of characters", "several lines"),
}


@pytest.mark.parametrize("line", LINES)
def test_a_line_that_cant_be_read_is_named_with_what_to_write(
    line: str, findings_in: FindingsIn
) -> None:
    what, instead = LINES[line]
    found = findings_in(f'title = "Depot"\n{WALK}{line}\n')
    assert len({one.line for one in found}) == 1, [str(one) for one in found]
    assert found[0].line == 6
    assert what in found[0].what
    assert instead in found[0].instead


def test_reading_goes_on_after_a_fault_in_the_writing(findings_in: FindingsIn) -> None:
    text = f"""title = Depot
[[segment]
name = "Turntable"
format = rounds-in-time
time = 16:00
lins = "easy"
[[segment.station]]
movement = "step-up
reps = "six"
lines = [
  "a",
[[segment]]
name = "Sandbox"
format = "countdown"
tim = 5
{WALK}"""
    assert [(one.line, one.segment) for one in findings_in(text)] == [
        (1, None),
        (2, "Turntable"),
        (4, "Turntable"),
        (5, "Turntable"),
        (6, "Turntable"),
        (8, "Turntable"),
        (9, "Turntable"),
        (10, "Turntable"),
        (10, "Turntable"),
        (15, "Sandbox"),
    ]


def test_a_table_in_braces_over_several_lines_is_one_fault(findings_in: FindingsIn) -> None:
    text = f'title = "Depot"\n{WALK}cues = {{\n  step = false,\n  end = false,\n}}\nteams = 1\n'
    assert [one.line for one in findings_in(text)] == [6, 10]


@pytest.mark.parametrize("within", ["step = 0:20,", 'step = "yes,', "half way = true,"])
def test_such_a_table_is_one_fault_even_where_there_are_more_in_it(
    within: str, findings_in: FindingsIn
) -> None:
    # Written on one line as it is told, it is read again, and what is left in it told then.
    text = f'title = "Depot"\n{WALK}cues = {{\n  {within}\n  end = false,\n}}\nteams = 1\n'
    assert [one.line for one in findings_in(text)] == [6, 10]


@pytest.mark.parametrize("quotes", ["'", "'''"])
def test_a_text_that_is_never_closed_is_told_on_its_own_line_alone(
    quotes: str, findings_in: FindingsIn
) -> None:
    (finding,) = findings_in(f"title = {quotes}Depot\n{WALK}")
    assert (finding.line, finding.what) == (1, "this line can't be read")


def test_two_times_without_quotes_in_one_line_are_two_faults(findings_in: FindingsIn) -> None:
    steps = "steps = [{ work = 2:00 }, { rest = 1:00 }]"
    head = 'title = "Depot"\n[[segment]]\nname = "Row"\nformat = "interval"\nrepeat = 4\n'
    instead = [one.instead for one in findings_in(f"{head}{steps}\n")]
    assert instead == ['Write work = "2:00"', 'Write rest = "1:00"']


def test_single_brackets_throughout_are_told_once_each(findings_in: FindingsIn) -> None:
    text = 'title = "Depot"\n' + WALK.replace("[[", "[").replace("]]", "]") * 2
    assert [(one.line, one.instead) for one in findings_in(text)] == [
        (2, "Write [[segment]]"),
        (6, "Write [[segment]]"),
    ]


def test_a_single_bracket_is_told_however_far_down_it_stands(findings_in: FindingsIn) -> None:
    walk = WALK.replace("[[segment]]", "[segment]")
    text = 'title = "Depot"\n' + "# a remark\n" * 200 + walk * 2
    assert [(one.line, one.instead) for one in findings_in(text)] == [
        (202, "Write [[segment]]"),
        (206, "Write [[segment]]"),
    ]


def test_hundreds_of_faults_end_with_a_word(findings_in: FindingsIn) -> None:
    found = findings_in("what is this\n\n" * 200)
    assert 50 <= len(found) <= 60
    assert found[-1].what == "too many faults to go on"


def test_a_text_that_isnt_utf_8_is_named_by_its_lines() -> None:
    data = b'title = "D\xe9p\xf4t"\n' + WALK.encode() + b'lift = "\xe9"\n'
    plan, findings = parse_plan(data, "depot.toml")
    assert plan is None
    assert [one.line for one in findings] == [1, 6]
    assert all(one.instead == "Save the file as UTF-8" for one in findings)
    utf_16 = parse_plan(f'title = "Depot"\n{WALK}'.encode("utf-16"), "depot.toml")[1]
    assert [one.what for one in utf_16] == ["this file is saved as UTF-16"]


def test_a_byte_order_mark_and_other_line_ends_are_fine() -> None:
    text = f'\ufefftitle = "Dépôt"\n{WALK}'.replace("\n", "\r\n")
    plan, findings = parse_plan(text.encode(), "depot.toml")
    assert findings == ()
    assert plan is not None
    assert plan.title == "Dépôt"


def test_what_is_not_a_plan_file_is_refused_in_one_sentence(tmp_path: Path) -> None:
    for path in (tmp_path, tmp_path / "none.toml", "a\0b", "a" * 5000, tmp_path / "none" / "x"):
        plan, findings = read_plan(path)
        assert plan is None
        assert len(findings) == 1
        assert findings[0].line == 0


def test_a_file_that_may_not_be_read_is_refused(tmp_path: Path) -> None:
    if sys.platform == "win32" or os.geteuid() == 0:
        pytest.skip("root may read everything, and so may everybody on Windows")
    file = tmp_path / "locked.toml"
    file.write_text("")
    file.chmod(0)
    (finding,) = read_plan(file)[1]
    assert "may not be read" in finding.what


@pytest.mark.parametrize("size", [LARGEST + 1, 2_000_000, 20_000_000])
def test_a_file_too_large_for_a_plan_is_refused_at_once(size: int, tmp_path: Path) -> None:
    file = tmp_path / "large.toml"
    file.write_bytes(b"# " * (size // 2 + 1))
    (finding,) = read_plan(file)[1]
    assert "too large" in finding.what


# Built to be slow or to exhaust the stack; process time, because other work shares the machine.
@pytest.mark.parametrize(
    "text",
    [
        "a = " + "[" * 200_000,
        "a = " + "{a=" * 60_000,
        "a = " + "[\n" * 100_000,
        "a." * 100_000 + "a = 1",
        ("a." * 1_900 + "a = 1\n") * 60,
        "a = 0x" + "f" * 3_900,
        "a = 1" + "0" * 3_900,
        "a = 1" + "0" * 200_000,
        'load = "' + "9" * 3_000 + '"',
        "[[segment]]\n" * 15_000,
        "[[segment]]\nload = { " + "a." * 1_500 + "a = 1 }",
        '"""' * 50_000,
        "x\n" * 100_000,
        "=\n\n" * 60_000,
    ],
    ids=range(14),
)
def test_a_hostile_file_is_answered_within_a_second_of_work(
    text: str, findings_in: FindingsIn
) -> None:
    before = time.process_time()
    found = findings_in(text)
    assert found
    assert all(str(one) for one in found)
    assert time.process_time() - before < 1
