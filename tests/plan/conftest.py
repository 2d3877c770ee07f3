"""What the tests of the plan share."""

from collections.abc import Callable

import pytest

from classclock.plan.findings import Finding
from classclock.plan.reading.plan_reading import parse_plan

FindingsIn = Callable[[str], tuple[Finding, ...]]
AsSegment = Callable[[str], str]


@pytest.fixture
def findings_in() -> FindingsIn:
    """All findings in a plan's text."""
    return lambda text: parse_plan(text, "depot.toml")[1]


@pytest.fixture
def as_plan() -> AsSegment:
    """Lines of one segment as a whole plan; its first line is line 4."""
    return lambda lines: f'title = "Depot"\n[[segment]]\nname = "Turntable"\n{lines}\n'
