"""Who is to be asked what, in which order: at the settle, and while a piece runs."""

from collections.abc import Iterator

from msgspec import Struct

from classclock.tally.lane_tally import LaneTally
from classclock.tally.scores.questions import ScoreQuestion, questions
from classclock.tally.sheet import Sheet
from classclock.tally.signs import SIGNS, Doubt, Remark, signed
from classclock.units.loads import plain


class Asked(Struct, frozen=True):
    """What one lane is asked."""

    lane: str
    """Its id."""
    kind: Doubt | Remark
    words: str
    detail: str = ""
    """What it comes from."""
    keys: str = ""
    """What to type where only these keys say it: `3:80n`."""

    def said(self, words: str = "") -> str:
        """The words behind their sign; what nobody said yet is a question, and has its own."""
        words = words or self.words
        return words if self.kind == "not given" else signed(self.kind, words)


def to_ask(sheet: Sheet, now: int) -> tuple[Asked, ...]:
    """All of it at this moment, ms of the class; none once the piece is settled.

    Once it is over that is what the settle asks, in its order, and then which lifts nobody told.
    While it runs nobody is asked what they can't know yet: odd reps, and intervals to come.
    """
    if sheet.settled:
        return ()
    over = sheet.ended(now) is not None
    elapsed = sheet.elapsed(now)
    asked = questions(sheet)
    found = [_of_question(one) for one in (asked if over else _by_now(sheet, asked, elapsed))]
    tallies = [sheet.tallies[lane.id] for lane in sheet.lanes]
    if not over:
        found += [
            Asked(one.lane.id, "missed one", SIGNS["missed one"].word)
            for one in tallies
            if one.asks_missed
        ]
    lifts = (lift for one in tallies for lift in _lifts_not_told(sheet, one, elapsed))
    return (*found, *lifts)


def _of_question(one: ScoreQuestion) -> Asked:
    return Asked(one.lane, one.doubt, one.words, one.detail)


def _by_now(
    sheet: Sheet, asked: tuple[ScoreQuestion, ...], elapsed: int
) -> Iterator[ScoreQuestion]:
    done = _steps_done(sheet, elapsed)
    for one in asked:
        if one.doubt != "not given":
            yield one
        elif lacking := tuple(number for number in one.intervals if number in done):
            which = f"interval{'s' if len(lacking) > 1 else ''} {', '.join(map(str, lacking))}"
            words = f"{which}{SIGNS['not given'].sign}"
            yield ScoreQuestion(one.lane, one.name, one.key, one.doubt, words)


def _steps_done(sheet: Sheet, elapsed: int) -> frozenset[int]:
    """The numbers of the work steps that are over."""
    spans = sheet.timeline.spans
    return frozenset(one.number for one in spans if one.kind == "work" and one.end <= elapsed)


def _lifts_not_told(sheet: Sheet, tally: LaneTally, elapsed: int) -> Iterator[Asked]:
    """The sets that are over, of which nobody said whether the lane made or missed them."""
    by_set = sheet.piece.counts_by == "load" and sheet.timeline.steps > 1
    if not by_set or tally.out:
        return
    told = {tried.number for tried in tally.attempts}
    lane = tally.lane
    lacking = sorted(_steps_done(sheet, elapsed) - told)
    if not lacking:
        return
    which = f"set{'s' if len(lacking) > 1 else ''} {', '.join(map(str, lacking))}"
    load = sheet.piece.planned_load(lane, lacking[0])
    keys = f"{lacking[0]}:{plain(load.amount) if load is not None else 'load '}{lane.key}"
    yield Asked(lane.id, "not given", f"{which}: made?", keys=keys)
