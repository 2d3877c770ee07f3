"""The notices of one class: what is said, by whom ever, comes together here."""

from collections.abc import Callable

from classclock.clock.source import TimeSource, stamp_now
from classclock.tally.record import Phase
from classclock.wall.notices.notice import Notice
from classclock.wall.notices.notice_log import NoticeLog
from classclock.wall.notices.turns import Parts, Shown, Turns


class ClassNotices:
    def __init__(self, source: TimeSource, phase: Callable[[], Phase]) -> None:
        self._source, self._phase = source, phase
        self._was = phase()
        self._turns = Turns()
        self.log = NoticeLog()

    def say(self, notice: Notice) -> None:
        """Say this, if it is anything."""
        self._follow_class()
        if notice.text:
            self._turns = self._turns.said(notice, self.real())
            self.log.said(notice, self._source.wall())

    def must(self, text: str, *shorter: str) -> None:
        """Say what has to be read."""
        self.say(Notice(text, "must", shorter))

    def refuse(self, text: str, sign: str = "") -> None:
        """Say why a key came to nothing; once this sign comes to something it is answered."""
        self.say(Notice(text, "refusal", answered_by=(sign,) if sign else ()))

    def answer(self, text: str) -> None:
        """Say what a key came to."""
        self.say(Notice(text, "answer"))

    def aside(self, text: str) -> None:
        self.say(Notice(text, "aside"))

    def stand(self, troubles: tuple[Notice, ...]) -> None:
        """This is what is wrong now."""
        if troubles != self._turns.standing:
            self._turns = self._turns.stand(troubles)
            self.log.stand(troubles, self._source.wall())

    def struck(self, sign: str) -> None:
        self._turns = self._turns.struck(sign)

    def shown(self, parts: Parts) -> Shown:
        """What is to stand in the row now."""
        self._follow_class()
        real = self.real()
        self._turns = self._turns.at(real, parts)
        return self._turns.shown(real, parts)

    def _follow_class(self) -> None:
        """Scores are shown where the class has come to: what was said of a tap is done with."""
        now = self._phase()
        if now != self._was and now in ("over", "closed"):
            self._turns = self._turns.on_another_screen()
        self._was = now

    def real(self) -> int:
        """This moment of real time (ms)."""
        return self._source.stroke_ms(stamp_now())
