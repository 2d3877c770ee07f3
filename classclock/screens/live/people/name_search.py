"""Somebody is typed for: whom the class has, whom the club knows, or who is new."""

from classclock.live.live_class import Outcome
from classclock.screens.controls.search import Search
from classclock.screens.live.people.class_people import ClassPeople
from classclock.screens.people.person_line import PersonLine, found_lines
from classclock.wall.between.here_content import HerePerson


class NameSearch:
    def __init__(self, people: ClassPeople) -> None:
        self._people = people
        self._search = Search()
        self._insists = ""
        """The name that was new before all names were read, and is meant so."""

    @property
    def text(self) -> str:
        return self._search.text

    @property
    def lines(self) -> tuple[PersonLine, ...]:
        """Those who match; of the club's others nobody is shown before a letter is typed."""
        known = self._people.known if self.text.strip() else ()
        return found_lines(self.text, [*map(line_of, self._people.content().people)], known)

    @property
    def at(self) -> int:
        return self._search.cursor.within(len(self.lines))

    def sign(self, sign: str) -> bool:
        """One key; whether it means anything to what is typed."""
        return self._search.sign(sign, len(self.lines))

    def paste(self, text: str) -> None:
        self._search.paste(text)

    def enter(self) -> tuple[Outcome, str]:
        """What comes of who is lit, and their id; refused asks for another key."""
        lit = self._search.cursor.lit(self.lines)
        if lit is None:
            return Outcome("type a name, then enter", refused=True), ""
        match lit.kind:
            case "here":
                return Outcome(f"{lit.name} is here"), lit.id
            case "gone":
                return self._people.back(lit.id), lit.id
            case "known":
                known = next(one for one in self._people.known if one.id == lit.id)
                return self._people.take_in(lit.name, known), lit.id
            case "new" | "several":
                return self._new(lit.name)

    def _new(self, typed: str) -> tuple[Outcome, str]:
        if not self._people.all_known and self._insists != typed:
            self._insists = typed
            words = "the club's names are still being read: enter once more takes"
            return Outcome(f"{words} {typed} in as somebody new", refused=True), ""
        before = {one.id for one in self._people.content().people}
        outcome = self._people.take_in(typed)
        came = [one.id for one in self._people.content().people if one.id not in before]
        return outcome, came[0] if came else ""


def line_of(person: HerePerson) -> PersonLine:
    """Somebody of the class, in the list."""
    return PersonLine("gone" if person.gone else "here", person.id, person.name, person.key)
