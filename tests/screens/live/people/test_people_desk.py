"""The list of who is here, without a screen: the coach's keys, and what they ask of the class."""

from collections.abc import Sequence
from string import ascii_lowercase

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.book.asking.known_people import KnownPerson
from classclock.live.live_class import Outcome
from classclock.plan.reading.plan_reading import parse_plan
from classclock.planning.modifiable import Modifiable, modifiable
from classclock.screens.live.people.people_desk import PeopleDesk
from classclock.screens.live.people.people_keys import PEOPLE_KEYS
from classclock.screens.people.marks import MARKS
from classclock.screens.people.people_flags import PeopleFlags
from classclock.tally.lanes import Mark
from classclock.wall.between.here_content import HereContent, HerePerson
from tests.screens.live.people.piece_and_lift import PIECE

NAMES = ("Ilse", "Bram", "Noor")


def a_piece(*, by_load: bool = False, named: bool = True) -> Modifiable:
    plan, findings = parse_plan(PIECE, "t.toml")
    assert plan is not None, findings
    (piece,) = modifiable(plan, "kg")
    loads = piece.loads if named else ()
    return Modifiable(piece.index, piece.segment, piece.menu, loads, by_load)


class AskedPeople:
    """Some people; it notes what is asked of the class."""

    def __init__(
        self,
        names: Sequence[str] = NAMES,
        known: Sequence[KnownPerson] = (),
        piece: Modifiable | None = None,
    ) -> None:
        self.mirrored, self.known, self.all_known = True, known, True
        self.piece = a_piece() if piece is None else piece
        self.people = [HerePerson(name.lower(), name, name[0].lower()) for name in names]
        self.asked: list[tuple[str, ...]] = []

    def content(self) -> HereContent:
        return HereContent(tuple(self.people), self.piece, "")

    def look_up(self) -> None:
        self._note("look up")

    @property
    def flags(self) -> PeopleFlags:
        raise AssertionError("the desk shows nothing")

    def look_at(self) -> None:
        self._note("look at")

    def less(self, ident: str) -> Outcome:
        return self._note("less", ident)

    def take_in(self, name: str, known: KnownPerson | None = None) -> Outcome:
        ident = known.id if known else name.lower()
        self.people.append(HerePerson(ident, name, name[0].lower()))
        return self._note("take in", ident)

    def leave(self, ident: str) -> Outcome:
        self._gone(ident, gone=True)
        return self._note("leave", ident)

    def back(self, ident: str) -> Outcome:
        self._gone(ident, gone=False)
        return self._note("back", ident)

    def rename(self, ident: str, name: str) -> Outcome:
        return self._note("rename", ident, name)

    def give_key(self, ident: str, letter: str) -> Outcome:
        return self._note("key", ident, letter)

    def use_option(self, ident: str, number: int) -> Outcome:
        return self._note("option", ident, str(number))

    def next_load(self, ident: str) -> Outcome:
        return self._note("next load", ident)

    def set_load(self, ident: str, written: str) -> Outcome:
        return self._note("load", ident, written)

    def turn_mark(self, ident: str, mark: Mark) -> Outcome:
        return self._note("mark", ident, mark)

    def swap(self, ident: str, other: str) -> Outcome:
        return self._note("swap", ident, other)

    def _gone(self, ident: str, *, gone: bool) -> None:
        self.people = [
            HerePerson(one.id, one.name, one.key, gone if one.id == ident else one.gone)
            for one in self.people
        ]

    def _note(self, *what: str) -> Outcome:
        self.asked.append(what)
        return Outcome(" ".join(what))


def opened(people: AskedPeople) -> PeopleDesk:
    desk = PeopleDesk(people)
    desk.open()
    return desk


def type_in(desk: PeopleDesk, *signs: str) -> Outcome | None:
    """Type signs, words letter by letter; what the last one came to."""
    came: Outcome | None = None
    for sign in signs:
        for one in [sign] if sign.startswith("<") else sign:
            came = desk.sign("<space>" if one == " " else one)
    return came


def test_a_letter_lights_whoever_has_it_and_space_is_gone_and_back() -> None:
    people = AskedPeople()
    type_in(opened(people), "n", "<space>", "<space>", "b", "<space>")
    assert people.asked == [("leave", "noor"), ("back", "noor"), ("leave", "bram")]


def test_a_letter_that_two_have_goes_from_one_to_the_other() -> None:
    people = AskedPeople(("Ilse", "Bram", "Noor", "Nele"))
    type_in(opened(people), "n", "<space>", "n", "<space>", "n", "<space>")
    assert people.asked == [("leave", "noor"), ("leave", "nele"), ("back", "noor")]


