"""What is being typed into a plan: a field's value, or a new station, with what it may mean."""

from typing import Literal

from msgspec import Struct

from classclock.plan.editing.parts import Place
from classclock.plan.keys import KEYS
from classclock.plan.movements.library import Library
from classclock.plan.movements.proposals import propose
from classclock.screens.controls.typed_line import TypedLine

Purpose = Literal["field", "station", "amount"]
_MOST = 8


class PlanEntry(Struct):
    """Where enter puts it: a field's value, a new station, or the amount of the newest one."""

    purpose: Purpose
    place: Place
    key: str
    line: TypedLine
    at: int = 0
    """Which of the proposals is highlighted."""

    def sign(self, sign: str, library: Library) -> bool:
        """One key but enter and escape; whether it means anything here."""
        proposals = self.proposals(library)
        if sign in ("<up>", "<down>") and proposals:
            self.at = (self.at + (1 if sign == "<down>" else -1)) % len(proposals)
            return True
        if sign == "<tab>" and proposals:
            self.line = TypedLine(proposals[self.at], len(proposals[self.at]))
        elif not self.line.sign(sign):
            return False
        self.at = 0
        return True

    def proposals(self, library: Library) -> tuple[str, ...]:
        """What is typed may mean one of these; last it stands as it is."""
        typed = self.line.text.strip()
        if self.key == "movement":
            meant = propose(typed, library, _MOST)
        else:
            known = KEYS.get(self.key)
            yes = ("yes", "no") if known and known.takes == "true or false" else ()
            listed = known.choices if known and known.choices else yes
            meant = tuple(one for one in listed if self.line.fresh or one.startswith(typed.lower()))
        return tuple(dict.fromkeys((*meant, *((typed,) if typed and meant else ()))))

    def value(self, library: Library) -> str:
        """What enter takes: the proposal that is highlighted, or what is typed."""
        proposals = self.proposals(library)
        if not proposals or not self.line.text.strip() or (self.line.fresh and not self.at):
            return self.line.text.strip()
        return proposals[min(self.at, len(proposals) - 1)]


def entry_for(purpose: Purpose, place: Place, key: str, text: str = "") -> PlanEntry:
    """An entry that begins with this text, to be typed over."""
    return PlanEntry(purpose, place, key, TypedLine(text, len(text), fresh=bool(text)))
