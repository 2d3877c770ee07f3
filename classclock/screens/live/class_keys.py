"""The keys that only a class's screen knows; `screen_keys.py` has them in words."""

from classclock.screens.live import class_actions
from classclock.screens.live.board.board_keys import BoardKeys
from classclock.screens.live.class_answers import ClassAnswers
from classclock.screens.live.sound_keys import SoundKeys


class ClassKeys:
    def __init__(self, screen: ClassAnswers, sound: SoundKeys, board: BoardKeys) -> None:
        self._screen, self._sound, self._board = screen, sound, board

    def press(self, sign: str, *, selected: str | None) -> bool:
        """Carry out a sign; whether it is one of these. `selected` is a lane's id."""
        screen, session = self._screen, self._screen.session
        if session.check_clock and sign in ("<left>", "<right>", "<enter>"):
            screen.came(class_actions.check_clock(session, sign))
            return True
        said = self._answer(sign, selected)
        if said is not None:
            screen.say(said)
        return said is not None

    def _answer(self, sign: str, selected: str | None) -> str | None:
        """What is to be said of it; None for a sign that is none of these."""
        session, over = self._screen.session, self._screen.over
        match sign:
            case "<f7>":
                return over.show_flags()
            case "<f8>" if session.troubles():
                over.place.ask()
                return ""
            case "<f8>":
                return "everything is being saved"
            case "<f9>":
                return over.ask_correction(selected)
            case "<ctrl+t>":
                return over.show_sharing()
        taught = self._board.press(sign)
        if taught is not None:
            return taught
        runs = session.live.phase in ("count-in", "running", "held")
        return self._sound.press(sign, clock_runs=runs)
