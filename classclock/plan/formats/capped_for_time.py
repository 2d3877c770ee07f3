"""Capped for time: a set amount of work, as fast as possible, until a cap."""

from collections.abc import Iterator
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from classclock.clock.span import Span
from classclock.plan.amounts import AMOUNTS, rep_words
from classclock.plan.file_key import TIME, FileKey
from classclock.plan.findings import Fault, Path
from classclock.plan.formats.counting import Counting
from classclock.plan.formats.segment_base import About, SegmentBase, one_stretch
from classclock.plan.value_types import Length, Positive, Repeats
from classclock.plan.written_values import Table, tables
from classclock.units.times import show_time


class CappedForTime(SegmentBase):
    format: Literal["capped-for-time"]
    cap: Length
    """The longest that it may last; whoever has finished before has their time as the score."""
    rounds: Repeats | None = None
    """How many rounds the work has; this or `scheme`."""
    scheme: Annotated[tuple[Positive, ...], Field(min_length=1, max_length=60)] | None = None
    """The reps, round by round, of every station that names none; this or `rounds`."""
    count: Literal["round", "station", "finish"] = "round"
    """What one stroke of a key counts."""

    about: ClassVar[About] = About(
        offered_as="a set amount of work against the clock, with a cap",
        begins_with="a set amount of work and a cap",
        called="For time",
        starter='cap = "12:00"\nrounds = 3',
        fields=("cap", "rounds", "scheme", "count"),
        keys={
            "cap": FileKey(TIME, '"12:00"', "minutes:seconds, as in 12:00"),
            "rounds": FileKey("a whole number from 1 to 200", "3", "how many rounds: 3"),
            "scheme": FileKey(
                "a list of 1 to 60 whole numbers",
                "[18, 12, 6]",
                "reps from round to round: 18-12-6",
                "numbers",
            ),
        },
        also_called={"repeat": "rounds", "times": "rounds"},
        known_by=frozenset({"cap", "rounds", "scheme"}),
        length_key="cap",
        rounds="set",
        reported=("for time, cap {time}", "for time"),
    )

    @property
    def counting(self) -> Counting:
        rounds = len(self.scheme) if self.scheme else self.rounds or 0
        return Counting(counts_by="rounds", rounds=rounds, count=self.count, scheme=self.scheme)

    def spans(self, total: int | None = None) -> tuple[Span, ...]:
        return one_stretch(self.cap if total is None else total)

    @property
    def counts_up(self) -> bool:
        return True

    def headline(self) -> str:
        if self.scheme:
            return "-".join(str(reps) for reps in self.scheme)
        return "1 round" if self.rounds == 1 else f"{self.rounds} rounds"

    def terms(self) -> str:
        total = self.total_reps
        reps = f", {rep_words(total)}" if total else ""
        return f" for time, cap {show_time(self.cap)}{reps}"

    @classmethod
    def faults(cls, values: Table, path: Path) -> Iterator[Fault]:
        stations = tables(values.get("station"))
        if "rounds" in values and "scheme" in values:
            what = 'both "rounds" and "scheme" say how much work it is'
            yield Fault((*path, "scheme"), what, "Keep one of them")
        elif "rounds" not in values and "scheme" not in values:
            what = 'neither "rounds" nor "scheme" says how much work it is'
            instead = "Write rounds = 3, or scheme = [18, 12, 6]"
            yield Fault(path, what, instead, missing=("rounds", "scheme"))
        elif "scheme" in values and not stations:
            what = '"scheme" without a station that does these reps'
            instead = 'Add a [[segment.station]] with movement = "box step-over"'
            yield Fault((*path, "scheme"), what, instead, missing=("station",))
        elif "scheme" in values and all(any(key in one for key in AMOUNTS) for _, one in stations):
            what = '"scheme" gives nothing: every station names its own amount'
            instead = "Take the amount out of a station, or write rounds in place of scheme"
            yield Fault((*path, "scheme"), what, instead)
