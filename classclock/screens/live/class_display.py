"""What is seen of a class: the view for its phase, and the foot under it."""

from classclock.live.session import Session
from classclock.machine.battery import Battery
from classclock.screens.canvas.look import Look
from classclock.screens.live.class_guide import ClassGuide
from classclock.screens.live.class_views import ClassViews
from classclock.screens.live.foot.foot import Foot
from classclock.screens.live.own_or_wall import OwnScreen
from classclock.wall.cue_words import CueStanding
from classclock.wall.notices.class_notices import ClassNotices
from classclock.wall.notices.troubles import troubles_of


class ClassDisplay:
    def __init__(
        self, session: Session, notices: ClassNotices, battery: Battery, look: Look
    ) -> None:
        self._session, self._notices, self._battery = session, notices, battery
        self._look = look
        self.own = OwnScreen(mirrored=session.club.tv.mirrored)
        self.guide = ClassGuide(
            session,
            lambda: self.views.started.pages,
            lambda: self.views.started.page_shown,
            lambda: self.views.board_pages,
        )
        self.views = ClassViews(session, look, self.guide, mirrored=session.club.tv.mirrored)
        self.foot = Foot(session, notices, look)
        self._cue = CueStanding()

    async def load(self) -> None:
        """Make what isn't there at the first paint."""
        from classclock.screens.live.coach.coach_beside import CoachSide  # noqa: PLC0415  the board comes first

        await self.views.load()
        started = self.views.started.content
        await self.views.add_coach(CoachSide(self._session, self._look, self.guide, started))

    def cue(self, word: str) -> None:
        """From now on, for a while, show the word of a cue that has come; none: as before."""
        self._cue.come(word, self._notices.real())

    def show(self) -> None:
        """Show the class as it stands now; only what changed is painted."""
        self.views.for_the_coach = self.own.on
        self.views.show(self._cue.word(self._notices.real()))
        self.show_foot()

    def show_foot(self) -> None:
        """Only the foot, as between two ticks of the clock."""
        self._notices.stand(troubles_of(self._session, battery=self._battery.low))
        self.foot.show()
