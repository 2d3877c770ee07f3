"""The coach's keys at "who is here": signs in, the list changed, and what to say of it."""

from typing import Literal

from classclock.screens.pages.who.modifiable import Modifiable
from classclock.screens.pages.who.who_list import MARKS, Entry, WhoList
from classclock.screens.pages.who.who_sharing import WhoSharing
from classclock.units.printable import can_be_shown

Step = Literal["", "board", "back"]
Mode = Literal["find", "key", "name"]
_LONGEST = 60
MOST_DIGITS = 9
"""Options that digits can mean at a time; 0 is as written."""


class WhoDesk:
    """What is typed, what is highlighted, and which question is open."""

    def __init__(self, who: WhoList, *, mirrored: bool) -> None:
        self.who = who
        self.mirrored = mirrored
        self.text = ""
        self.at = 0
        self.mode: Mode = "find"
        self.marks_open = False
        self.notice = ""
        self.expected = ""
        """What most here would do; empty where nothing tells it."""
        self.sharing = WhoSharing(who)
        self._piece = 0
        self._options_page = 0

    @property
    def entries(self) -> tuple[Entry, ...]:
        return self.who.entries(self.text if self.mode == "find" else "")

    @property
    def highlighted(self) -> Entry | None:
        entries = self.entries
        return entries[min(self.at, len(entries) - 1)] if entries else None

    @property
    def piece(self) -> Modifiable | None:
        """The piece whose options the digits mean."""
        pieces = self.who.modifiable()
        return pieces[self._piece % len(pieces)] if pieces else None

    def sign(self, sign: str) -> Step:
        """One key: a printable sign, or a name such as `<enter>`."""
        self.notice = ""
        if self.mode == "key":
            self._key(sign)
            return ""
        if self.mode == "name":
            self._name(sign)
            return ""
        if (shared := self.sharing.sign(sign)) is not None:
            self.notice = shared
            return ""
        if sign in ("<ctrl+s>", "<enter>") and (sign == "<ctrl+s>" or not self.text.strip()):
            self.notice = self.who.hindrance()
            return "" if self.notice else "board"
        if sign == "<escape>":
            return self._escape()
        if action := _ACTIONS.get(sign):
            action(self)
        elif sign == "<space>" and not self.text:
            self.toggle()
        elif sign.isdecimal() and sign.isascii() and not self.text:
            self._digit(int(sign))
        else:
            self._type(sign)
        return ""

    def paste(self, text: str) -> None:
        for sign in " ".join(text.split()):
            self._type("<space>" if sign == " " else sign)

    # -- typing ----------------------------------------------------------------------

    def _type(self, sign: str) -> None:
        typed = " " if sign == "<space>" else sign
        if len(typed) == 1 and can_be_shown(typed) and len(self.text) < _LONGEST:
            self.text += typed
            self.at = 0

    def rub_out(self) -> None:
        self.text = self.text[:-1]
        self.at = 0

    def _escape(self) -> Step:
        if self.text or self.marks_open:
            self.text, self.at, self.marks_open = "", 0, False
            return ""
        return "back"

    # -- people ------------------------------------------------------------------------

    def toggle(self) -> None:
        entry = self.highlighted
        if entry is None or not entry.name:
            return
        self.text = ""
        before = {person.id: person.key for person in self.who.people}
        if entry.kind == "known" and entry.key:
            before[entry.id] = entry.key
        came = self.who.toggle(entry)
        moved = [one for one in self.who.people if before.get(one.id, one.key) != one.key]
        said = [f"{entry.name} is here" if came else f"{entry.name} isn't here"]
        said += [f"{one.name} has the key {one.key} now" for one in moved]
        if (heats := self.who.heats()) > 1:
            said.append(f"{len(self.who.people)} people run in {heats} heats")
        self.notice = "; ".join(said)
        self._highlight(came or entry.id)

    def _highlight(self, ident: str) -> None:
        ids = [entry.id for entry in self.entries]
        self.at = ids.index(ident) if ident in ids else 0

    def _here(self) -> Entry | None:
        """Whom the keys for one person mean; says what to do where nobody fits."""
        entry = self.highlighted
        if entry is not None and entry.kind == "here":
            return entry
        self.notice = "highlight somebody who is here first: up, down"
        return None

    def ask_key(self) -> None:
        if entry := self._here():
            self.mode = "key"
            self.notice = f"{entry.name}'s key: type a letter, escape leaves it"

    def _key(self, sign: str) -> None:
        entry, letter = self._here(), sign.lower()
        self.mode = "find"
        if entry is None or sign == "<escape>":
            self.notice = ""
        elif len(letter) == 1 and "a" <= letter <= "z":
            self.notice = self.who.give_key(entry.id, letter)
        else:
            self.notice = "a key is a letter from a to z"

    def ask_name(self) -> None:
        if entry := self._here():
            self.mode, self.text = "name", entry.name
            self.notice = "the name as the wall shows it; enter keeps it"

    def _name(self, sign: str) -> None:
        entry = self._here()
        self.notice = "the name as the wall shows it; enter keeps it"
        if sign == "<backspace>":
            self.text = self.text[:-1]
        elif sign in ("<enter>", "<escape>") or entry is None:
            name = " ".join(self.text.split())
            self.mode, self.text, self.notice = "find", "", ""
            if sign == "<enter>" and name and entry is not None:
                self.who.rename(entry.id, name)
        else:
            at = self.at
            self._type(sign)
            self.at = at

    # -- what they do --------------------------------------------------------------------

    def _digit(self, number: int) -> None:
        entry, piece = self._here(), self.piece
        if entry is None:
            return
        if self.marks_open:
            if 0 < number <= len(MARKS):
                self.who.toggle_mark(entry.id, MARKS[number - 1])
        elif piece is None or not piece.menu:
            self.notice = "this plan has no options"
        elif number > len(shown := self.options_shown(piece)):
            self.notice = f"there are {len(shown)} options here"
        else:
            self.who.toggle_option(entry.id, piece, shown[number - 1] if number else 0)

    def options_shown(self, piece: Modifiable) -> range:
        """The numbers of the options that the digits mean, nine at a time."""
        pages = max(1, -(-len(piece.menu) // MOST_DIGITS))
        first = self._options_page % pages * MOST_DIGITS + 1
        return range(first, min(first + MOST_DIGITS, len(piece.menu) + 1))

    def more_options(self) -> None:
        self._options_page += 1

    def next_load(self) -> None:
        entry, piece = self._here(), self.piece
        if entry is None:
            return
        if piece is None or not piece.loads:
            self.notice = "the plan offers one load here, or none"
        else:
            self.who.next_load(entry.id, piece)

    def next_piece(self) -> None:
        self._piece += 1
        self._options_page = 0

    def marks(self) -> None:
        self.marks_open = not self.marks_open
        if self.marks_open and self.mirrored:
            self.notice = "the TV shows this too: turn it away or mute it"

    def up(self) -> None:
        self.at = max(0, min(self.at, len(self.entries) - 1) - 1)

    def down(self) -> None:
        self.at = max(0, min(self.at + 1, len(self.entries) - 1))


_ACTIONS = {
    "<enter>": WhoDesk.toggle,
    "<backspace>": WhoDesk.rub_out,
    "<up>": WhoDesk.up,
    "<down>": WhoDesk.down,
    "<left>": lambda desk: desk.who.move_end(-1),
    "<right>": lambda desk: desk.who.move_end(1),
    "<tab>": WhoDesk.next_load,
    "<ctrl+n>": WhoDesk.next_piece,
    "<ctrl+o>": WhoDesk.more_options,
    "<ctrl+k>": WhoDesk.ask_key,
    "<ctrl+e>": WhoDesk.ask_name,
    "<f7>": WhoDesk.marks,
}
