"""What all tests share."""

import pytest


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Whatever runs the program in a real terminal has the machine to itself, like real sound."""
    for item in items:
        if "club" in getattr(item, "fixturenames", ()) and item.path.parent.name in (
            "faults",
            "terminal",
        ):
            item.add_marker(pytest.mark.real_time)
