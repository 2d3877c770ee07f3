"""What was noted in the class that runs: the record doesn't hold it, its journal does."""

from classclock.live.session import Session
from classclock.tally.events import Noted


class NotedSoFar:
    def __init__(self, session: Session) -> None:
        self._session = session
        self._read = 0
        self._notes: tuple[Noted, ...] = ()

    def notes(self) -> tuple[Noted, ...]:
        """All of them, the newest last."""
        journal = self._session.journal
        if journal.number != self._read:
            new = journal.events[self._read :]
            self._notes += tuple(event for event in new if isinstance(event, Noted))
            self._read += len(new)
        return self._notes
