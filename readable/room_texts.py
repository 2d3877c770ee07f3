"""What the room has to be able to read in each state, said apart from how it is shown."""

from collections.abc import Callable, Mapping
from typing import Literal

from msgspec import Struct

from classclock.live.session import Session
from classclock.tally.lane_tally import LaneTally
from classclock.tally.scores.questions import questions
from classclock.tally.scores.scores import scores
from classclock.tally.sheet import Sheet
from classclock.units.times import show_time
from readable.made_plan import SETS, load, plates
from readable.script import State

Role = Literal[
    "clock",
    "word",
    "name",
    "key",
    "tally",
    "load",
    "plates",
    "movement",
    "set",
    "title",
    "next",
    "caution",
    "coach",
]
"""`word`: HELD, TIME, ALL IN, GET READY, REST, `2 of 4`. `next`: what the room must do next.

`coach`: what is read at the laptop alone.
"""
_FIRST: tuple[Role, ...] = (
    *("caution", "clock", "next", "word"),
    *("load", "tally", "name", "key", "set", "plates", "movement", "title", "coach"),
)
"""What rather has the room where not all is large: all that each looks for as their own, then what
is the same for everybody. A key is read at the laptop too, and says nothing without a name."""
_FIRST_IN_STEPS: tuple[Role, ...] = (*(one for one in _FIRST if one != "word"), "word")
"""There the word is which step it is, and what is done in it is asked for more."""
_FIRST_ON_BOARDS: tuple[Role, ...] = (
    *("caution", "movement", "load", "set", "title", "name", "key", "plates", "coach"),
)
"""There the work comes first, and its title says for how long: nobody has a tally yet."""


class Wanted(Struct, frozen=True):
    role: Role
    texts: tuple[str, ...]
    """Each as often as it must stand there."""
    widest: str = ""
    """What room is kept for, so that nothing moves when it comes; none: for what stands there."""
    to_come: tuple[str, ...] = ()
    """What else room is kept for."""


_Texts = Callable[[Session], tuple[str, ...]]


def wanted(state: State, session: Session) -> tuple[Wanted, ...]:
    """By role, in the words of the made plan and of what was typed."""
    return tuple(
        Wanted(role, texts(session), _widest(state, role, session), _TO_COME.get((state, role), ()))
        for role, texts in _STATES[state].items()
    )


def first(state: State) -> tuple[Role, ...]:
    """What rather has the room, in order."""
    if state.startswith("board"):
        return _FIRST_ON_BOARDS
    return _FIRST_IN_STEPS if state == "running, steps" else _FIRST


def _widest(state: State, role: Role, session: Session) -> str:
    if role == "plates":
        people = range(len(session.live.record.people))
        return max((plates(at, one + 1) for at in people for one in range(SETS)), key=len)
    return _WIDEST.get((state, role), "")


def _clock(session: Session) -> tuple[str, ...]:
    view, live = session.live.view(), session.live
    if view is None:
        raise RuntimeError("no clock runs")
    reading = view.at(live.clock.now())
    counts_in = reading.span.kind == "count-in"
    return (str(reading.shown) if counts_in else show_time(reading.shown * 1000),)


def _names(session: Session) -> tuple[str, ...]:
    return tuple(person.name for person in session.live.record.people)


def _keys(session: Session) -> tuple[str, ...]:
    return tuple(person.key.upper() for person in session.live.record.people)


def _sheet(session: Session) -> Sheet:
    sheet = session.live.record.sheet
    if sheet is None:
        raise RuntimeError("no piece has begun")
    return sheet


def _tallies(session: Session) -> tuple[str, ...]:
    sheet = _sheet(session)
    counts = sheet.piece.counts_by
    return tuple(_tally(tally, counts) for tally in sheet.tallies.values())


