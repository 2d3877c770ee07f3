"""What the coach's keys have put on the screen, as the class tells it."""

from collections.abc import Hashable

from classclock.clock.source import stamp_now
from classclock.following.followed_class import FollowedClass
from classclock.wall.lesson_content import Lesson, lesson_taught
from classclock.wall.seen.page_turning import PageOn
from classclock.wall.seen.room_values import RoomView


class FollowedGuide:
    """What asks it for its own page gets the one that the class has told, whatever it is of."""

    def __init__(self, seen: FollowedClass) -> None:
        self._seen = seen
        self.room = RoomView()

    @property
    def selected(self) -> str | None:
        if not self.room.selected:
            return None
        lanes = self._seen.live.lineup()
        return next((lane.id for lane in lanes if lane.key == self.room.selected), None)

    @property
    def lesson(self) -> Lesson | None:
        return lesson_taught(self._seen.live, self.room.segment, self.room.lesson)

    def board_page(self) -> PageOn:
        return self.page("board")

    def page(self, what: Hashable, about: Hashable = None) -> PageOn:  # noqa: ARG002  see above
        return self.room.turns.on(self._seen.source.stroke_ms(stamp_now()))

    def saved(self) -> tuple[str, ...]:
        return self.room.saved
