"""Interval: steps of work and rest, gone through several times."""

from collections.abc import Iterator
from typing import Annotated, ClassVar, Literal, Self, assert_never

from pydantic import Field

from classclock.clock.cues import STEP
from classclock.clock.span import Span, SpanKind
from classclock.plan.file_key import TEXT, TIME, YES, FileKey, nearest
from classclock.plan.findings import Fault, Path
from classclock.plan.formats.counting import Counting
from classclock.plan.formats.fit import Fit, fewer_repeats
from classclock.plan.formats.segment_base import About, SegmentBase, WrittenTurn
from classclock.plan.value_types import Flag, Label, Length, Repeats, Strict, Text
from classclock.plan.written_values import Table, tables
from classclock.units.printable import printable
from classclock.units.times import show_time

_SCORED = {
    None: "",
    "total": ", total reps",
    "lowest": ", lowest interval",
    "best": ", best interval",
    "load": ", heaviest load",
}


class Step(Strict):
    """One step of an interval segment: `work` or `rest`, exactly one of the two."""

    work: Length | None = None
    """How long this step of work is."""
    rest: Length | None = None
    """How long this rest is."""
    label: Label = ""
    """What the wall says in place of WORK or REST."""
    stations: tuple[Text, ...] = ()
    """The movements of the segment's stations that are done in this step; none means all."""


class Interval(SegmentBase):
    format: Literal["interval"]
    repeat: Repeats
    """How often the steps are gone through."""
    steps: Annotated[tuple[Step, ...], Field(min_length=1, max_length=60)]
    """The steps of work and rest, in their order."""
    keep_last_rest: Flag = False
    """Whether the last rest is waited for; otherwise the segment ends with the last work."""
    score: Literal["total", "lowest", "best", "load"] | None = None
    """What is scored: all reps, those of the lowest or of the best interval, or the heaviest load;
    unscored without it."""

    about: ClassVar[About] = About(
        offered_as="steps of work and rest, gone through several times",
        begins_with="steps of work and rest",
        called="Intervals",
        starter='repeat = 5\nsteps = [{ work = "2:00" }, { rest = "1:00" }]',
        fields=("repeat", "steps", "score", "keep_last_rest"),
        keys={
            "repeat": FileKey(
                "a whole number from 1 to 200", "8", "how often the steps are gone through: 8"
            ),
            "steps": FileKey(
                "a list of 1 to 60 steps",
                '[{ work = "0:20" }, { rest = "0:10" }]',
                "work 0:20; rest 0:10   (words behind the time are its label)",
                "steps",
            ),
            "keep_last_rest": FileKey(
                YES, "true", "yes or no: whether the last rest is waited for"
            ),
            "work": FileKey(TIME, '"0:20"'),
            "rest": FileKey(TIME, '"0:10"'),
            "label": FileKey(TEXT, '"hard"'),
            "stations": FileKey("a list of movements", '["plank hold"]', form="lines"),
        },
        also_called={"rounds": "repeat", "times": "repeat", "intervals": "repeat"},
        known_by=frozenset({"steps", "repeat", "keep_last_rest"}),
        in_steps=True,
        cues=(STEP,),
        reported=("intervals, {time}", "intervals"),
    )

    @property
    def counting(self) -> Counting:
        match self.score:
            case None:
                return Counting(counts_by="nothing")
            case "load":
                return Counting(counts_by="load")
            case "total" | "lowest" | "best":
                return Counting(counts_by="intervals", interval_rule=self.score)
        assert_never(self.score)

    def spans(self, total: int | None = None) -> tuple[Span, ...]:
        if total is not None:
            raise ValueError(
                f'"{self.name}" keeps its length: change its steps or its repeat in the plan'
            )
        steps = list(self.steps) * self.repeat
        if steps[-1].work is None and not self.keep_last_rest and len(steps) > 1:
            steps.pop()
        spans: list[Span] = []
        start = number = 0
        for step in steps:
            if step.work is not None:
                number += 1
            length = step.work if step.work is not None else step.rest or 0
            kind: SpanKind = "rest" if step.work is None else "work"
            spans.append(Span(kind, start, start + length, step.label, number, step.stations))
            start += length
        return tuple(spans)

    def ways_shorter(self) -> tuple[Fit, ...]:
        return fewer_repeats(self.repeat)

    def fitted(self, fit: Fit) -> Self:
        if fit.left_out:
            return self
        if fit.repeat is None or not 0 < fit.repeat < self.repeat:
            raise ValueError(f'"{self.name}" can\'t be made so short')
        works = fit.repeat * sum(step.work is not None for step in self.steps)
        return self.model_copy(update={"repeat": fit.repeat, "sets": self.sets[:works]})

    def headline(self) -> str:
        if len(self.steps) > 1:
            return f"{self.repeat} x"
        return f"{self.repeat} x {show_time(self.steps[0].work or self.steps[0].rest or 0)}"

    def terms(self) -> str:
        return _SCORED[self.score]

    def turns(self) -> tuple[WrittenTurn, ...]:
        if len(self.steps) == 1:
            only = self.steps[0]
            return (WrittenTurn(only.label, only.stations),) if only.label or only.stations else ()
        return tuple(_turn(step) for step in self.steps)

    def described(self) -> str:
        steps = ", ".join(_step_words(step) for step in self.steps)
        works = sum(step.work is not None for step in self.steps)
        times = f"({steps})" if works > 1 else steps
        return f"{self.repeat} x {times}{_SCORED[self.score]}"

    @classmethod
    def faults(cls, values: Table, path: Path) -> Iterator[Fault]:
        steps = tables(values.get("steps"))
        for number, step in steps:
            here = (*path, "steps", number)
            if "work" in step and "rest" in step:
                yield Fault(here, "a step with both work and rest", "Make two steps of it")
            elif "work" not in step and "rest" not in step:
                what = "a step with neither work nor rest"
                instead = 'Write work = "0:20" or rest = "0:10"'
                yield Fault(here, what, instead, missing=("work", "rest"))
            yield from _unknown_stations(values, step, here)
        if steps and all("rest" in step and "work" not in step for _, step in steps):
            yield Fault((*path, "steps"), "all steps are rest", 'Write { work = "0:20" } for one')
        sets, repeat = values.get("sets"), values.get("repeat")
        works = sum("work" in step for _, step in steps)
        if (
            isinstance(sets, list)
            and sets
            and type(repeat) is int
            and works * repeat not in {0, len(sets)}
        ):
            what = f"{works * repeat} work steps, but the number of sets is {len(sets)}"
            yield Fault((*path, "sets"), what, "Make the two numbers equal", "hint")


