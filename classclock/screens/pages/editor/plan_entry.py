"""What is being typed into a plan: a field's value, or a new station, with what it may mean."""

from typing import Literal

from msgspec import Struct

from classclock.drafts.plan_being_written import KeptDraft
from classclock.plan.editing.parts import PartPlace
from classclock.plan.keys import KEYS
from classclock.plan.movements.library import Library
from classclock.plan.movements.proposals import propose
from classclock.screens.controls.cursor import Cursor
from classclock.screens.controls.typed_line import TypedLine

Purpose = Literal["field", "station", "amount"]
_MOST = 8


class PlanEntry(Struct):
    """Where enter puts it: a field's value, a new station, or the amount of the newest one."""

    purpose: Purpose
    place: PartPlace
    key: str
    line: TypedLine
    cursor: Cursor
    """Which of the proposals is highlighted."""

    def sign(self, sign: str, library: Library) -> None:
        """One key but enter and escape."""
        proposals = self.proposals(library)
        if sign in ("<up>", "<down>") and proposals:
            self.cursor.round(1 if sign == "<down>" else -1, len(proposals))
            return
        lit = self.cursor.lit(proposals) if sign == "<tab>" else None
        if lit is not None:
            self.line = TypedLine.of(lit)
        elif not self.line.sign(sign):
            return
        self.cursor.at = 0

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
        typed = self.line.text.strip()
        lit = self.cursor.lit(self.proposals(library))
        untouched = self.line.fresh and not self.cursor.at
        return typed if lit is None or not typed or untouched else lit

    def keep_in(self, kept: KeptDraft) -> None:
        """Let a kept draft have what is half typed."""
        kept.place, kept.typed = self.place, self.line.text
        kept.key = self.key if self.purpose == "field" else self.purpose


def entry_for(purpose: Purpose, place: PartPlace, key: str, text: str = "") -> PlanEntry:
    """An entry that begins with this text, to be typed over."""
    return PlanEntry(purpose, place, key, TypedLine.of(text, fresh=bool(text)), Cursor())


def entry_kept(kept: KeptDraft) -> PlanEntry | None:
    """What was half typed when this draft was kept; None where nothing was."""
    if not kept.key:
        return None
    purposes: dict[str, Purpose] = {"station": "station", "amount": "amount"}
    key = "movement" if kept.key == "station" else kept.key
    purpose = purposes.get(kept.key, "field")
    return PlanEntry(purpose, kept.place, key, TypedLine.of(kept.typed), Cursor())
