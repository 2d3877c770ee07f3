"""All that was said in a class, each with its time of day."""

from collections.abc import Iterable
from datetime import datetime

from msgspec import Struct
from msgspec.structs import replace

from classclock.wall.notices.notice import Notice


class Logged(Struct, frozen=True):
    notice: Notice
    at: datetime
    until: datetime | None = None
    """When it was put right."""

    @property
    def wrong(self) -> bool:
        """Whether it stands for as long as something is wrong, and that still is."""
        return bool(self.notice.key) and self.until is None


class NoticeLog:
    def __init__(self) -> None:
        self._logged: list[Logged] = []
        self._standing: dict[str, int] = {}
        """What is wrong now, by its key: where it stands in the list."""

    def newest_first(self) -> tuple[Logged, ...]:
        return tuple(reversed(self._logged))

    def said(self, notice: Notice, at: datetime) -> None:
        """The same again at once is one line: a key that is held down fills no list."""
        if self._logged and self._logged[-1].notice == notice:
            self._logged[-1] = replace(self._logged[-1], at=at)
        else:
            self._logged.append(Logged(notice, at))

    def stand(self, troubles: Iterable[Notice], at: datetime) -> None:
        """From now on this is what is wrong."""
        now = {one.key: one for one in troubles}
        for key in self._standing.keys() - now.keys():
            place = self._standing.pop(key)
            self._logged[place] = replace(self._logged[place], until=at)
        for key, notice in now.items():
            place = self._standing.setdefault(key, len(self._logged))
            if place == len(self._logged):
                self._logged.append(Logged(notice, at))
            elif self._logged[place].notice != notice:
                self._logged[place] = replace(self._logged[place], notice=notice)
