"""The coach's keys at the list of who is here, between two pieces."""

from collections.abc import Callable
from functools import partial
from string import ascii_letters

from classclock.live.live_class import Outcome
from classclock.screens.controls.cursor import Cursor
from classclock.screens.live.people.class_people import ClassPeople
from classclock.screens.live.people.kept_answer import KeptAnswer
from classclock.screens.live.people.name_search import NameSearch, line_of
from classclock.screens.live.people.piece_desk import PieceDesk
from classclock.screens.people.marks import MARKS
from classclock.screens.people.people_returns import LESS
from classclock.screens.people.person_line import PersonLine
from classclock.screens.people.person_questions import KeyQuestion, Question, name_question
from classclock.wall.between.here_content import HerePerson

_GOES_ON = {"<f2>", "<f3>", "<f4>", "<f5>", "<f6>", "<f8>", "<ctrl+n>", "<ctrl+q>", "<ctrl+c>"}
"""Keys that the class has at any time, whatever is typed here."""
_SIGNS_GO_ON = {"!", "?", "<ctrl+p>", "<ctrl+w>"}
"""The same, unless a line is being typed."""
_COME_OR_GONE = "space: has left, or is back"
_HINTS = {
    ".": _COME_OR_GONE,
    "-": _COME_OR_GONE,
    "<enter>": "escape closes the list, then enter",
}


