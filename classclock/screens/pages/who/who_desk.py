"""The coach's keys at "who is here": signs in, the list changed, and what to say of it."""

from collections.abc import Callable
from datetime import date
from functools import partial
from typing import Literal

from classclock.book.asking.known_people import KnownPerson
from classclock.screens.controls.search import Search
from classclock.screens.pages.who.who_list import WhoList
from classclock.screens.pages.who.who_options import WhoOptions
from classclock.screens.pages.who.who_sharing import WhoSharing
from classclock.screens.people.marks import MARKS
from classclock.screens.people.people_flags import PeopleFlags
from classclock.screens.people.people_returns import LESS
from classclock.screens.people.person_line import PersonLine
from classclock.screens.people.person_questions import KeyQuestion, Question, name_question
from classclock.units.names import typed_names

WhoStep = Literal["", "board", "back"]


class WhoDesk:
    """What is typed, what is highlighted, and which question is open."""

    def __init__(
        self, who: WhoList, *, mirrored: bool, today: date, next_step_after: int = 0
    ) -> None:
        self.who = who
        self.mirrored, self.today = mirrored, today
        self.search = Search()
        self.asked: Question | None = None
        self.options = WhoOptions(who.choices)
        self.sharing = WhoSharing(who)
        self.flags = PeopleFlags(who, next_step_after)
        self.marks_open = False
        self.uncovered = not mirrored
        """Whether what is for the coach's eyes alone may stand on this screen behind F7."""
        self.notice = ""
        self.expected = ""
        """What most here would do; empty where nothing tells it."""

    @property
    def entries(self) -> tuple[PersonLine, ...]:
        return self.who.entries(self.search.text)

    @property
    def highlighted(self) -> PersonLine | None:
        return self.search.cursor.lit(self.entries)

    @property
    def text(self) -> str:
        """What is typed: to find somebody, or to answer what is asked."""
        return self.search.text if self.asked is None else self.asked.text

    def sign(self, sign: str) -> WhoStep:
        """One key: a printable sign, or a name such as `<enter>`."""
        self.notice = ""
        if self.asked is not None:
            self._answer(self.asked, sign)
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
            self.search.sign(sign, len(self.entries))
        return ""

    def know(self, known: tuple[KnownPerson, ...]) -> None:
        """Who came to earlier classes: the book was read while names were typed."""
        if self.who.know(known):
            self.asked = None  # it may be about somebody who has another id now

    def paste(self, text: str) -> None:
        """Type what was copied elsewhere, as one line."""
        typed_into = self.search if self.asked is None else self.asked
        typed_into.paste(text)

    def _escape(self) -> WhoStep:
        if self.text or self.marks_open:
            self.search.drop()
            self.marks_open, self.uncovered = False, not self.mirrored
            return ""
        return "back"

    # -- people ------------------------------------------------------------------------

    def toggle(self) -> None:
        entry = self.highlighted
        if entry is None or not entry.name:
            return
        if entry.kind == "several":
            self._take_in_all(entry)
            return
        before = {person.id: person.key for person in self.who.people}
        if entry.kind == "known" and entry.key:
            before[entry.id] = entry.key
        came = self.who.toggle(entry)
        moved = [one for one in self.who.people if before.get(one.id, one.key) != one.key]
        said = [f"{entry.name} is here" if came else f"{entry.name} isn't here"]
        said += self._one_person(came) if came else []
        said += [f"{one.name} has the key {one.key} now" for one in moved]
        self.notice = "; ".join([*said, *self._in_heats()])
        self._show_all(came or entry.id)

    def _take_in_all(self, entry: PersonLine) -> None:
        """Everybody of a line with commas between; it stays to be put right where it can't be."""
        self.notice = self.who.take_in_all(typed_names(entry.name))
        if not self.notice:
            self.notice = "; ".join([f"{entry.name} are here", *self._in_heats()])
            self._show_all(self.who.people[-1].id)

    def _one_person(self, ident: str) -> list[str]:
        """That the book may have one person twice; only a merge makes one of them."""
        other = self.who.other_spelling(ident)
        if other is None:
            return []
        merge = f"classclock book merge {other.id} {ident}"
        return [f"the book has this name in two spellings: if they are one person, {merge}"]

    def _in_heats(self) -> list[str]:
        heats = self.who.heats()
        return [f"{len(self.who.people)} people run in {heats} heats"] if heats > 1 else []

    def _show_all(self, ident: str) -> None:
        """Drop what is typed, and highlight this one among all."""
        self.search.drop()
        self.search.cursor.follow(ident, [entry.id for entry in self.entries])

    def _here(self) -> PersonLine | None:
        """Whom the keys for one person mean; says what to do where nobody fits."""
        entry = self.highlighted
        if entry is not None and entry.kind == "here":
            return entry
        self.notice = "highlight somebody who is here first: up, down"
        return None

    def ask_key(self) -> None:
        if entry := self._here():
            give = partial(self.who.give_key, entry.id)
            self._ask(entry, KeyQuestion(entry.name, give))

    def ask_name(self) -> None:
        if entry := self._here():
            keep = partial(self.who.rename, entry.id)
            self._ask(entry, name_question(entry.name, keep))

    def _ask(self, entry: PersonLine, question: Question) -> None:
        self._show_all(entry.id)
        self.asked, self.notice = question, question.notice

    def _answer(self, asked: Question, sign: str) -> None:
        if asked.sign(sign):
            self.asked = None
        self.notice = asked.notice

    # -- what they do --------------------------------------------------------------------

    def _digit(self, number: int) -> None:
        entry = self._here()
        if entry is None:
            return
        if not self.marks_open:
            self.notice = self.options.digit(entry.id, number)
        elif self.uncovered and str(number) == LESS:
            self.notice = self.flags.less(entry.id)
        elif 0 < number <= len(MARKS):
            self.who.toggle_mark(entry.id, MARKS[number - 1])

    def next_load(self) -> None:
        if entry := self._here():
            self.notice = self.options.next_load(entry.id)

    def marks(self) -> None:
        self.marks_open = not self.marks_open
        self.uncovered = not self.mirrored
        if self.marks_open and self.mirrored:
            self.notice = "the TV shows this too: turn it away or mute it"

    def more(self) -> None:
        """More options; behind the marks what no room may read, once the TV is turned away."""
        if self.marks_open:
            self.uncovered = True
        else:
            self.options.more()


_ACTIONS: dict[str, Callable[[WhoDesk], None]] = {
    "<enter>": WhoDesk.toggle,
    "<left>": lambda desk: desk.who.move_end(-1),
    "<right>": lambda desk: desk.who.move_end(1),
    "<tab>": WhoDesk.next_load,
    "<ctrl+n>": lambda desk: desk.options.next_piece(),
    "<ctrl+o>": WhoDesk.more,
    "<ctrl+k>": WhoDesk.ask_key,
    "<ctrl+e>": WhoDesk.ask_name,
    "<f7>": WhoDesk.marks,
}
