"""A plan in a few words and sums: how long it lasts, how much work it is."""

from msgspec import Struct

from classclock.plan.amounts import amount_of, load_of, rep_words
from classclock.plan.formats.segment_base import SegmentBase
from classclock.plan.formats.timelines import timeline
from classclock.plan.lift_set import LiftSet
from classclock.plan.model import Plan, is_piece
from classclock.plan.station import Amount, Option, Station
from classclock.plan.value_types import LoadChoice
from classclock.units.times import show_time


class SegmentOutline(Struct, frozen=True):
    """One segment; its reps are those of the work as written."""

    name: str
    words: str
    scored: bool
    length_ms: int
    """From go to the end or the cap."""
    count_in_ms: int
    stations: tuple[str, ...]
    round_reps: int | None
    """What the first round is worth; None where there are no rounds."""
    total_reps: int | None
    """All the work, where it is a set amount; None elsewhere."""


class PlanOutline(Struct, frozen=True):
    title: str
    segments: tuple[SegmentOutline, ...]

    @property
    def total_ms(self) -> int:
        """All segments from go to end."""
        return sum(segment.length_ms for segment in self.segments)

    @property
    def total_with_count_ins_ms(self) -> int:
        """The least that the class takes on the clock."""
        return self.total_ms + sum(segment.count_in_ms for segment in self.segments)


def outline(plan: Plan) -> PlanOutline:
    return PlanOutline(plan.title, tuple(_outline(segment) for segment in plan.segment))


def _outline(segment: SegmentBase) -> SegmentOutline:
    return SegmentOutline(
        name=segment.name,
        words=describe(segment),
        scored=is_piece(segment),
        length_ms=timeline(segment).total,
        count_in_ms=segment.count_in,
        stations=tuple(station_line(station) for station in segment.station),
        round_reps=segment.round_reps() if segment.about.has_rounds else None,
        total_reps=segment.total_reps,
    )


def describe(segment: SegmentBase) -> str:
    """The format in the words of the wall: `rounds in 16:00, 27 reps a round`."""
    return f"{segment.described()}{_teams(segment)}"


def terms_words(segment: SegmentBase) -> str:
    """The same without its headline: `for time, cap 9:00, 72 reps`."""
    return f"{segment.terms()}{_teams(segment)}".lstrip(", ")


def _teams(segment: SegmentBase) -> str:
    return f", in teams of {segment.teams}" if segment.teams else ""


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
