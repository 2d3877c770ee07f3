"""What is on the screen beside what the class's events say: the coach's keys have it."""

from collections.abc import Hashable
from typing import Protocol

from classclock.wall.lesson_content import Lesson
from classclock.wall.seen.page_turning import PageOn


class Guide(Protocol):
    @property
    def selected(self) -> str | None:
        """The id of the lane that is selected."""
        ...

    @property
    def lesson(self) -> Lesson | None:
        """The movement that is taught; None: the plan is shown."""
        ...

    def board_page(self) -> PageOn:
        """Which page of the board is on."""
        ...

    def page(self, what: Hashable, about: Hashable = None) -> PageOn:
        """Which page of this is on; see `PageKeys.page`."""
        ...

    def saved(self) -> tuple[str, ...]:
        """The results files, where they tell every piece that is over as it stands now."""
        ...