def _tally(tally: LaneTally, counts: str) -> str:
    if tally.finish is not None:
        return show_time(-(-tally.finish // 1000) * 1000)
    if counts == "intervals":
        return str(sum(reps for reps in tally.intervals if reps is not None))
    return str(len(tally.rounds))


def _scores(session: Session) -> tuple[str, ...]:
    record = session.live.record
    every = scores(record.heats(record.chosen), now=None, settled=False)
    return tuple(score.score for score in every)


def _loads(number: int) -> _Texts:
    """What each has on the bar in this set; the unit is the same for all, and known."""

    def texts(session: Session) -> tuple[str, ...]:
        people = range(len(session.live.record.people))
        return tuple(load(at, number).partition(" ")[0] for at in people)

    return texts


def _plates(number: int) -> _Texts:
    def texts(session: Session) -> tuple[str, ...]:
        return tuple(plates(at, number) for at in range(len(session.live.record.people)))

    return texts


def _last_scores(session: Session) -> tuple[str, ...]:
    """Of the last piece, which has a page as every other."""
    record = session.live.record
    every = scores(record.heats(record.pieces()[-1]), now=None, settled=True)
    return tuple(score.score for score in every)


def _asked_first(session: Session) -> tuple[str, ...]:
    first = questions(_sheet(session))[0]
    return (f"{first.name}: {first.words}",)


def _always(*texts: str) -> _Texts:
    return lambda _: texts


_LANES: Mapping[Role, _Texts] = {"key": _keys, "name": _names}
_RUNNING: Mapping[Role, _Texts] = {"clock": _clock, **_LANES, "tally": _tallies}
_SETTLE: Mapping[Role, _Texts] = {**_LANES, "tally": _scores}
_FOOT = (
    *("ctrl+t: boxes are short", "next: Third Rail, 12:00", "min of the class left"),
    "Night Line",
)
"""What stands in rows of its own over the keys and, of the class, over the board."""
_ROUND = _always("6 box step-over", "12 bodyweight squat")
_CAUTIONS = _always(
    "! Dizzy, chest pain, sharp pain: stop and call the coach.", "! Step down from the box."
)
_RAIL = _always("ring row", "push-up")
_STATES: Mapping[State, Mapping[Role, _Texts]] = {
    "warm-up": {"clock": _clock, "movement": _always("easy row", "arm circles")},
    "board": {
        "title": _always("Points Lever", "rounds in 10:00"),
        "movement": _ROUND,
        "caution": _CAUTIONS,
        **_LANES,
        "coach": _always(
            "both feet on the box",
            "hip crease below the knee, then stand tall",
            "18 reps a round",
            *_FOOT,
        ),
    },
    "teaching": {"movement": _always("box step-over")},
    "sharing": {"coach": _always("escape leaves it")},
    "people": {"coach": _names},
    "count-in": {
        "clock": _clock,
        "word": _always("GET READY"),
        "title": _always("Points Lever"),
        "movement": _ROUND,
        "caution": _CAUTIONS,
    },
    "running": {**_RUNNING, "movement": _ROUND},
    "held": {**_RUNNING, "word": _always("HELD"), "movement": _ROUND},
    "card": {
        "next": _always(
            "Call the local emergency number now.",
            "Send someone to the door.",
            "We are at Line 0 Depot, 0 Points Row, yard gate",
            "Defibrillator: in the ticket window, left of the door",
            "First-aid kit: green box under the route map",
        )
    },
    "time": {**_RUNNING, "word": _always("TIME")},
    "settle": {**_SETTLE, "next": _asked_first},
    "board, scheme": {
        "title": _always("Third Rail"),
        "movement": _always("18 12 6", "ring row", "push-up"),
        **_LANES,
        "coach": _always(
            *("rings to the ribs", "chest to the floor", "for time, cap 12:00"),
            *("here would finish within 12:00", "! Dizzy, chest pain"),
            *("next: Signal Box", "min of the class left", "Night Line"),
        ),
    },
    "running, scheme": {**_RUNNING, "movement": _RAIL},
    "all in": {**_RUNNING, "word": _always("ALL IN")},
    "settle, times": _SETTLE,
    "running, steps": {
        **_RUNNING,
        "word": _always("2 of 4"),
        "movement": _always("goblet squat"),
    },
    "board, lift": {
        "title": _always("Back squat"),
        "set": _always("5 at 40 kg"),
        **_LANES,
        "load": _loads(1),
        "plates": _plates(1),
        "coach": _always(
            *("set 1 of 3", "! Dizzy, chest pain"),
            *("next: Yard lap", "min of the class left", "Night Line"),
        ),
    },
    "running, lift": {
        "clock": _clock,
        "word": _always("WORK"),
        "set": _always("5 at 40 kg"),
        **_LANES,
        "load": _loads(1),
        "plates": _plates(1),
        "coach": _always("1 of 3"),
    },
    "rest, lift": {
        "clock": _clock,
        "word": _always("REST"),
        "set": _always("then 5 at 45 kg"),
        **_LANES,
        "load": _loads(2),
        "plates": _plates(2),
        "coach": _always("1 of 3"),
    },
    "settle, lift": _SETTLE,
    "end": {"name": _names, "tally": _last_scores},
}
_WIDEST: Mapping[tuple[State, Role], str] = {
    ("count-in", "clock"): "10",
    **{(state, "clock"): "10:00" for state in ("running", "held", "time")},
    **{(state, "clock"): "12:00" for state in ("running, scheme", "all in")},
    ("running", "tally"): "12",
    **{(state, "tally"): "12+12" for state in ("held", "time")},
    **{(state, "tally"): "12:00" for state in ("running, scheme", "all in")},
    ("running, steps", "tally"): "128",
    ("running, steps", "word"): "00 of 00",
    ("running, steps", "movement"): "then goblet squat",
    **{(state, "set"): "then 5 at 45 kg" for state in ("running, lift", "rest, lift")},
}
_TO_COME: Mapping[tuple[State, Role], tuple[str, ...]] = {("running, steps", "word"): ("REST",)}
"""Of what changes while a piece runs; where a word is called lanes stay with room for odd reps."""
