"""Who is to be asked what before a piece is settled, lane by lane."""

from collections.abc import Iterator
from typing import Any

from msgspec import Struct

from classclock.tally.events import LetStand, Lifted, Tapped, TookBack
from classclock.tally.lane_tally import ODD_REPS_CUT, Doubted, LaneTally
from classclock.tally.ledger import Entry
from classclock.tally.scores.score_parts import missing_intervals
from classclock.tally.sheet import Sheet
from classclock.tally.signs import SIGNS, Doubt


class ScoreQuestion(Struct, frozen=True):
    """What one lane is asked."""

    lane: str
    name: str
    key: str
    doubt: Doubt
    words: str
    """As it is asked aloud: `odd reps?`. It says no more than the room may read."""
    short: str = ""
    """The same for a narrow screen; empty where the words are short."""
    detail: str = ""
    """What it comes from, for the coach."""
    number: str = ""
    """What a number is that answers it: `odd reps`; empty where none does."""
    intervals: tuple[int, ...] = ()
    """Those that nobody gave, from 1: a number alone is the first one's."""


def questions(sheet: Sheet) -> tuple[ScoreQuestion, ...]:
    """All of them in the order of the lanes; none once the piece is settled.

    A lane is asked for what nobody gave first, then for what may be wrong.
    """
    if sheet.settled:
        return ()
    return tuple(one for lane in sheet.lanes for one in _of_lane(sheet, sheet.tallies[lane.id]))


def entry_in_doubt(sheet: Sheet, lane: str, doubt: Doubt) -> int | None:
    """The number of the entry that the lane's first doubt of this kind comes from, if there is one.

    Of two taps that came for one round that is the second.
    """
    tally, standing = sheet.tallies[lane], sheet.ledgers.standing(lane)
    if doubt == "load":
        at = tally.load_in_doubt
        lifts = [
            one.number for one in standing if _is_lift(one) and one.number not in tally.uncounted
        ]
        return None if at is None else lifts[at]
    asked = _of_kind(sheet, lane, doubt)
    other = []
    for entry in sorted(standing, key=lambda one: one.arrived, reverse=True):
        if isinstance(entry.event, LetStand):
            continue  # an answer, and no call
        left = _of_kind(sheet.apply(-1, TookBack(entry.event.at, entry.number)), lane, doubt)
        if left[:1] != asked[:1]:
            return entry.number
        if len(left) < len(asked):
            other.append(entry.number)
    return other[0] if other else None


def _is_lift(entry: Entry) -> bool:
    event = entry.event
    return isinstance(event, Tapped) or (isinstance(event, Lifted) and not event.instead)


def _of_kind(sheet: Sheet, lane: str, doubt: Doubt) -> tuple[ScoreQuestion, ...]:
    return tuple(one for one in _of_lane(sheet, sheet.tallies[lane]) if one.doubt == doubt)


def _of_lane(sheet: Sheet, tally: LaneTally) -> Iterator[ScoreQuestion]:
    if tally.stopped is not None and tally.nothing_done:
        return
    lane = tally.lane

    def ask(doubt: Doubt, words: str, **more: Any) -> ScoreQuestion:
        return ScoreQuestion(lane.id, lane.name, lane.key, doubt, words, **more)

    if sheet.piece.counts_by == "rounds" and tally.finish is None and tally.odd is None:
        yield ask("not given", "odd reps?", number="odd reps")
    missing = missing_intervals(sheet.piece, tally)
    if unknown := tuple(number for number in missing if number not in tally.let_unknown):
        which = f"interval{'s' if len(unknown) > 1 else ''} {', '.join(map(str, unknown))}"
        about = f"in interval {unknown[0]}"
        yield ask("not given", f"{which}?", number=about, intervals=unknown)
    for one in tally.doubted:
        words, short, number = _asked(one)
        yield ask(one.doubt, words, short=short, detail=one.words, number=number)
    if tally.station_doubtful:
        yield ask("fast", f"a station {SIGNS['fast'].word}: two taps?", short="two taps?")


def _asked(one: Doubted) -> tuple[str, str, str]:
    """How it is asked, in short, and what a number is that answers it."""
    match one.doubt:
        case "fast":
            return f"{one.about} {SIGNS['fast'].word}: two taps?", "two taps?", ""
        case "filled in":
            return f"{one.about} was never called: right?", f"{one.about}?", ""
        case "load":
            return f"{one.about}: right?", "", "as the load"
        case "less" if one.about == ODD_REPS_CUT:
            return "odd reps of the smaller round?", "odd reps?", "odd reps"
        case _:
            return "a call counts no more: right?", "right?", ""
