"""What is kept is what would be worked out now, is bounded, and lets go of what it forgets."""

import ast
from functools import lru_cache
from pathlib import Path
from weakref import ref

import pytest
from hypothesis import given
from hypothesis import strategies as st

import classclock
from classclock.units.kept import Same

PACKAGE = Path(classclock.__file__).parent


class Record:
    """Large, equal to others by what it says, and not to be hashed."""

    def __init__(self, said: int) -> None:
        self.said = said

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Record) and other.said == self.said

    __hash__ = None  # type: ignore[assignment]


asked = st.lists(st.tuples(st.integers(0, 5), st.integers(0, 2)), max_size=60)


@given(asked, st.integers(1, 6))
def test_it_is_worked_out_anew_only_for_what_was_not_among_the_latest(
    calls: list[tuple[int, int]], bound: int
) -> None:
    records = [Record(0) for _ in range(6)]  # all say the same
    worked_out: list[Record] = []

    @lru_cache(maxsize=bound)
    def work_out(record: Same[Record], at: int) -> tuple[Record, int]:
        worked_out.append(record.it)
        return record.it, at

    latest: list[tuple[int, int]] = []  # the newest last
    expected = 0
    for which, at in calls:
        record, said = work_out(Same(records[which]), at)
        assert record is records[which]
        assert said == at
        expected += (which, at) not in latest
        latest = [*(one for one in latest if one != (which, at)), (which, at)][-bound:]
        assert len(worked_out) == expected
        assert work_out.cache_info().currsize == len(latest)


@given(st.integers(1, 5), st.integers(1, 30))
def test_what_is_forgotten_is_given_back_and_what_is_kept_is_held(bound: int, records: int) -> None:
    @lru_cache(maxsize=bound)
    def work_out(record: Same[Record]) -> int:
        return record.it.said

    made = []
    for said in range(records):
        one = Record(said)
        made.append(ref(one))
        # Were it not held, the next one could have its place in memory, and its value.
        assert work_out(Same(one)) == said
        del one
    alive = [one.said for one in (look() for look in made) if one is not None]
    assert alive == list(range(max(0, records - bound), records))


@given(st.integers(), st.integers())
def test_a_thing_is_the_same_as_itself_alone(one: int, other: int) -> None:
    first, second = Record(one), Record(other)
    assert Same(first) == Same(first)
    assert hash(Same(first)) == hash(Same(first))
    assert Same(first) != Same(second)
    assert Same(first) != first


def _unbounded(tree: ast.Module) -> list[int]:
    """Lines on which something that takes arguments is kept without a bound."""
    lines = []
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef):
            kept = [ast.unparse(one) for one in node.decorator_list]
            takes = ast.unparse(node.args)
            if takes and any(one in ("cache", "functools.cache") for one in kept):
                lines.append(node.lineno)
        if isinstance(node, ast.Name | ast.Attribute) and ast.unparse(node).endswith("lru_cache"):
            called = _call_of(node, tree)
            if called is None or not any(
                word.arg == "maxsize" and ast.unparse(word.value) != "None"
                for word in called.keywords
            ):
                lines.append(node.lineno)
    return lines


def _call_of(node: ast.expr, tree: ast.Module) -> ast.Call | None:
    calls = (one for one in ast.walk(tree) if isinstance(one, ast.Call))
    return next((one for one in calls if one.func is node), None)


@pytest.mark.parametrize(
    ("written", "lines"),
    [
        ("@cache\ndef font(size): ...", [2]),
        ("@cache\ndef font(): ...", []),
        ("@lru_cache\ndef font(size): ...", [1]),
        ("@lru_cache(maxsize=None)\ndef font(size): ...", [1]),
        ("@lru_cache(maxsize=4)\ndef font(size): ...", []),
        ("kept = functools.lru_cache(maxsize=1)(font)", []),
        ("kept = functools.lru_cache()(font)", [1]),
    ],
)
def test_a_keeper_without_a_bound_is_seen(written: str, lines: list[int]) -> None:
    assert _unbounded(ast.parse(written)) == lines


def test_nothing_that_takes_arguments_is_kept_without_a_bound() -> None:
    found = {
        str(path.relative_to(PACKAGE)): lines
        for path in PACKAGE.rglob("*.py")
        if (lines := _unbounded(ast.parse(path.read_text("utf-8"))))
    }
    assert found == {}
