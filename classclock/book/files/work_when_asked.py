"""Work in a thread of its own, done as often as it is asked for: nobody waits for a slow disk."""

import threading
from collections.abc import Callable

from classclock.clock.source import stamp_now


class WorkWhenAsked:
    """`work` sees for itself what there is to do, and raises nothing."""

    def __init__(self, work: Callable[[], None]) -> None:
        self._work = work
        self._changed = threading.Condition()
        self._asked = self._done = 0
        self._begun: float | None = None
        self._ending = False
        self._thread: threading.Thread | None = None

    def ask(self) -> None:
        """Have it done once more, beginning after this."""
        with self._changed:
            self._asked += 1
            self._changed.notify_all()
            if self._thread is None and not self._ending:
                self._thread = threading.Thread(target=self._run, daemon=True)
                self._thread.start()

    @property
    def takes(self) -> float:
        """For how many real seconds it has been at it now."""
        begun = self._begun
        return 0.0 if begun is None else stamp_now() - begun

    def wait(self, seconds: float) -> bool:
        """Wait until all that was asked for by now is done; whether it is within this time."""
        with self._changed:
            asked = self._asked
            return self._changed.wait_for(lambda: self._done >= asked, seconds)

    def end(self) -> None:
        """Do no more; what is being done may go on."""
        with self._changed:
            self._ending = True
            self._changed.notify_all()

    def _run(self) -> None:
        while True:
            with self._changed:
                self._changed.wait_for(lambda: self._ending or self._asked > self._done)
                if self._ending:
                    return
                asked, self._begun = self._asked, stamp_now()
            self._work()
            with self._changed:
                self._done, self._begun = asked, None
                self._changed.notify_all()
