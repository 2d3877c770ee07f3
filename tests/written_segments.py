"""Segments as a plan writes them, for all tests of the clock."""

from collections.abc import Callable
from typing import Any

import pytest
from pydantic import TypeAdapter

from classclock.plan.model import Segment

Write = Callable[..., Segment]


@pytest.fixture(scope="session")
def write() -> Write:
    """Write a segment of this format with these keys, as in a plan file."""
    read: TypeAdapter[Segment] = TypeAdapter(Segment)

    def segment(kind: str, **keys: Any) -> Segment:
        return read.validate_python({"name": "Headway", "format": kind, **keys})

    return segment
