"""A plan in a few words and sums: how long it lasts, how much work it is."""

from msgspec import Struct

from classclock.plan.amounts import amount_of, load_of, rep_words, worth
from classclock.plan.formats.timelines import timeline
from classclock.plan.model import (
    Amount,
    CappedForTime,
    Countdown,
    Interval,
    LiftSet,
    LoadChoice,
    Option,
    Plan,
    RoundsInTime,
    Segment,
    Station,
    Step,
    is_piece,
)
from classclock.units.times import show_time

_INTERVAL_SCORES = {
    None: "",
    "total": ", total reps",
    "lowest": ", lowest interval",
    "best": ", best interval",
    "load": ", heaviest load",
}


class SegmentOutline(Struct, frozen=True):
    """One segment; its lengths are milliseconds, its reps those of the work as written."""

    name: str
    words: str
    scored: bool
    length: int
    """From go to the end or the cap."""
    count_in: int
    stations: tuple[str, ...]
    round_reps: int | None
    """What the first round is worth; None where there are no rounds."""
    total_reps: int | None
    """All the work of a capped piece; None elsewhere."""


class PlanOutline(Struct, frozen=True):
    title: str
    segments: tuple[SegmentOutline, ...]

    @property
    def total(self) -> int:
        """All segments from go to end, in milliseconds."""
        return sum(segment.length for segment in self.segments)

    @property
    def total_with_count_ins(self) -> int:
        """The least that the class takes on the clock, in milliseconds."""
        return self.total + sum(segment.count_in for segment in self.segments)


def outline(plan: Plan) -> PlanOutline:
    return PlanOutline(plan.title, tuple(_outline(segment) for segment in plan.segment))


def _outline(segment: Segment) -> SegmentOutline:
    has_rounds = isinstance(segment, RoundsInTime | CappedForTime)
    return SegmentOutline(
        name=segment.name,
        words=describe(segment),
        scored=is_piece(segment),
        length=timeline(segment).total,
        count_in=segment.count_in,
        stations=tuple(station_line(station) for station in segment.station),
        round_reps=round_reps(segment) if has_rounds else None,
        total_reps=total_reps(segment) if isinstance(segment, CappedForTime) else None,
    )


def round_reps(segment: Segment, round_index: int = 0) -> int:
    """What the round with this index is worth as written, the first being 0."""
    scheme = segment.scheme if isinstance(segment, CappedForTime) else None
    return sum(worth(station, None, round_index, scheme) for station in segment.station)


def total_reps(segment: CappedForTime) -> int:
    """All the work of a capped piece as written, in reps."""
    rounds = len(segment.scheme) if segment.scheme else segment.rounds or 0
    return sum(round_reps(segment, index) for index in range(rounds))


def describe(segment: Segment) -> str:
    """The format in the words of the wall: `rounds in 16:00, 27 reps a round`."""
    match segment:
        case Countdown():
            words = _describe_countdown(segment)
        case Interval():
            words = _describe_interval(segment)
        case RoundsInTime():
            words = f"rounds in {show_time(segment.time)}{_round_words(segment)}"
        case CappedForTime():
            words = _describe_capped(segment)
    return f"{words}, in teams of {segment.teams}" if segment.teams else words


def _describe_countdown(segment: Countdown) -> str:
    scored = {None: "", "load": "heaviest load in ", "reps": "most reps in "}[segment.score]
    return scored + show_time(segment.time)


def _describe_interval(segment: Interval) -> str:
    steps = ", ".join(_step_words(step) for step in segment.steps)
    works = sum(step.work is not None for step in segment.steps)
    times = f"({steps})" if works > 1 else steps
    return f"{segment.repeat} x {times}{_INTERVAL_SCORES[segment.score]}"


def _step_words(step: Step) -> str:
    if step.work is not None:
        return f"{show_time(step.work)} work"
    return f"{show_time(step.rest or 0)} rest"


def _round_words(segment: RoundsInTime) -> str:
    first, second = round_reps(segment), round_reps(segment, 1)
    if first != second:
        return f", {rep_words(first)} in the first round, {second} in the second, and so on"
    return f", {rep_words(first)} a round" if first else ""


def _describe_capped(segment: CappedForTime) -> str:
    if segment.scheme:
        work = "-".join(str(reps) for reps in segment.scheme)
    else:
        work = "1 round" if segment.rounds == 1 else f"{segment.rounds} rounds"
    total = total_reps(segment)
    reps = f", {rep_words(total)}" if total else ""
    return f"{work} for time, cap {show_time(segment.cap)}{reps}"


def station_line(station: Station, option: Option | None = None) -> str:
    """The station, or its option, in one line: `9 dumbbell push press, 22.5 kg / 15 kg`."""
    movement = station.movement if option is None else option.name
    load = load_of(station, option)
    words = f"{amount_words(amount_of(station, option))} {movement}".strip()
    return f"{words}, {load_words(load)}" if load is not None else words


def amount_words(amount: Amount) -> str:
    """`6`, `400 m`, `15 cal`, `0:30` or `4, 8, 12, …`; nothing where no amount is named."""
    if amount.climb is not None:
        first, step = amount.climb.first, amount.climb.step
        return f"{first}, {first + step}, {first + 2 * step}, …"
    if amount.metres is not None:
        return f"{amount.metres} m"
    if amount.calories is not None:
        return f"{amount.calories} cal"
    if amount.seconds is not None:
        return show_time(amount.seconds * 1000)
    return str(amount.reps) if amount.reps is not None else ""


def set_words(one: LiftSet) -> str:
    """One set of a lift: `3 at 65 %`, `5 at 60 kg`, `5 reps`."""
    if one.percent is not None:
        return f"{one.reps} at {one.percent:g} %"
    return f"{one.reps} at {load_words(one.load)}" if one.load is not None else rep_words(one.reps)


def load_words(load: LoadChoice) -> str:
    """`22.5 kg`, or all that the plan offers: `22.5 kg / 15 kg`."""
    return " / ".join(str(one) for one in load.values()) if isinstance(load, dict) else str(load)
