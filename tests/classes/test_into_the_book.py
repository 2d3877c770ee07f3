"""A class that was really held, as the book reads it."""

from typing import Any

from classclock.book.files.saved_results import read_results
from classclock.records.class_entries import read_class


def test_what_the_class_saved_is_what_the_book_reads(coach: Any) -> None:
    coach.start()
    coach.wind(60)
    coach.type("<enter>")
    coach.start()
    for _ in range(3):
        coach.wind(120)
        coach.type("ni")
    coach.wind(605)
    coach.type("12n3i.b1")
    coach.wind(2)
    coach.type("*<enter>")
    assert coach.session.live.phase == "closed"
    coach.session.save()
    document = read_results(coach.session.results.saved[0])
    read = read_class(document)
    assert [person.name for person in read.people] == ["Ilse", "Bram", "Noor"]
    results = {entry.result.athlete: entry.result for entry in read.entries}
    assert set(results) == {"Ilse", "Noor"}  # Bram did nothing: absent
    noor = results["Noor"]
    assert (noor.score, noor.benchmark, noor.kind) == ("3+12", "turntable", "rounds")
    assert (noor.splits, noor.round_reps, noor.total_reps) == ((120,) * 3, (27,) * 3, 93)
    assert str(noor.terms) == "as written; 16:00"
    assert noor.counts