def test_above_26_the_list_is_how_the_others_are_reached() -> None:
    names = tuple(f"{letter}{number}" for number in (1, 2) for letter in ascii_lowercase)[:40]
    people = AskedPeople(names)
    type_in(opened(people), "<end>", "<space>", "<home>", "<pagedown>", "<down>", "<space>")
    assert people.asked == [("leave", names[39]), ("leave", names[21])]
    people.asked.clear()
    type_in(opened(people), "+", "k2", "<enter>", "<space>")
    assert people.asked == [("look up",), ("leave", "k2")]


def test_a_digit_is_an_option_of_the_piece_to_come() -> None:
    people = AskedPeople()
    desk = opened(people)
    type_in(desk, "b", "2", "0")
    assert people.asked == [("option", "bram", "2"), ("option", "bram", "0")]
    refused = type_in(desk, "3")
    assert refused is not None
    assert (refused.text, refused.refused) == ("there are 2 options here", True)


def test_tab_is_the_next_load_on_offer_and_in_a_lift_one_to_type() -> None:
    people = AskedPeople()
    type_in(opened(people), "<tab>")
    people.piece = a_piece(by_load=True, named=False)
    type_in(opened(people), "b", "<tab>", "3:82.5", "<enter>", "n", "<tab>", "<enter>")
    people.piece = a_piece(by_load=True)
    type_in(opened(people), "b", "<tab>", "=", "60 kg", "<enter>", "=", "70", "<escape>")
    assert people.asked == [
        ("next load", "ilse"),
        *(("load", "bram", "3:82.5"), ("load", "noor", "")),
        *(("next load", "bram"), ("load", "bram", "60 kg")),
    ]


def test_no_load_is_typed_where_none_counts() -> None:
    refused = type_in(opened(AskedPeople(piece=a_piece(named=False))), "<tab>")
    assert refused is not None
    assert refused.refused


def test_a_name_and_a_key_are_typed_and_escape_leaves_them() -> None:
    people = AskedPeople()
    desk = opened(people)
    type_in(desk, "b", "<ctrl+e>", " Zwart!?", "<enter>", "<ctrl+k>", "Z")
    type_in(desk, "<ctrl+e>", "x", "<escape>", "<ctrl+k>", "<escape>", "<ctrl+e>", "<ctrl+u>")
    type_in(desk, "<enter>")
    assert people.asked == [("rename", "bram", "Bram Zwart!?"), ("key", "bram", "z")]
    assert desk.is_open
    refused = type_in(desk, "<ctrl+k>", "7")
    assert refused is not None
    assert (refused.text, refused.refused) == ("a key is a letter from a to z", True)


def test_somebody_is_added_by_part_of_a_name_that_the_club_knows() -> None:
    people = AskedPeople(known=[KnownPerson("k7", "Špela", "s"), KnownPerson("k8", "Uri", "u")])
    desk = opened(people)
    type_in(desk, "+")
    assert [line.name for line in desk.lines] == list(NAMES)
    type_in(desk, "spe")
    assert [(line.kind, line.name) for line in desk.lines] == [("known", "Špela"), ("new", "spe")]
    type_in(desk, "<enter>")
    assert people.asked == [("look up",), ("take in", "k7")]
    assert desk.lit is not None
    assert desk.lit.id == "k7"
    assert desk.search is None


def test_somebody_new_is_added_as_typed_and_who_is_there_is_lit() -> None:
    people = AskedPeople()
    desk = opened(people)
    type_in(desk, "+", "Late", "<enter>", "+", "<escape>", "+")
    desk.paste("\nNo")
    came = type_in(desk, "<enter>")
    assert people.asked == [("look up",), ("take in", "late"), ("look up",), ("look up",)]
    assert came == Outcome("Noor is here")
    assert desk.lit is not None
    assert desk.lit.id == "noor"


def test_who_has_left_comes_back_by_name_too() -> None:
    people = AskedPeople()
    type_in(opened(people), "b", "<space>", "+", "bra", "<enter>")
    assert people.asked == [("leave", "bram"), ("look up",), ("back", "bram")]


def test_a_new_name_is_asked_about_once_while_the_club_s_names_are_being_read() -> None:
    people = AskedPeople()
    people.all_known = False
    desk = opened(people)
    refused = type_in(desk, "+", "Late", "<enter>")
    assert refused is not None
    assert refused.refused
    assert "enter once more takes Late in as somebody new" in refused.text
    assert people.asked == [("look up",)]
    type_in(desk, "<enter>")
    assert people.asked == [("look up",), ("take in", "late")]


def test_nobody_is_typed_so_nobody_comes() -> None:
    people = AskedPeople(())
    refused = type_in(opened(people), "+", "<enter>")
    assert refused is not None
    assert refused.refused
    assert people.asked == [("look up",)]


