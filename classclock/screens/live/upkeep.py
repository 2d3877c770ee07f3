"""What neither a key nor the clock brings: what lapses, the loudspeaker, the disk, the battery."""

from classclock.live.session import Session
from classclock.machine.awake import Awake
from classclock.machine.battery import Battery
from classclock.screens.live.work_in_thread import WorkInThread
from classclock.sound.messages import SoundNotice
from classclock.wall.notices.class_notices import ClassNotices

EVERY = 0.5
"""Seconds between two looks."""
_TRY_FILES = 5_000
"""Milliseconds of real time between two tries."""


class Upkeep:
    def __init__(
        self,
        session: Session,
        notices: ClassNotices,
        battery: Battery,
        awake: Awake | None,
        *,
        saving: WorkInThread[bool],
        sparing: WorkInThread[None],
    ) -> None:
        self._session, self._notices = session, notices
        self._saving, self._sparing = saving, sparing
        self._battery, self._awake = battery, awake
        self._tried_at = 0

    def look(self) -> None:
        """Look after all of it, and say what there is to say."""
        real = self._notices.real()
        self._notices.aside(self._session.desk.lapse(real))
        for said in self._session.speaker.poll():
            if isinstance(said, SoundNotice):
                self._notices.must(said.text)
            else:
                self._notices.aside("a sound was left out: too late")
        if self._awake is not None:
            self._notices.must(self._awake.poll())
        self._battery.look(real)
        if real - self._tried_at >= _TRY_FILES:
            self._tried_at = real
            self._session.journal.try_again()
            if self._session.results.unsaved:
                self._saving.ask()
            if self._session.spare.short or self._session.spare.given_up:
                self._sparing.ask()
