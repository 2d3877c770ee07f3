"""The coach's keys on a plan that is being written: what is in focus, what is typed."""

from typing import Literal

from classclock.drafts.plan_being_written import KeptDraft
from classclock.plan.editing import edits
from classclock.plan.editing.draft import Draft
from classclock.plan.editing.fields import Field, fields_of, typed_at
from classclock.plan.editing.parts import HEAD, Part
from classclock.plan.model import FORMATS
from classclock.plan.movements.library import Library
from classclock.screens.controls.cursor import Cursor
from classclock.screens.pages.editor.draft_changes import (
    ARRANGING,
    add_segment,
    arrange,
    set_value,
    take_back,
)
from classclock.screens.pages.editor.plan_entry import PlanEntry, entry_for, entry_kept

Mode = Literal["list", "fields", "entry", "format", "leave", "changed", "draft"]
Wish = Literal["", "save", "overwrite", "save beside", "own editor", "leave", "drop"]
"""What the desk can't do by itself: files, another program, another screen."""

_WISHES: dict[str, Wish] = {"<ctrl+s>": "save", "<ctrl+e>": "own editor"}
_ANSWERS: dict[str, dict[str, Wish]] = {
    "draft": {"<escape>": "leave"},
    "changed": {"o": "overwrite", "n": "save beside"},
    "leave": {"<ctrl+s>": "save", "<enter>": "leave", "d": "drop"},
}