class PeopleDesk:
    """What is lit, what is typed, and what it is typed for."""

    def __init__(self, people: ClassPeople) -> None:
        self.people = people
        self.is_open = False
        self.cursor = Cursor()
        self._kept = KeptAnswer()
        self.piece = PieceDesk(people, self._kept)
        self.search: NameSearch | None = None
        """Somebody is being added, or looked for by name."""
        self.asked: Question | None = None
        self.marks_open = False
        self.swaps = ""
        """The id of whoever is to change places with another."""

    @property
    def everybody(self) -> tuple[HerePerson, ...]:
        return self.people.content().people

    @property
    def lit(self) -> HerePerson | None:
        return self.cursor.lit(self.everybody)

    @property
    def lines(self) -> tuple[PersonLine, ...]:
        """The list as it stands: of the class, or whoever matches what is typed."""
        return self.search.lines if self.search else tuple(map(line_of, self.everybody))

    @property
    def at(self) -> int:
        """Which of the lines is lit."""
        return self.search.at if self.search else self.cursor.within(len(self.everybody))

    @property
    def types(self) -> bool:
        """Whether what is struck is text."""
        return self.asked is not None or self.search is not None

    # -- keys ----------------------------------------------------------------------

    def open(self) -> None:
        self.is_open = True
        self.search, self.asked, self.marks_open, self.swaps = None, None, False, ""
        self.piece.digits.first()

    def close(self) -> None:
        self.is_open = False

    def sign(self, sign: str) -> Outcome | None:
        """One key while the list is open; None goes on to the class."""
        if sign in _GOES_ON:
            return None
        if self.asked is not None:
            return self._answer(self.asked, sign)
        if self.search is not None:
            return self._find(self.search, sign)
        if sign in _SIGNS_GO_ON:
            return None
        if self.cursor.sign(sign, len(self.everybody)):
            return Outcome()
        if self.swaps:
            return self._swap(sign)
        if len(sign) == 1 and sign in ascii_letters:
            return self._jump(sign.lower())
        if sign in _HINTS:
            return _refused(_HINTS[sign])
        action = _ACTIONS.get(sign)
        return action(self) if action is not None else self._for_one(partial(self._do, sign))

    def paste(self, text: str) -> None:
        """Type what was copied elsewhere, as one line."""
        typed_into = self.asked or self.search
        if typed_into is not None:
            typed_into.paste(text)

    def _escape(self) -> Outcome:
        """The marks first, where they are open; then the list."""
        self.is_open, self.marks_open = self.marks_open, False
        return Outcome()

    def _answer(self, asked: Question, sign: str) -> Outcome:
        self._kept.outcome = Outcome()
        if not asked.sign(sign):
            return Outcome()
        self.asked = None
        came = self._kept.outcome
        nothing = came == Outcome()
        return Outcome(asked.notice, refused=bool(asked.notice)) if nothing else came

    def _find(self, search: NameSearch, sign: str) -> Outcome:
        if sign == "<escape>":
            self.search = None
        if sign != "<enter>":
            search.sign(sign)
            return Outcome()
        outcome, ident = search.enter()
        if not outcome.refused:
            self.search = None
            self.cursor.follow(ident, [one.id for one in self.everybody])
        return outcome

    # -- who is meant --------------------------------------------------------------

    def _jump(self, letter: str) -> Outcome:
        """Light whoever has this letter; the next of them where several have."""
        found = self._with_key(letter)
        if found is None:
            return _refused(f"nobody has the key {letter}: + finds by name")
        self.cursor.follow(found.id, [one.id for one in self.everybody])
        return Outcome()

    def _with_key(self, letter: str) -> HerePerson | None:
        everybody, at = self.everybody, self.at
        after = (*everybody[at + 1 :], *everybody[: at + 1])
        return next((one for one in after if one.key == letter), None)

    def _for_one(self, do: Callable[[HerePerson], Outcome | Question]) -> Outcome:
        """Do something for whoever is lit, if they are here; or ask it."""
        lit = self.lit
        if lit is None:
            return _refused("nobody is here yet: + adds somebody")
        if lit.gone:
            return _refused(f"{lit.name} has left: space, and they are back")
        came = do(lit)
        if not isinstance(came, Outcome):
            self.asked, came = came, Outcome()
        return came

    # -- what is done ----------------------------------------------------------------

    def _turn(self) -> Outcome:
        lit = self.lit
        if lit is not None and lit.gone:
            return self.people.back(lit.id)
        return self._for_one(lambda one: self.people.leave(one.id))

    def _add(self) -> Outcome:
        self.people.look_up()
        self.search = NameSearch(self.people)
        return Outcome()

    def _marks(self) -> Outcome:
        self.marks_open = not self.marks_open
        if self.marks_open and not self.people.mirrored:
            self.people.look_at()
        return Outcome()

    def _do(self, sign: str, one: HerePerson) -> Outcome | Question:
        """What a key does for one person."""
        if self.marks_open and sign == LESS and not self.people.mirrored:
            return self.people.less(one.id)
        if self.marks_open and sign.isdecimal() and sign.isascii():
            return self._turn_mark(one, int(sign))
        match sign:
            case "<ctrl+e>":
                return name_question(one.name, self._kept.of(partial(self.people.rename, one.id)))
            case "<ctrl+k>":
                give = partial(self.people.give_key, one.id)
                return KeyQuestion(one.name, self._kept.of(give))
            case ">":
                self.swaps = one.id
                return Outcome()
        nothing = _refused(f"{sign.strip('<>')} means nothing in this list: ? shows its keys")
        return self.piece.sign(sign, one) or nothing

    def _turn_mark(self, one: HerePerson, digit: int) -> Outcome:
        if not 0 < digit <= len(MARKS):
            return _refused(f"marks are 1 to {len(MARKS)}: ? says which")
        return self.people.turn_mark(one.id, MARKS[digit - 1])

    def _swap(self, sign: str) -> Outcome:
        first, self.swaps = self.swaps, ""
        if sign == "<escape>":
            return Outcome()
        other = self.lit if sign == "<enter>" else self._with_key(sign.lower())
        if other is None or other.id == first:
            self.swaps = first
            return _refused("with whom? their letter, or up, down and enter; escape leaves it")
        return self.people.swap(first, other.id)


_ACTIONS: dict[str, Callable[[PeopleDesk], Outcome]] = {
    "<escape>": PeopleDesk._escape,  # noqa: SLF001  its own keys
    "<space>": PeopleDesk._turn,  # noqa: SLF001
    "+": PeopleDesk._add,  # noqa: SLF001
    "<f7>": PeopleDesk._marks,  # noqa: SLF001
}


def _refused(text: str) -> Outcome:
    return Outcome(text, refused=True)
