"""What stands on the screen of a class, for its tests."""

from typing import Any

from classclock.screens.live.class_views import ClassViews
from classclock.screens.live.wall.wall_view import WallView


def view(coach: Any) -> str | None:
    """Which view is shown: board, wall, settle or summary."""
    current: str | None = coach.screen.query_one(ClassViews).current
    return current


def content(coach: Any) -> Any:
    """What the wall says beside its lanes."""
    return coach.screen.query_one(WallView).content


def tallies(coach: Any) -> dict[str, str]:
    """Everybody's tally, by name."""
    return {lane.name: lane.tally for lane in coach.screen.query_one(WallView).lanes}
