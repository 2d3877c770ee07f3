"""The coach's keys on a plan that is being written: what is in focus, what is typed."""

from typing import Literal

from classclock.drafts.plan_being_written import KeptDraft
from classclock.plan.editing import edits
from classclock.plan.editing.draft import Draft
from classclock.plan.editing.fields import Field, fields_of, typed_at
from classclock.plan.editing.parts import HEAD, Part
from classclock.plan.editing.starts import new_segment
from classclock.plan.model import FORMATS
from classclock.plan.movements.library import Library
from classclock.screens.pages.editor.plan_entry import PlanEntry, entry_for

Mode = Literal["list", "fields", "entry", "format", "leave", "changed", "draft"]
Wish = Literal["", "save", "overwrite", "save beside", "own editor", "leave", "drop"]
"""What the desk can't do by itself: files, another program, another screen."""

_INSTEAD = {"scheme": "rounds", "rounds": "scheme"}
"""Keys that say the same in two ways: the one that is typed takes the other's place."""


class PlanEditorDesk:
    def __init__(self, draft: Draft, library: Library, *, kept: KeptDraft | None = None) -> None:
        """`kept` is a draft of an earlier time, which is offered first."""
        self.draft, self.library = draft, library
        self.saved: str | None = draft.text
        """The text as it stands in the plan's file; None where there is no file yet."""
        self.kept = kept
        self.mode: Mode = "draft" if kept is not None else "list"
        self.entry: PlanEntry | None = None
        self.field_at = 0
        self.format_at = 0
        self.notice = ""

    # -- what there is to see --------------------------------------------------------

    @property
    def part(self) -> Part:
        return self.draft.reading.part(self.draft.place)

    @property
    def fields(self) -> tuple[Field, ...]:
        return fields_of(self.part)

    @property
    def unsaved(self) -> bool:
        """Whether leaving now would lose anything; what a new plan begins with can be had again."""
        if self.saved is None:
            return self.draft.changed
        return self.draft.text != self.saved

    def to_keep(self, at: str, data: bytes | None) -> KeptDraft | None:
        """What must not be lost; None where all of it is saved."""
        entry = self.entry
        if not self.unsaved and entry is None:
            return None
        kept = KeptDraft(self.draft.text, at, data, self.draft.place)
        if entry is not None:
            kept.place, kept.typed = entry.place, entry.line.text
            kept.key = entry.key if entry.purpose == "field" else entry.purpose
        return kept

    # -- keys ------------------------------------------------------------------------

    def sign(self, sign: str) -> Wish:
        """One key."""
        self.notice = ""
        match self.mode:
            case "draft" | "leave" | "changed":
                return self._answered(sign)
            case "entry":
                self._typed(sign)
            case "format":
                self._format(sign)
            case "fields" | "list":
                if sign in ("<ctrl+s>", "<ctrl+e>"):
                    return "save" if sign == "<ctrl+s>" else "own editor"
                if sign == "<ctrl+z>":
                    self._take_back()
                elif self.mode == "fields":
                    self._in_fields(sign)
                else:
                    return self._in_list(sign)
        if self.mode == "entry" and sign == "<ctrl+s>":
            self.notice = "enter takes what is typed, then ctrl+s saves"
        return ""

    def _answered(self, sign: str) -> Wish:
        if self.mode == "draft":
            return self._draft_answered(sign)
        mode, key = self.mode, sign.lower()
        if sign == "<escape>":
            self.mode = "list"
            return ""
        if mode == "changed" and key in ("o", "n"):
            self.mode = "list"
            return "overwrite" if key == "o" else "save beside"
        if mode == "leave" and key == "<ctrl+s>":
            self.mode = "list"
            return "save"
        if mode == "leave" and key in ("<enter>", "d"):
            return "drop" if key == "d" else "leave"
        return ""

    def _draft_answered(self, sign: str) -> Wish:
        if sign == "<escape>":
            return "leave"
        if sign.lower() in ("<enter>", "d"):
            self.mode = "list"
            if sign == "<enter>" and self.kept is not None:
                self._go_on(self.kept)
            self.kept = None
        return ""

    def _go_on(self, kept: KeptDraft) -> None:
        self.draft.change(kept.text)
        self.draft.go(kept.place)
        if not kept.key:
            return
        keys = {"station": "movement", "amount": "amount"}
        self.entry = entry_for("field", kept.place, keys.get(kept.key, kept.key), kept.typed)
        if kept.key in ("station", "amount"):
            self.entry.purpose = "station" if kept.key == "station" else "amount"
        self.entry.line.fresh = False
        self.mode = "entry"

    # -- the list of parts -------------------------------------------------------------

    def _in_list(self, sign: str) -> Wish:
        draft, place = self.draft, self.draft.place
        match sign:
            case "<up>" | "<down>":
                draft.step(1 if sign == "<down>" else -1)
            case "<home>" | "<end>":
                draft.go(HEAD if sign == "<home>" else (10_000, 10_000))
            case "<enter>" | "<right>":
                self.mode, self.field_at = "fields", 0
            case "<escape>":
                if not self.unsaved:
                    return "leave"
                self.mode = "leave"
            case "+":
                self.mode, self.format_at = "format", 0
            case "<backspace>":
                self._take_back()
            case "-" | "<delete>" | "=" | "[" | "]" | "<shift+up>" | "<shift+down>":
                if place == HEAD:
                    self.notice = "this is the plan itself: go down to a segment or a station"
                else:
                    self._arranged(sign)
            case _:
                self._new_station(sign)
        return ""

    def _arranged(self, sign: str) -> None:
        draft, place = self.draft, self.draft.place
        if sign in ("-", "<delete>"):
            draft.change(edits.remove(draft.text, place))
            self.notice = "removed: backspace brings it back"
        elif sign == "=":
            draft.change(*edits.duplicate(draft.text, place))
        else:
            by = -1 if sign in ("[", "<shift+up>") else 1
            if not draft.change(*edits.move(draft.text, place, by)):
                self.notice = "it can't go any further"

    def _take_back(self) -> None:
        if not self.draft.take_back():
            self.notice = "nothing is left to take back"

    def _new_station(self, sign: str) -> None:
        if len(sign) > 1 or not sign.isalnum():
            return
        if self.draft.place == HEAD:
            self.notice = "go down to a segment first: there letters add a station"
            return
        self.entry = entry_for("station", self.draft.place, "movement")
        self.mode = "entry"
        self._typed(sign)

    # -- the fields of a part ------------------------------------------------------------

    def _in_fields(self, sign: str) -> None:
        fields = self.fields
        self.field_at = min(self.field_at, len(fields) - 1)
        field = fields[self.field_at]
        if sign in ("<up>", "<down>", "<tab>"):
            by = -1 if sign == "<up>" else 1
            self.field_at = max(0, min(self.field_at + by, len(fields) - 1))
        elif sign in ("<escape>", "<left>"):
            self.mode = "list"
        elif sign == "<delete>":
            self._set(field.key, "")
        elif sign == "<backspace>":
            self._take_back()
        elif sign == "<enter>" or len(sign) == 1 or sign == "<space>":
            self.entry = entry_for("field", self.draft.place, field.key, field.typed)
            self.mode = "entry"
            if sign != "<enter>":
                self._typed(sign)

    def _set(self, key: str, typed: str) -> None:
        place = self.draft.place
        text = edits.set_typed(self.draft.text, place, key, typed)
        other = _INSTEAD.get(key)
        if typed and other and typed_at(self.part, other):
            text = edits.set_typed(text, place, other, "")
            self.notice = f"{key} instead of {other}: backspace brings it back"
        self.draft.change(text)

    # -- what is typed ---------------------------------------------------------------------

    def _typed(self, sign: str) -> None:
        entry = self.entry
        assert entry is not None  # noqa: S101  the mode says so
        if sign == "<enter>":
            self._taken(entry)
        elif sign == "<escape>":
            self.entry = None
            self.mode = "fields" if entry.purpose == "field" else "list"
        else:
            entry.sign(sign, self.library)

    def _taken(self, entry: PlanEntry) -> None:
        value = entry.value(self.library)
        self.entry = None
        if entry.purpose == "station":
            self.mode = "list"
            if value:
                self.draft.change(*edits.insert_station(self.draft.text, entry.place, value))
                self.entry = entry_for("amount", self.draft.place, "amount")
                self.mode = "entry"
            return
        before = typed_at(self.part, entry.key)
        if value != before:
            self._set(entry.key, value)
        if entry.purpose == "amount":
            self.mode = "list"
            return
        self.mode = "fields"
        self.field_at = min(self.field_at + 1, len(self.fields) - 1)

    # -- a new segment -----------------------------------------------------------------------

    def _format(self, sign: str) -> None:
        last = len(FORMATS) - 1
        if sign == "<escape>":
            self.mode = "list"
        elif sign in ("<up>", "<down>"):
            self.format_at = max(0, min(self.format_at + (1 if sign == "<down>" else -1), last))
        elif sign.isdecimal() and 1 <= int(sign) <= len(FORMATS):
            self._add_segment(int(sign) - 1)
        elif sign == "<enter>":
            self._add_segment(self.format_at)

    def _add_segment(self, number: int) -> None:
        parts = self.draft.reading.parts
        taken = frozenset(
            typed_at(part, "name").casefold() for part in parts if part.kind == "segment"
        )
        block = new_segment(tuple(FORMATS)[number], taken)
        self.draft.change(*edits.insert_segment(self.draft.text, self.draft.place[0], block))
        self.mode, self.field_at = "fields", 0


def begin_with_the_title(desk: PlanEditorDesk) -> None:
    """A new plan begins with its title, to be typed over."""
    if desk.mode == "list":
        desk.entry = entry_for("field", HEAD, "title", typed_at(desk.part, "title"))
        desk.mode = "entry"