class PlanEditorDesk:
    def __init__(
        self, draft: Draft, library: Library, *, file: str, kept: KeptDraft | None
    ) -> None:
        """`file` is what the plan's file is called, empty where it has none yet.

        `kept` is a draft of an earlier time, which is offered first.
        """
        self.draft, self.library = draft, library
        self.file = file
        self.saved: str | None = draft.text if file else None
        """The text as it stands in the plan's file; None where there is no file yet."""
        self.kept = kept
        self.mode: Mode = "draft" if kept is not None else "list"
        self.entry: PlanEntry | None = None
        self.field_at = Cursor()
        self.format_at = Cursor()
        self.notice = ""

    # -- what there is to see --------------------------------------------------------

    @property
    def part(self) -> Part:
        return self.draft.reading.part(self.draft.place)

    @property
    def fields(self) -> tuple[Field, ...]:
        return fields_of(self.part)

    @property
    def title(self) -> str:
        return typed_at(self.draft.reading.parts[0], "title")

    @property
    def unsaved(self) -> bool:
        """Whether leaving now would lose anything; what a new plan begins with can be had again."""
        if self.saved is None:
            return self.draft.changed
        return self.draft.text != self.saved

    def know_saved(self, file: str) -> None:
        """The text as it is now stands in this file."""
        self.file, self.saved = file, self.draft.text

    def to_keep(self, at: str, data: bytes | None) -> KeptDraft | None:
        """What must not be lost; None where all of it is saved."""
        if not self.unsaved and self.entry is None:
            return None
        kept = KeptDraft(self.draft.text, at, data, self.draft.place)
        if self.entry is not None:
            self.entry.keep_in(kept)
        return kept

    # -- keys ------------------------------------------------------------------------

    def sign(self, sign: str) -> Wish:
        """One key."""
        self.notice = ""
        if self.mode in _ANSWERS:
            return self._answered(sign)
        if self.entry is not None:
            self._typed(self.entry, sign)
        elif self.mode == "format":
            self._format(sign)
        elif sign in _WISHES:
            return _WISHES[sign]
        elif sign == "<ctrl+z>":
            self.notice = take_back(self.draft)
        elif self.mode == "fields":
            self._in_fields(sign)
        else:
            return self._in_list(sign)
        return ""

    def _answered(self, sign: str) -> Wish:
        key = sign.lower()
        wish = _ANSWERS[self.mode].get(key, "")
        if self.mode == "draft":
            if key in ("<enter>", "d"):
                self.mode = "list"
                self._begin(self.kept if key == "<enter>" else None)
        elif key == "<escape>" or wish not in ("", "leave", "drop"):
            self.mode = "list"
        return wish

    def _begin(self, kept: KeptDraft | None) -> None:
        """Go on with that draft, or with the plan as its file has it."""
        self.kept = None
        if kept is not None:
            self.draft.change(kept.text)
            self.draft.go(kept.place)
            self._open(entry_kept(kept))

    # -- the list of parts -------------------------------------------------------------

    def _in_list(self, sign: str) -> Wish:
        draft = self.draft
        match sign:
            case "<up>" | "<down>":
                draft.step(1 if sign == "<down>" else -1)
            case "<home>" | "<end>":
                draft.go(HEAD if sign == "<home>" else (10_000, 10_000))
            case "<enter>" | "<right>":
                self._show_fields()
            case "<escape>":
                if not self.unsaved:
                    return "leave"
                self.mode = "leave"
            case "+":
                self.mode, self.format_at.at = "format", 0
            case "<backspace>":
                self.notice = take_back(draft)
            case _ if sign in ARRANGING:
                self.notice = arrange(draft, sign)
            case _ if len(sign) == 1 and sign.isalnum():
                self._new_station(sign)
        return ""

    def _new_station(self, sign: str) -> None:
        if self.draft.place == HEAD:
            self.notice = "go down to a segment first: there letters add a station"
            return
        self._open(entry_for("station", self.draft.place, "movement"), sign)

    # -- the fields of a part ------------------------------------------------------------

    def _show_fields(self) -> None:
        self.mode, self.field_at.at = "fields", 0

    def _in_fields(self, sign: str) -> None:
        fields = self.fields
        field = fields[self.field_at.within(len(fields))]
        if self.field_at.sign("<down>" if sign == "<tab>" else sign, len(fields)):
            return
        if sign in ("<escape>", "<left>"):
            self.mode = "list"
        elif sign == "<delete>":
            self.notice = set_value(self.draft, field.key, "")
        elif sign == "<backspace>":
            self.notice = take_back(self.draft)
        elif sign == "<enter>" or len(sign) == 1 or sign == "<space>":
            entry = entry_for("field", self.draft.place, field.key, field.typed)
            self._open(entry, "" if sign == "<enter>" else sign)

    # -- what is typed ---------------------------------------------------------------------

    def ask_title(self) -> None:
        """Let the title be typed over: a new plan begins with it, where no draft is offered."""
        if self.mode == "list":
            self._open(entry_for("field", HEAD, "title", self.title))

    def _open(self, entry: PlanEntry | None, sign: str = "") -> None:
        """Let this be typed, with its first sign; None opens nothing."""
        self.entry = entry
        if entry is not None:
            self.mode = "entry"
            entry.sign(sign, self.library)

    def _typed(self, entry: PlanEntry, sign: str) -> None:
        if sign == "<enter>":
            self._taken(entry)
        elif sign == "<escape>":
            self._closed(entry)
        else:
            entry.sign(sign, self.library)
            if sign == "<ctrl+s>":
                self.notice = "enter takes what is typed, then ctrl+s saves"

    def _closed(self, entry: PlanEntry) -> None:
        self.entry = None
        self.mode = "fields" if entry.purpose == "field" else "list"

    def _taken(self, entry: PlanEntry) -> None:
        value, draft = entry.value(self.library), self.draft
        self._closed(entry)
        if entry.purpose == "station":
            if value:
                draft.change(*edits.insert_station(draft.text, entry.place, value))
                self._open(entry_for("amount", draft.place, "amount"))
            return
        if value != typed_at(self.part, entry.key):
            self.notice = set_value(draft, entry.key, value)
        if entry.purpose == "field":
            self.field_at.step(1, len(self.fields))

    # -- a new segment -----------------------------------------------------------------------

    def _format(self, sign: str) -> None:
        if sign == "<escape>":
            self.mode = "list"
        elif sign.isdecimal() and 1 <= int(sign) <= len(FORMATS):
            self._add_segment(int(sign) - 1)
        elif sign == "<enter>":
            self._add_segment(self.format_at.at)
        else:
            self.format_at.sign(sign, len(FORMATS))

    def _add_segment(self, number: int) -> None:
        add_segment(self.draft, number)
        self._show_fields()
