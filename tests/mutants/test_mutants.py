"""The faults themselves: what is put in, what is left alone, and that a tree is left as it was."""

import shutil
from pathlib import Path

import pytest

from tests.mutants.finding import is_another_program, mutants
from tests.mutants.judged import judged, stale
from tests.mutants.trying import Copy, FailsAnywayError

ROOT = Path(__file__).parent.parent.parent


def made(source: str) -> set[str]:
    """Every program that a mutant makes of this one."""
    found = mutants("classclock/units/x.py", source.encode())
    return {one.applied.decode() for one in found if is_another_program(one)}


@pytest.mark.parametrize(
    ("source", "others"),
    [
        ("a < b", {"a <= b", "a > b"}),
        ("a <= b", {"a < b", "a & b", "a >= b"}),
        ("a is not b", {"a is b"}),
        ("a not in b", {"a in b"}),
        ("a < b == c", {"a <= b == c", "a > b == c", "a < b != c"}),
        ("a and b", {"a or b"}),
        ("é + b", {"é - b"}),
        ("a // b", {"a / b"}),
        ("-a", {"a"}),
        ("not a", {"a"}),
        ("59", {"60", "58"}),
        ("True", {"False"}),
        ("a[b:c]", {"a[:c]", "a[b:]"}),
        ("max(a)", {"min(a)"}),
        ("a.startswith(b)", {"a.endswith(b)"}),
        ("[a for a in b if c]", {"[a for a in b if True]"}),
    ],
)
def test_what_is_put_in(source: str, others: set[str]) -> None:
    assert made(f"x = {source}") == {f"x = {other}" for other in others}


@pytest.mark.parametrize(
    ("source", "others"),
    [
        ("if a:\n    b = c", {"if not (a):\n    b = c"}),
        ("def f():\n    return a", {"def f():\n    return None"}),
        ("a()", {"pass"}),
        ("a += b", {"a -= b", "pass"}),
        ("for a in b:\n    continue", {"for a in b:\n    pass"}),
        ("raise a", {"pass"}),
    ],
)
def test_what_is_left_out_or_turned_round(source: str, others: set[str]) -> None:
    assert made(source) == others


@pytest.mark.parametrize(
    "source",
    [
        '"""Words, 1 of them."""',
        "a: int | None",
        "def f(a: Literal[1]) -> Literal[2]: ...",
        "@cache(1)\ndef f(): ...",
        "class A(B, frozen=True): ...",
        "a = f'{b + 1}'",
        "if TYPE_CHECKING:\n    a = 1",
        "a = zip(b, strict=True)",
        "assert_never(a)",
    ],
)
def test_what_changes_no_answer_is_left_alone(source: str) -> None:
    assert made(source) == set()


def test_a_mutant_says_its_lines_before_and_after() -> None:
    source = b"a = 1\nif (\n    b < c\n):\n    d = e\n"
    lines = {one.kind: (one.line, *one.lines) for one in mutants("x", source)}
    assert lines["comparison"] == (3, "b < c", "b > c")
    assert lines["condition"] == (3, "b < c", "not (b < c)")


@pytest.fixture
def tree(tmp_path: Path) -> Path:
    """A program of one room, and its one test."""
    tree = tmp_path / "tree"
    files = {
        "classclock/units/x.py": "def larger(a, b):\n    return a > b\n",
        "tests/units/test_x.py": (
            "from classclock.units.x import larger\n"
            "def test_it():\n"
            "    assert larger(2, 1) and not larger(1, 2)\n"
        ),
    }
    for name, text in files.items():
        (tree / name).parent.mkdir(parents=True)
        (tree / name).write_text(text)
    for package in ("classclock", "classclock/units"):
        (tree / package / "__init__.py").touch()
    (tree / "tests" / "mutants").mkdir()
    shutil.copy(ROOT / "tests" / "mutants" / "steady.py", tree / "tests" / "mutants")
    (tree / "pytest.ini").write_text("[pytest]\nmarkers = real_time\n")
    return tree


def test_a_fault_that_a_test_sees_is_killed_and_another_survives(
    tree: Path, tmp_path: Path
) -> None:
    source = (tree / "classclock/units/x.py").read_bytes()
    copy = Copy(tree, tmp_path / "copy")
    fates = {one.lines[1]: copy.fate(one) for one in mutants("classclock/units/x.py", source)}
    assert fates == {"return a >= b": "survived", "return a < b": "killed", "return None": "killed"}
    assert (copy.root / "classclock/units/x.py").read_bytes() == source
    assert (tree / "classclock/units/x.py").read_bytes() == source


def test_tests_that_fail_anyway_are_said(tree: Path, tmp_path: Path) -> None:
    source = (tree / "classclock/units/x.py").read_bytes()
    (tree / "classclock/units/x.py").write_text("def larger(a, b):\n    return a < b\n")
    with pytest.raises(FailsAnywayError, match="tests/units fails as it is"):
        Copy(tree, tmp_path / "copy").fate(mutants("classclock/units/x.py", source)[0])


def test_whoever_judged_a_survivor_says_why() -> None:
    for one in judged():
        assert one.before.strip() != one.after.strip()
        assert one.why.strip()
        assert (ROOT / one.file).exists(), f"{one.file} is gone, and what was judged in it with it"


def test_what_was_judged_of_a_line_that_is_gone_is_told(tree: Path) -> None:
    assert stale(tree) == list(judged()), "it has none of the program's own files"
