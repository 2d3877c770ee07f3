"""What the wall says beside the lanes: the clock, and what is being done."""

from collections.abc import Iterator
from functools import lru_cache

from msgspec import Struct

from classclock.clock.span import Span
from classclock.clock.timeline import Reading, Timeline
from classclock.plan.cautions import cautions_of
from classclock.plan.model import Segment
from classclock.plan.outline import describe, set_words, station_line
from classclock.tally.fitted_words import fitted_words
from classclock.tally.record import ClassRecord, Phase
from classclock.tally.sheet import Sheet
from classclock.units.kept import Same
from classclock.units.printable import printable
from classclock.units.times import show_time

_LONGEST = 200
END_STAYS = 2_000
"""Milliseconds after the end for which the clock stands inverted."""


class WallContent(Struct, frozen=True):
    clock: str
    title: str
    words: str
    """The format, in words."""
    head: str = ""
    """The numbers of a scheme, until the work begins: `18-12-6`."""
    fitted: str = ""
    """What was planned, where it is shorter."""
    emphasis: str = ""
    """One word or two, large: the step, a cue, that the clock is held."""
    held: bool = False
    inverted: bool = False
    """The end has just come: the clock stands inverted for a moment, and steadily."""
    progress: str = ""
    """Which interval of how many."""
    total_left: str = ""
    """Beside an interval's own time."""
    stations: tuple[str, ...] = ()
    standards: tuple[str, ...] = ()
    """What makes a rep count, station by station."""
    lift: bool = False
    """Whether the only station is the set of a lift: `3 at 65 %`."""
    lines: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    hint: str = ""
    """What a key would do now."""
    longest_stations: tuple[str, ...] = ()
    """Of the step with the most to say: room is kept for them, so that nothing moves."""
    longest_standards: tuple[str, ...] = ()
    longest_clock: str = ""
    """Of what the clock shows in this piece; empty: what it shows now."""
    longest_emphasis: str = ""
    """Of the steps' words the longest; empty where a piece has none."""


def wall_content(
    record: ClassRecord, sheet: Sheet, reading: Reading, phase: Phase, *, cue: str = "", now: int
) -> WallContent:
    """The wall at this moment of the class; `cue` is the word of a cue that has just come."""
    segment = record.segment
    timeline = sheet.timeline
    lines = tuple(_stations(segment, reading, timeline))
    longest, step_word = _longest(Same(segment), Same(timeline))
    counting_in = phase == "count-in"
    held, over = phase == "held", phase in ("over", "closed")
    just_over = over and sheet.late_by(now) < END_STAYS
    all_in = None if held or over else sheet.all_in(now)
    return WallContent(
        clock=str(reading.shown) if counting_in else show_time(reading.shown * 1000),
        title=printable(segment.name),
        words=describe(segment),
        head=segment.headline() if counting_in and segment.counting.scheme else "",
        fitted=fitted_words(record, record.chosen.segment, sheet),
        emphasis=_emphasis(segment, reading, phase, cue, all_in=all_in is not None),
        held=held,
        inverted=just_over,
        progress="" if counting_in else _progress(sheet, reading),
        total_left="" if counting_in else _total_left(sheet, reading),
        stations=tuple(printable(line, _LONGEST) for line, _ in lines),
        standards=tuple(printable(standard, _LONGEST) for _, standard in lines),
        lift=segment.lift is not None,
        lines=tuple(printable(line, _LONGEST) for line in segment.lines),
        cautions=tuple(printable(line, _LONGEST) for line in cautions_of(segment, record.stop)),
        hint=_hint(record, phase, all_in=all_in is not None),
        longest_clock="" if counting_in else _longest_clock(timeline),
        longest_stations=tuple(line for line, _ in longest),
        longest_standards=tuple(standard for _, standard in longest),
        longest_emphasis="GET READY" if counting_in else step_word,
    )


@lru_cache(maxsize=1)
def _longest(of: Same[Segment], when: Same[Timeline]) -> tuple[tuple[tuple[str, str], ...], str]:
    """Of all steps the stations that take most words, with their standards; the longest word."""
    segment, timeline = of.it, when.it
    every = [
        tuple(
            (printable(line, _LONGEST), printable(standard, _LONGEST))
            for line, standard in _stations(segment, timeline.at(span.start), timeline)
        )
        for span in timeline.spans
    ]
    words = (_step_word(segment, span) for span in timeline.spans if span.kind != "count-in")
    longest = max(every, key=lambda said: sum(len(line) for line, _ in said))
    return longest, max(words, key=len, default="")


def _longest_clock(timeline: Timeline) -> str:
    steps = [span.end - span.start for span in timeline.spans if span.kind != "count-in"]
    return show_time(timeline.total if timeline.counts_up else max(steps))


def _emphasis(segment: Segment, reading: Reading, phase: Phase, cue: str, *, all_in: bool) -> str:
    if phase == "held":
        return "HELD"
    if phase == "count-in":
        return "GET READY"
    if phase in ("over", "closed"):
        return "TIME" if reading.total_left == 0 else "OVER"
    if all_in:
        return "ALL IN"
    if cue:
        return cue
    return _step_word(segment, reading.span)


def _step_word(segment: Segment, span: Span) -> str:
    """What a step is called. Whose movements it names is known by them, and needs no word."""
    if not segment.about.in_steps:
        return ""
    if span.label:
        return printable(span.label).upper()
    if span.kind == "rest":
        return "REST"
    return "" if span.stations else "WORK"


def _stations(segment: Segment, reading: Reading, timeline: Timeline) -> Iterator[tuple[str, str]]:
    """The stations of the step that is on, all of them where a step names none; or the set.

    With the standard of each. In a rest those of the step to come.
    """
    if segment.lift is not None and segment.sets and segment.about.in_steps:
        then = "then " if reading.span.kind == "rest" else ""
        yield then + _set_on(segment, reading), segment.standard or ""
        return
    named, then = reading.span.stations, ""
    if reading.span.kind == "rest":
        to_come = (span for span in timeline.spans if span.start >= reading.span.end)
        named = next((span.stations for span in to_come if span.kind == "work"), ())
        then = "then " if named else ""
    for station in segment.station:
        if not named or station.movement in named:
            yield then + station_line(station), station.standard or ""


def _set_on(segment: Segment, reading: Reading) -> str:
    """The set that is on, or is to come; the last one goes on beyond its end."""
    number = reading.span.number + (reading.span.kind != "work")
    return set_words(segment.sets[min(number, len(segment.sets)) - 1])


def _progress(sheet: Sheet, reading: Reading) -> str:
    steps = sheet.timeline.steps
    return f"{reading.span.number} of {steps}" if steps > 1 else ""


def _total_left(sheet: Sheet, reading: Reading) -> str:
    if sheet.timeline.steps <= 1:
        return ""
    return f"{show_time(reading.total_left * 1000)} left in all"


def _hint(record: ClassRecord, phase: Phase, *, all_in: bool) -> str:
    if phase == "held":
        return "space resumes, enter ends it here"
    if phase == "over":
        return f"enter: {next_words(record)}"
    if all_in:
        return "ends by itself in a moment, enter ends it now"
    return ""


def next_words(record: ClassRecord) -> str:
    """What comes after the segment on the board."""
    segment = next_segment(record)
    if segment is None:
        return "the end of the class"
    return f"next, {printable(segment.name)}"


def next_segment(record: ClassRecord) -> Segment | None:
    """The one after the segment on the board; None after the last."""
    after = record.beside(1)
    return None if after is None else record.plan.segment[after]
