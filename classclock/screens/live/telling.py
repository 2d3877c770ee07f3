"""What the room sees and no event says, told to whoever follows the class; no key waits for it."""

from pathlib import Path

from classclock.following.view_file import ToldView, ViewFile
from classclock.live.session import Session
from classclock.screens.live.work_in_thread import WorkInThread
from classclock.wall.seen.room_values import RoomView


class Telling:
    """Written when it changes, and again where that didn't work."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self._journal, self._where = session.journal.path, _where(session.journal.path)
        self._file = ViewFile(Path(self._where))
        self._told: ToldView | None = None
        self._writing = WorkInThread(self._write, self._written)

    async def run(self) -> None:
        await self._writing.run()

    def tell(self, room: RoomView) -> None:
        """This is what the room sees now."""
        if self._journal is not self._session.journal.path:
            self._journal = self._session.journal.path
            self._where = _where(self._journal)
        told = ToldView(self._where, room)
        if told != self._told:
            self._told = told
            self._writing.ask()

    async def finished(self) -> None:
        """Wait until all that was told is written."""
        await self._writing.finished()

    def over(self) -> None:
        """The class is left: nobody need wait for it."""
        self._file.take_away()

    def _write(self) -> bool:
        return self._told is None or self._file.write(self._told)

    def _written(self, worked: bool) -> None:  # noqa: FBT001  as `WorkInThread` hands it over
        if not worked:
            self._told = None


def _where(journal: Path) -> str:
    return str(journal.absolute())