def _turn(step: Step) -> WrittenTurn:
    if step.work is None or not (step.label or step.stations):
        words = f"{_step_words(step)}, {step.label}" if step.label else _step_words(step)
        return WrittenTurn(words)
    long = show_time(step.work)
    return (
        WrittenTurn(long, step.stations) if step.stations else WrittenTurn(f"{long} {step.label}")
    )


def _step_words(step: Step) -> str:
    if step.work is not None:
        return f"{show_time(step.work)} work"
    return f"{show_time(step.rest or 0)} rest"


def _unknown_stations(segment: Table, step: Table, path: Path) -> Iterator[Fault]:
    """The movements that a step names and no station of the segment has."""
    there = tuple(
        station["movement"].strip()
        for _, station in tables(segment.get("station"))
        if isinstance(station.get("movement"), str)
    )
    named = step.get("stations")
    for number, movement in enumerate(named if isinstance(named, list) else []):
        if isinstance(movement, str) and movement.strip() and movement.strip() not in there:
            near = nearest(movement, there)
            here = (*path, "stations", number)
            what = f'no station of this segment has the movement "{printable(movement)}"'
            add = f'Add a [[segment.station]] with movement = "{printable(movement)}"'
            instead = f'Write "{printable(near)}"' if near else add
            yield Fault(here, what, instead, missing=("movement",))
