"""Who is who after the changes of several rooms."""

from datetime import UTC, datetime, timedelta

from classclock.book.files.changes import (
    Carried,
    Change,
    Changes,
    Erasure,
    MarkSet,
    Merge,
    Rename,
    Undo,
    with_more,
)
from classclock.book.people_rules import (
    PeopleRules,
    digest,
    for_good,
    people_rules,
    standing_changes,
)

FIRST = datetime(2026, 11, 3, 18, 30, tzinfo=UTC)


def rules(*said: tuple[str, Change]) -> PeopleRules:
    """Changes by room, in the order in which they were made, a minute each."""
    rooms: dict[str, Changes] = {}
    for number, (room, change) in enumerate(said):
        at = (FIRST + timedelta(minutes=number)).isoformat()
        rooms[room] = with_more(rooms.get(room, Changes(room)), [change], at)
    return people_rules(rooms.values())


def test_an_id_means_somebody_in_its_own_room_alone() -> None:
    found = rules(
        ("hall", Rename(athlete="max", name="Max V")),
        ("shed", MarkSet(athlete="max", mark="under 18", on=True)),
        ("shed", Merge(gone="noor", kept="max")),
    )
    assert found.names == {"hall/max": "Max V"}
    assert found.marks == {"shed/max": ("under 18",)}
    assert found.aliases == {"shed/noor": "shed/max"}


def test_a_merge_joins_people_of_two_rooms_and_each_calls_them_by_its_own_id() -> None:
    found = rules(("hall", Merge(gone="k7", kept="shed/k9", name="Noor")))
    assert found.athlete("hall/k7") == "shed/k9"
    assert found.names == {"shed/k9": "Noor"}
    assert found.known_in("hall", "shed/k9") == "k7"
    assert found.known_in("shed", "shed/k9") == "k9"
    assert found.known_in("yard", "shed/k9") == "shed/k9"


def test_of_two_that_a_room_merged_into_one_of_another_room_always_the_same_is_named() -> None:
    merges = [("hall", Merge(gone=gone, kept="shed/k9")) for gone in ("m2", "k7", "z3")]
    assert rules(*merges).known_in("hall", "shed/k9") == "k7"
    assert rules(*merges[::-1]).known_in("hall", "shed/k9") == "k7"


def test_merges_of_two_rooms_that_meet_make_no_ring() -> None:
    found = rules(
        ("hall", Merge(gone="k7", kept="shed/k9")),
        ("shed", Merge(gone="k9", kept="hall/k7")),
    )
    assert found.aliases == {"hall/k7": "shed/k9"}


def test_a_merge_that_was_taken_back_parts_the_rooms_again() -> None:
    found = rules(("hall", Merge(gone="k7", kept="shed/k9")), ("hall", Undo(of=1)))
    assert found == PeopleRules()


def test_an_erasure_forgets_the_person_of_one_room_and_no_namesake_of_another() -> None:
    before = int(FIRST.timestamp() * 1000)
    erasure = Erasure(salt="s", digests=(digest("s", "hall/max"),), before=before)
    found = rules(("hall", erasure))
    assert found.erased("hall/max", before - 1)
    assert not found.erased("hall/max", before)
    assert not found.erased("shed/max", before - 1)


def test_an_erasure_of_before_holds_in_every_room_as_it_did() -> None:
    """An id was one athlete in all rooms then, and nobody who was erased may come back."""
    erasure = Erasure(salt="s", digests=(digest("s", "max"),), before=2)
    found = rules(("hall", erasure))
    assert found.erased("hall/max", 1)
    assert found.erased("shed/max", 1)
    assert not found.erased("shed/noor", 1)


def test_what_an_erasure_did_here_or_in_another_room_cant_be_taken_back() -> None:
    lines: tuple[Change, ...] = (
        Erasure(n=1, salt="s", digests=(), before=1),
        Carried(n=2, room="hall", of=1),
        MarkSet(n=3, athlete="max", mark="newcomer", on=True),
        *(Undo(n=3 + of, of=of) for of in (1, 2, 3)),
    )
    assert standing_changes(lines) == lines[:2]
    assert [line.change for line in lines if for_good(line)] == ["erase", "carried"]
