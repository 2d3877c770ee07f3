"""Who would lose what, where a disk has only a part of a class's events, or older results."""

from collections.abc import Callable
from typing import Any

import pytest

from classclock.live.loss import Loss, loss
from classclock.tally import events as ev
from classclock.tally.record import ClassRecord
from classclock.tally.scores.scores import scores


def settled_class(coach: Any) -> Any:
    """Noor 2+4, Bram 1+0, Ilse stopped; a note on an emergency; all settled."""
    coach.type("<down>")
    coach.start()
    for key in ("n", "b", "n"):
        coach.wind(60)
        coach.type(key)
    coach.type(".i")
    live = coach.session.live
    live.record_event(ev.EmergencyNoted(live.clock.now(), "Ilse: dizzy, sat down, went home"))
    coach.wind(960)
    for keys in ("4n", "0b", "<enter>"):
        coach.wind(2)
        coach.type(keys)
    return coach


def kept_after(coach: Any, events: int) -> ClassRecord:
    record = ClassRecord(coach.session.live.record.plan)
    for number, event in enumerate(coach.session.journal.events[:events]):
        record = record.apply(number, event)
    return record


def lost_after(coach: Any, events: int, saved: ClassRecord | None = None) -> Loss:
    missing = coach.session.journal.events[events:]
    return loss(coach.session.live.record, kept_after(coach, events), saved, missing)


def told(record: ClassRecord) -> dict[str, str]:
    heats = [record.heats(run) for run in record.pieces()]
    return {
        one.athlete: one.score
        for sheets in heats
        for one in scores(sheets, now=None, settled=all(sheet.settled for sheet in sheets))
        if one.status != "absent"
    }


@pytest.fixture
def coach(open_class: Callable[..., Any]) -> Any:
    return settled_class(open_class())


def test_wherever_the_journal_ends_those_and_only_those_are_named_whose_score_it_gives_otherwise(
    coach: Any,
) -> None:
    number = coach.session.journal.number
    now = told(coach.session.live.record)
    assert now == {"Noor": "2+4", "Bram": "1+0"}
    for events in range(number + 1):
        found = lost_after(coach, events)
        kept = told(kept_after(coach, events))
        assert {one.lane.name: (one.score, one.kept) for one in found.scores} == {
            name: (score, kept.get(name, ""))
            for name, score in now.items()
            if kept.get(name) != score
        }
        assert found.entries == number - events
    assert lost_after(coach, number) == Loss()


def test_scores_that_the_results_have_are_not_lost_with_the_journal(coach: Any) -> None:
    assert lost_after(coach, 3, saved=coach.session.live.record).scores == ()
    at_the_cap = kept_after(coach, coach.session.journal.number - 5)
    assert told(at_the_cap) == {"Noor": "2+?", "Bram": "1+?"}
    found = lost_after(coach, 3, saved=at_the_cap)
    assert [(one.lane.name, one.score, one.kept) for one in found.scores] == [
        ("Noor", "2+4", "2+?"),
        ("Bram", "1+0", "1+?"),
    ]


def test_that_a_piece_was_settled_is_lost_where_no_score_of_it_is(coach: Any) -> None:
    numbered = next(
        number
        for number, event in enumerate(coach.session.journal.events)
        if isinstance(event, ev.Settled)
    )
    found = lost_after(coach, numbered)
    assert (found.scores, found.settled) == ((), ("Turntable",))
    assert lost_after(coach, numbered, saved=coach.session.live.record).settled == ()


def test_a_note_on_an_emergency_is_lost_with_the_journal_only(coach: Any) -> None:
    noted = next(
        number
        for number, event in enumerate(coach.session.journal.events)
        if isinstance(event, ev.EmergencyNoted)
    )
    whole = coach.session.live.record
    assert lost_after(coach, noted, saved=whole).notes == ("Ilse: dizzy, sat down, went home",)
    assert lost_after(coach, noted + 1).notes == ()


def test_that_the_class_is_over_is_all_that_goes_with_its_last_event(coach: Any) -> None:
    number = coach.session.journal.number
    found = lost_after(coach, number - 1)
    assert (found.ended, found.scores, found.settled) == (True, (), ())
    assert not lost_after(coach, number - 2).ended
