"""What the coach does to a class beside the key language: each comes to an outcome."""

from collections.abc import Sequence
from itertools import chain
from pathlib import Path

from classclock.book.asking.known_people import KnownPerson
from classclock.book.asking.people_reading import known_as, person_called
from classclock.live.live_class import Outcome
from classclock.live.session import Session
from classclock.machine.disk_faults import reason
from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.refusal import Refusal
from classclock.tally.visitors import visitor_called
from classclock.units.names import name_key, tidy_name, typed_names, typed_twice


def take_in(session: Session, typed: str, known: Sequence[KnownPerson] | None = None) -> Outcome:
    """Who came late or is back, several with commas between; or, with `=`, a visitor's name.

    Two of one name can't be told apart. `known` is whom the club may mean; it is read now if it
    isn't given.
    """
    live, names = session.live, typed_names(typed)
    who, names_one, name = typed.partition("=")
    if names_one:
        meant = visitor_called(who, live.record.people)
        if isinstance(meant, Refusal):
            return Outcome(meant.text, refused=True)
        return name_visitor(session, meant.id, name, known)
    twice = typed_twice([*(person.name for person in live.record.here), *names])
    if twice is not None:
        return Outcome(f"there is a {twice} already: + again, with an initial", refused=True)
    came = [_take_in(session, name, known) for name in names]
    said = "; ".join(filter(None, (outcome.text for outcome in came)))
    return Outcome(said, events=tuple(chain.from_iterable(outcome.events for outcome in came)))


def _take_in(session: Session, name: str, known: Sequence[KnownPerson] | None) -> Outcome:
    live = session.live
    record, called = live.record, name_key(name)
    gone = [one for one in record.people if one.id in record.left and name_key(one.name) == called]
    if gone:
        return live.back(gone[-1].id)
    here = {person.id for person in live.record.people}
    known = session.known_for(name) if known is None else known
    return live.add_person(person_called(name, known, here))


def name_visitor(
    session: Session, person_id: str, name: str, everybody: Sequence[KnownPerson] | None = None
) -> Outcome:
    """Say who a visitor is: somebody new, or whoever the book has under that name, who isn't here.

    The book then has two entries of one person, which a merge makes one; it can be taken back.
    `everybody` are those whom the club may mean; they are read now if they aren't given.
    """
    here = {person.id for person in session.live.record.people}
    everybody = session.known_for(name) if everybody is None else everybody
    known = known_as(tidy_name(name), everybody)
    if known is None or known.id in here:
        return session.live.name_visitor(person_id, name)
    outcome = session.live.name_visitor(person_id, known.name, known.marks)
    if outcome.refused:
        return outcome
    session.same_person(person_id, known)
    words = f"{outcome.text}, whom the book knows; classclock book undo makes two of them again"
    return Outcome(words, events=outcome.events)


def note(session: Session, text: str, person_id: str | None) -> Outcome:
    """A line about the class, or about somebody in it."""
    return _noted(session, ev.Noted(session.live.clock.now(), text, person_id))


def note_emergency(session: Session, text: str) -> Outcome:
    return _noted(session, ev.EmergencyNoted(session.live.clock.now(), text))


def _noted(session: Session, event: ev.Noted | ev.EmergencyNoted) -> Outcome:
    noted = session.live.record_event(event)
    return Outcome("noted in the class's journal, nowhere else", events=noted.events)


def stop_clock(session: Session) -> Outcome:
    """Hold the clock, or call the count-in off; nothing if it stands."""
    match session.live.phase:
        case "running":
            return session.live.do(cmd.HoldClock())
        case "count-in":
            return session.live.do(cmd.CallOff())
        case _:
            return Outcome()


def check_clock(session: Session, sign: str) -> Outcome:
    """After a restart: a second back or on, or that the clock is right."""
    if sign == "<enter>":
        session.check_clock = False
        return Outcome("the clock goes on as it is")
    return session.live.do(cmd.ShiftClock(1000 if sign == "<right>" else -1000))


def save_elsewhere(session: Session, folder: Path) -> Outcome:
    try:
        session.save_elsewhere(folder)
    except OSError as error:
        why = f"that one can't be written to either ({reason(error)})"
        return Outcome(f"F8 tries another place: {why}", refused=True)
    refused = session.on_disk.refused
    if refused is not None:
        why = f"not all is on disk in that one ({refused.why})"
        return Outcome(f"F8 tries another place: {why}", refused=True)
    return Outcome(f"saved in {folder} from now on")