def test_marks_are_turned_by_digits_while_they_are_open() -> None:
    people = AskedPeople()
    desk = opened(people)
    type_in(desk, "n", "<f7>", "1", "b", "4", "<escape>", "1")
    assert people.asked == [
        *(("mark", "noor", MARKS[0]), ("mark", "bram", MARKS[3])),
        ("option", "bram", "1"),
    ]
    assert desk.is_open
    assert not desk.marks_open


def test_two_change_places_by_a_letter_or_by_the_cursor() -> None:
    people = AskedPeople()
    desk = opened(people)
    type_in(desk, "b", ">", "n", "b", ">", "<up>", "<enter>", "b", ">", "<escape>", "n")
    assert people.asked == [("swap", "bram", "noor"), ("swap", "bram", "ilse")]
    refused = type_in(desk, "b", ">", "7")
    assert refused is not None
    assert refused.refused
    type_in(desk, "b", "<escape>")
    assert people.asked[2:] == []


def test_what_is_asked_of_somebody_who_has_left_says_how_they_are_back() -> None:
    people = AskedPeople()
    desk = opened(people)
    type_in(desk, "b", "<space>")
    for sign in ("1", "<tab>", "<ctrl+e>", "<ctrl+k>", ">"):
        refused = type_in(desk, sign)
        assert refused == Outcome("Bram has left: space, and they are back", refused=True)
    assert people.asked == [("leave", "bram")]


@pytest.mark.parametrize(
    "sign", ["!", "?", "<f2>", "<f4>", "<f8>", "<ctrl+n>", "<ctrl+p>", "<ctrl+q>"]
)
def test_the_card_the_help_and_what_leaves_go_on_to_the_class(sign: str) -> None:
    desk = opened(AskedPeople())
    assert desk.sign(sign) is None
    assert desk.is_open


@pytest.mark.parametrize("sign", ["<enter>", ".", "-", "<ctrl+t>", "<ctrl+r>", "*", "7"])
def test_no_other_key_reaches_the_class_and_each_says_what_to_do(sign: str) -> None:
    people = AskedPeople()
    desk = opened(people)
    came = desk.sign(sign)
    assert came is not None
    assert came.refused
    assert came.text
    assert people.asked == []
    assert desk.is_open


def test_escape_closes_one_thing_after_the_other() -> None:
    desk = opened(AskedPeople())
    type_in(desk, "<f7>", "<escape>")
    assert desk.is_open
    type_in(desk, "<escape>")
    assert not desk.is_open


def test_nobody_at_all_says_how_somebody_is_added() -> None:
    refused = type_in(opened(AskedPeople(())), "<space>")
    assert refused == Outcome("nobody is here yet: + adds somebody", refused=True)


def test_every_line_of_the_list_s_help_does_something() -> None:
    typed = {"n": "n", "1 to 9": "1", "> n": ">n", "F7, then 1": "<f7>"}
    typed |= {f"F7, then {digit}": "<f7>" for digit in range(1, 6)}
    named = {"space", "tab", "escape", "ctrl+o", "ctrl+e", "ctrl+k"}
    for line in PEOPLE_KEYS:
        people = AskedPeople(piece=a_piece(by_load=True))
        people.mirrored = False
        desk = opened(people)
        keys = typed.get(line.keys, f"<{line.keys}>" if line.keys in named else line.keys)
        came = type_in(desk, keys)
        assert came is not None, line
        assert not came.refused, line


_SIGNS = [*"abin+>=.-!?0129:", "<space>", "<enter>", "<escape>", "<tab>", "<f7>", "<up>", "<down>"]
_SIGNS += ["<end>", "<ctrl+e>", "<ctrl+k>", "<ctrl+o>", "<ctrl+t>", "<backspace>", "<ctrl+p>"]


@given(st.lists(st.sampled_from(_SIGNS), max_size=40), st.integers(0, 30), st.booleans())
def test_whatever_is_typed_the_list_stands_and_says_why(
    signs: list[str],
    count: int,
    by_load: bool,  # noqa: FBT001  hypothesis hands it over
) -> None:
    names = [f"{ascii_lowercase[number % 26]}{number}" for number in range(count)]
    people = AskedPeople(names, [KnownPerson("k1", "Bea", "b")], a_piece(by_load=by_load))
    desk = opened(people)
    for sign in signs:
        asked = len(people.asked)
        came = desk.sign(sign)
        if came is not None and came.refused:
            assert came.text
            assert len(people.asked) == asked, "what is refused asks nothing of the class"
        assert 0 <= desk.at <= max(0, len(desk.lines) - 1)
        assert (desk.lit is None) == (not people.people)
        if not desk.is_open:
            desk.open()
    for _ in range(3):
        desk.sign("<escape>")
    assert not desk.is_open, "escape always leads out"
