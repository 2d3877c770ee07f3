"""The keys that only a class's screen knows; `screen_keys.py` has them in words."""

from classclock.live.live_class import Outcome
from classclock.live.session import Session
from classclock.screens.live.board.board_keys import BoardKeys
from classclock.screens.live.class_actions import check_clock
from classclock.screens.live.class_overlays import ClassOverlays
from classclock.screens.live.link_keys import LinkKeys
from classclock.screens.live.page_keys import PageKeys
from classclock.screens.live.sound_keys import SoundKeys


class ClassKeys:
    def __init__(
        self,
        session: Session,
        overlays: ClassOverlays,
        sound: SoundKeys,
        board: BoardKeys,
        pages: PageKeys,
        *,
        link: LinkKeys,
    ) -> None:
        self._session, self._overlays = session, overlays
        self._sound, self._board, self._pages = sound, board, pages
        self._link = link

    def press(self, sign: str, *, selected: str | None) -> Outcome | None:
        """What came of a sign; None for one that is none of these. `selected` is a lane's id."""
        session, overlays = self._session, self._overlays
        if (outcome := overlays.people.press(sign, session.club.keyboard.map)) is not None:
            return outcome
        if session.check_clock and sign in ("<left>", "<right>", "<enter>"):
            return check_clock(session, sign)
        match sign:
            case "<f7>":
                return overlays.show_flags()
            case "<f8>":
                return overlays.ask_place()
            case "<f9>":
                return overlays.ask_correction(selected)
            case "<ctrl+f>":
                return overlays.turn_fitting()
            case "<ctrl+g>":
                return overlays.ask_clock()
            case "<ctrl+t>":
                return overlays.show_sharing()
        runs = session.live.phase in ("count-in", "running", "held")
        pressed = self._link.press(sign) or self._board.press(sign) or self._pages.press(sign)
        return pressed or self._sound.press(sign, clock_runs=runs)
