"""What the board says of a lift: everybody's load and plates for the set that comes first."""

from typing import Literal

from msgspec import Struct

from classclock.live.standing_class import StandingClass
from classclock.plan.outline import set_words
from classclock.strength.bar_loading import Loading
from classclock.strength.bar_picture import (
    PlateShape,
    change_words,
    lighter_words,
    side_shapes,
    side_words,
)
from classclock.strength.class_loads import ClassLoads, LiftPlan
from classclock.strength.flags import NO_RECORD
from classclock.strength.plate_change import plate_change
from classclock.strength.prescription import uses_a_bar
from classclock.strength.set_loads import Partners, SetLoads, set_loads
from classclock.tally.lanes import Lane
from classclock.tally.load_flags import open_flags
from classclock.tally.piece import Piece
from classclock.units.bars_and_plates import Equipment
from classclock.units.loads import Load, plain, shown
from classclock.units.printable import printable
from classclock.wall.board_content import board_name

_TOGETHER = "each their own: choose the loads together"
_CHOOSE = "choose the load together"


class BarChange(Struct, frozen=True):
    """Who comes next at a bar that is shared, and what changes on it for them."""

    next: str = ""
    """Their name; empty where nobody shares the bar."""
    plates: str = ""
    """`on 10, off 1.25`, for one side."""
    place: Literal["", "first", "middle", "last"] = ""
    """Where this lane stands among those who share the bar."""
    shared_by: frozenset[str] = frozenset()
    """The keys of all of them, in large letters."""

    @property
    def words(self) -> str:
        """`then Ian: on 10, off 1.25`."""
        return (
            f"then {self.next}" + (f": {self.plates}" if self.plates else "") if self.next else ""
        )


class LiftLane(Struct, frozen=True):
    """One athlete's first set."""

    key: str
    name: str
    amount: str = ""
    """The load without its unit; empty where `words` stand in its place."""
    unit: str = ""
    bar: str = ""
    """What the bare bar weighs, without its unit; empty where no bar is used."""
    plates: tuple[PlateShape, ...] = ()
    side: str = ""
    """The plates in words."""
    which: str = ""
    """The bar in words, where the club has several."""
    words: str = ""
    later: str = ""
    """The loads of the sets after this, and what else is to be known."""
    flagged: bool = False
    waits: bool = False
    change: BarChange = BarChange()

    @property
    def plate_words(self) -> str:
        """The plates of one side as they are called across the room: `20+5+1.25`."""
        return "+".join(plate.label for plate in self.plates) or self.side


class LiftBoard(Struct, frozen=True):
    title: str
    """Which set it is."""
    work: str
    """What is lifted in it: `3 at 65 %`."""
    lanes: tuple[LiftLane, ...]
    short: str
    """What is short for all to lift at once; empty where there is enough."""


def lift_board(live: StandingClass) -> LiftBoard | None:
    """The lift on the board; None where it is none, or nobody has read yet what was lifted."""
    segment, loads = live.record.segment, live.loads
    if segment.lift is None or not segment.sets or loads is None:
        return None
    index, heat = live.record.chosen.segment, live.record.chosen.heat
    lanes = [lane for lane in live.lineup() if lane.heat == heat]
    flagged = {flag.person_id for flag in open_flags(live.record, loads, (index,))}
    first = f"set 1 of {len(segment.sets)}" if len(segment.sets) > 1 else "one set"
    drawn, short = _lanes(live, loads, lanes, flagged)
    return LiftBoard(first, set_words(segment.sets[0]), drawn, short)


def _lanes(
    live: StandingClass, loads: ClassLoads, lanes: list[Lane], flagged: set[str]
) -> tuple[tuple[LiftLane, ...], str]:
    segment, index = live.record.segment, live.record.chosen.segment
    with_bar = uses_a_bar(segment.lift or "")
    piece = Piece.of(segment, live.record.unit)
    every = [_planned(piece, lane) for lane in lanes]
    on_a_bar = every if with_bar else [()] * len(every)
    place = {lane.id: at for at, lane in enumerate(lanes)}
    partners = tuple(tuple(place[ident] for ident in group) for group in live.partners())
    together = set_loads(on_a_bar, 1, loads.equipment, partners)
    next_set = set_loads(on_a_bar, min(2, len(segment.sets)), loads.equipment, partners)
    changes = _changes(lanes, partners, together, next_set)
    rows = []
    for lane, own, loading, waits in zip(
        lanes, every, together.loadings, together.waits, strict=True
    ):
        alone = len(lane.members) == 1
        plan = loads.of(index, lane.id, lane.name, lane.load) if alone else None
        rows.append(
            LiftLane(
                lane.key.upper(),
                board_name(lane, live.record),
                plain(own[0].amount) if own[0] is not None else "",
                own[0].unit if own[0] is not None else "",
                plain(loading.bar.weight.amount) if loading is not None else "",
                side_shapes(loading) if loading is not None else (),
                printable(side_words(loading)) if loading is not None else "",
                _which(loading, loads.equipment),
                _instead(plan, own[0]),
                _later(plan, own),
                bool(flagged.intersection(lane.members)),
                waits,
                changes.get(lane.id, BarChange()),
            )
        )
    return tuple(rows), together.short


def _changes(
    lanes: list[Lane], partners: Partners, now: SetLoads, next_set: SetLoads
) -> dict[str, BarChange]:
    """By lane: who comes next at its bar, the first one again with the next set."""
    found = {}
    for group in partners:
        keys = frozenset(lanes[at].key.upper() for at in group)
        for turn, at in enumerate(group):
            last = turn == len(group) - 1
            after = group[0] if last else group[turn + 1]
            before_it = now.loadings[at]
            then = next_set.loadings[after] if last else now.loadings[after]
            plates = (
                change_words(plate_change(before_it, then), then.bar)
                if before_it is not None and then is not None and before_it.bar == then.bar
                else ""
            )
            where: Literal["first", "middle", "last"] = (
                "last" if last else "middle" if turn else "first"
            )
            found[lanes[at].id] = BarChange(printable(lanes[after].name), plates, where, keys)
    return found


def _planned(piece: Piece, lane: Lane) -> tuple[Load | None, ...]:
    """The load of each set; what the plan says for all where none is the athlete's own."""
    return tuple(piece.planned_load(lane, number + 1) for number in range(len(piece.segment.sets)))


def _which(loading: Loading | None, equipment: Equipment) -> str:
    """The bar, where there are several."""
    return printable(loading.bar.name) if loading is not None and len(equipment.bars) > 1 else ""


def _instead(plan: LiftPlan | None, first: Load | None) -> str:
    """What is said where there is no load for a bar."""
    if first is not None:
        return ""
    if plan is None:
        return _TOGETHER
    one = plan.prescription.sets[0] if plan.prescription is not None else None
    if one is None or one.target is None:
        return NO_RECORD if plan.heaviest is None else _CHOOSE
    lighter = one.working.lighter if one.working is not None else None
    return lighter_words(one.target, lighter) if lighter is not None else NO_RECORD


def _later(plan: LiftPlan | None, loads: tuple[Load | None, ...]) -> str:
    known = [plain(load.amount) for load in loads[1:] if load is not None]
    then = f"then {', '.join(known)}" if known and len(known) == len(loads) - 1 else ""
    first = plan.prescription.sets[0] if plan and plan.prescription else None
    working = first.working if first is not None and first.load == loads[0] else None
    short = working.shortfall if working is not None else None
    under = f"this one {shown(short)} under the plan" if short is not None and short.amount else ""
    return printable("; ".join(filter(None, (then, under))), 200)
