"""What `check` says of a plan that has no faults: its length, its work."""

from classclock.plan.model import Plan
from classclock.plan.outline import PlanOutline, SegmentOutline, outline
from classclock.units.printable import printable
from classclock.units.times import show_time


def check_lines(plan: Plan) -> tuple[str, ...]:
    """One line a segment, then the whole class's time on the clock."""
    summary = outline(plan)
    return (printable(summary.title), *map(_line, summary.segments), _total(summary))


def check_values(plan: Plan) -> dict[str, object]:
    """The same as plain values; lengths in whole seconds."""
    summary = outline(plan)
    return {
        "title": summary.title,
        "seconds": summary.total_ms // 1000,
        "seconds_with_count_ins": summary.total_with_count_ins_ms // 1000,
        "segments": [
            {
                "name": segment.name,
                "words": segment.words,
                "scored": segment.scored,
                "seconds": segment.length_ms // 1000,
                "round_reps": segment.round_reps,
                "total_reps": segment.total_reps,
            }
            for segment in summary.segments
        ],
    }


def _line(segment: SegmentOutline) -> str:
    scored = "  scored" if segment.scored else ""
    name = printable(segment.name, 28)
    return (
        f"  {show_time(segment.length_ms):>8}  {name:<28}  {printable(segment.words, 120)}{scored}"
    )


def _total(summary: PlanOutline) -> str:
    total, whole = show_time(summary.total_ms), show_time(summary.total_with_count_ins_ms)
    return f"  {total:>8}  in all, {whole} with the count-ins; talk and set-up come on top"
