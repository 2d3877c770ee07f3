"""A name is found as whole words, and not within what means something else."""

import json
import unicodedata
from pathlib import Path
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.book.erasing.name_finding import NOBODY, name_finder
from classclock.book.erasing.raw_bytes import may_hold
from classclock.book.erasing.told_by_digest import ids_meant, names_meant
from classclock.book.files.changes import Changes, Erasure, MarkSet, Rename
from classclock.book.files.import_lines import Import, ImportedScore
from classclock.book.people_rules import digest
from classclock.units.names import name_key, tidy_name

NAMES = st.text(
    st.characters(categories=("Lu", "Ll", "Lo", "Nd"), max_codepoint=0x24F), min_size=1, max_size=12
).filter(lambda name: tidy_name(name) == name)


def test_what_people_and_pieces_are_called_is_told_apart() -> None:
    named = name_finder({"Max"}, ("max effort", "Max B", "Maxwell", "max", "Turntable"))
    assert named.apart == {"max effort", "Max B"}
    text = "Max and max b did MAX  effort; Maxwell, max."
    assert named.without(text) == f"{NOBODY} and max b did MAX  effort; Maxwell, {NOBODY}."
    assert not named.stands_in("Max effort, Max B")


def test_nobody_is_found_nowhere() -> None:
    assert not name_finder(()).stands_in("Max")
    assert name_finder({""}).without("Max") == "Max"


@pytest.mark.parametrize(
    ("file", "called"),
    [
        ("cato", True),
        ("tally-Cato_Lind 2", True),
        ("zoe", True),
        ("ZOË.old", True),
        ("catos-week", False),
        ("2026-11-24-1830-cato-corner", False),
    ],
)
def test_a_file_is_called_so_whatever_stands_between_its_words(file: str, *, called: bool) -> None:
    named = name_finder({"Cato", "Zoë"}, ("Cato corner",))
    assert named.called_so(file) is called


@given(
    name=NAMES,
    escaped=st.booleans(),
    form=st.sampled_from(("NFC", "NFD")),
    case=st.sampled_from(("upper", "lower")),
)
def test_bytes_without_a_name_are_never_those_of_a_file_with_it(
    *, name: str, escaped: bool, form: Literal["NFC", "NFD"], case: str
) -> None:
    written = getattr(unicodedata.normalize(form, name), case)()
    raw = json.dumps({"name": f"1 {written} 2"}, ensure_ascii=escaped).encode()
    if name_finder({name}).stands_in(json.loads(raw)["name"]):
        assert may_hold(raw, frozenset({name}))


def test_bytes_tell_most_files_apart() -> None:
    assert not may_hold(b'{"name": "Ilse", "id": "bcdfghjkmn"}', frozenset({"Noor", "k7"}))
    assert may_hold(b'{"name": "\\u004eoor"}', frozenset({"Noor"}))
    assert not may_hold(b'{"name": "Ilse"}', frozenset({"\u0416\u0416"}))
    assert may_hold(b'{"name": "\\u0416\\u0416"}', frozenset({"\u0416\u0416"}))


# -- what an order says in digests -------------------------------------------------


def order(entries: tuple[str, ...], *names: str) -> Erasure:
    return Erasure(
        salt="s",
        digests=tuple(digest("s", entry) for entry in entries),
        before=1,
        names=tuple(digest("s", name_key(name)) for name in names),
    )


@given(st.lists(NAMES, min_size=1, max_size=4), st.sampled_from('\t, ;:."<>()!'))
def test_a_name_is_found_in_text_whatever_stands_around_it(words: list[str], sign: str) -> None:
    name = " ".join(words)
    text = f"then {sign}{name}{sign} and nobody else"
    assert names_meant(order((), name), Changes("r"), [text]) >= {name}


def test_names_are_found_in_changes_and_in_names_of_imported_files() -> None:
    score = ImportedScore(
        athlete="q1", name="Jo B", benchmark="b", score="1", kind="reps", worth=1, day="2026-01-01"
    )
    own = Changes(
        "r",
        (Import(n=1, file="cato_old.csv", scores=(score,)), Rename(n=2, athlete="q2", name="Kata")),
    )
    meant = order((), "CATO", "jo b", "Kata", "Ilse")
    assert names_meant(meant, own, ()) == {"cato", "Jo B", "Kata"}


def test_ids_are_found_in_records_and_changes_of_this_room_alone(tmp_path: Path) -> None:
    path = tmp_path / "a.json"
    path.write_text('{"people": [{"id": "k1"}, {"id": "k2"}]}', "utf-8")
    who = ("k3", "other/k1")
    marks = tuple(MarkSet(athlete=one, mark="newcomer", on=True) for one in who)
    found = ids_meant(order(("r/k1", "r/k3", "other/k1", "other/k2")), Changes("r", marks), [path])
    assert found == {"k1", "k3"}
