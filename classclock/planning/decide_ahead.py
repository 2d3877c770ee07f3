"""What somebody does in a piece to come, chosen before its start: events, or a refusal."""

from typing import TYPE_CHECKING

from msgspec import UNSET, Struct
from msgspec.structs import astuple, replace

from classclock.plan.formats.timelines import timeline
from classclock.plan.model import Segment, is_piece
from classclock.plan.option_menu import option_menu, option_words
from classclock.tally import events as ev
from classclock.tally.class_lineup import sharing_a_lane
from classclock.tally.decide_people import has_left
from classclock.tally.piece import Piece
from classclock.tally.record import ClassRecord, RunKey
from classclock.tally.refusal import Refusal
from classclock.units.loads import Load

if TYPE_CHECKING:
    from classclock.strength.class_loads import ClassLoads

MOST_SETS = 99
"""Where the plan doesn't say how many there are."""


def decide_option(
    record: ClassRecord, person_id: str, option: int, at: int
) -> tuple[ev.OptionChosen, ...] | Refusal:
    """An option by its number in the segment on the board, which hasn't begun; 0: as written.

    It holds for its station, beside what is chosen at others. A team does as one: what is chosen
    for one of them is chosen for all.
    """
    refused = has_left(record, person_id)
    if refused is not None:
        return refused
    if record.phase(at) != "board":
        return Refusal("this piece has been started: type it while it runs, and it holds from then")
    index, segment = record.chosen.segment, record.segment
    menu = option_menu(segment)
    if not is_piece(segment) or not menu or option > len(menu):
        return Refusal(option_words(segment))
    choice = record.choice(person_id, index)
    options = [0] * len(segment.station)
    if option:
        place, number = menu[option - 1]
        options[: len(choice.options)] = choice.options
        options[place] = number
    chosen = replace(choice, options=tuple(options) if any(options) else ())
    if not option:
        chosen = replace(chosen, portion=UNSET)
    return tuple(
        ev.OptionChosen(at, one, index, *astuple(chosen))
        for one in sharing_a_lane(record, person_id, index)
    )


class ChosenLoad(Struct, frozen=True):
    """The choice, and what is to be looked at, in words that the room may read."""

    events: tuple[ev.LoadChosen, ...]
    remarks: tuple[str, ...] = ()


def decide_load(
    record: ClassRecord, asked: ev.LoadChosen, loads: "ClassLoads | None"
) -> ChosenLoad | Refusal:
    """Another load than the plan's for one person in a segment that hasn't begun.

    `loads` is what everybody is to lift, where that was read. A team lifts one load: what is
    chosen for one of them is chosen for all.
    """
    index, person = asked.segment, record.person(asked.person_id)
    segment = record.plan.segment[index]
    refused = has_left(record, asked.person_id)
    if refused is not None or person is None:
        return refused or Refusal("nobody is meant by that")
    if record.heats(RunKey(index, record.attempts.get(index, 1))):
        return Refusal("this piece has been started: a load is typed as it is lifted")
    if Piece.of(segment, record.unit).counts_by != "load":
        return Refusal(f"no load is counted in {segment.name}: a number means nothing here")
    sets = most_sets(segment)
    if asked.set_number is not None and not 1 <= asked.set_number <= sets:
        example = f"as in {sets}:80{person.key}"
        return Refusal(f"{segment.name} has sets 1 to {sets}: type one of them, {example}")
    team = sharing_a_lane(record, person.id, index)
    events = tuple(replace(asked, person_id=member) for member in team)
    from classclock.strength.nearest_words import nearest_words  # noqa: PLC0415  few classes lift
    from classclock.strength.prescription import uses_a_bar  # noqa: PLC0415  as there

    if asked.load is None or loads is None or len(team) > 1:
        return ChosenLoad(events)
    planned = loads.of(index, person.id, person.name)
    if planned is None:
        return ChosenLoad(events)
    remarks = []
    if planned.flags_on((asked.load,), _made_today(record, person.id, segment)):
        remarks.append("look at it again")  # why would tell the room what somebody's maximum is
    if uses_a_bar(segment.lift or ""):
        remarks.append(nearest_words(asked.load, loads.equipment))
    return ChosenLoad(events, tuple(filter(None, remarks)))


def _made_today(record: ClassRecord, person_id: str, segment: Segment) -> tuple[Load, ...]:
    """What somebody has made of this lift in the pieces that have run."""
    lift = (segment.lift or "").casefold()
    return tuple(
        tried.load
        for run, sheet in record.runs.items()
        if (record.plan.segment[run.segment].lift or "").casefold() == lift
        for tally in sheet.tallies.values()
        if tally.lane.members == (person_id,)
        for tried in tally.attempts
        if tried.made and tried.load is not None
    )


def most_sets(segment: Segment) -> int:
    """How many sets of a piece scored by load can be named."""
    steps = timeline(segment).steps
    return steps if steps > 1 else len(segment.sets) or MOST_SETS
