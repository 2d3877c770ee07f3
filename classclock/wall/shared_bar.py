"""A bar that several lanes share, as the wall speaks of it: whose turn it is, and what is on it."""

from collections.abc import Mapping
from typing import Literal

from msgspec import Struct

from classclock.strength.bar_loading import load_bar
from classclock.strength.bar_picture import change_words
from classclock.strength.plate_change import plate_change, shared_bar
from classclock.tally.lanes import Lane
from classclock.tally.piece import Piece
from classclock.tally.sheet import Sheet
from classclock.tally.turns import Turn, turns
from classclock.units.bars_and_plates import Bar, Equipment
from classclock.units.loads import Load
from classclock.units.printable import printable

TurnNow = Literal["", "now", "waits"]
"""Of a lane: nobody shares its bar, it is its turn, it is somebody else's."""


class SharedBar(Struct, frozen=True):
    """What a lane shares its bar with, at one moment."""

    turn: TurnNow
    after: str
    """The name of whoever lifts before this lane; empty where it is its turn."""
    loads: tuple[tuple[Load | None, ...], ...]
    """The planned loads of all who share it, set by set."""
    on_it: Load | None
    """What was lifted last; None before the first lift."""

    def bar(self, equipment: Equipment) -> Bar | None:
        return shared_bar(self.loads, equipment)

    def change_to(self, load: Load, equipment: Equipment) -> tuple[str, str]:
        """What makes this load of what is on the bar, and in brief; empty where nobody can say."""
        return ("", "") if self.on_it is None else self.change(self.on_it, load, equipment)

    def change(self, before_it: Load, load: Load, equipment: Equipment) -> tuple[str, str]:
        """The same, of another load that is on the bar."""
        bar = self.bar(equipment)
        if bar is None:
            return "", ""
        before = load_bar(before_it, bar, equipment).exact
        after = load_bar(load, bar, equipment).exact
        if before is None or after is None:
            return "", ""
        change = plate_change(before, after)
        return change_words(change, bar), change_words(change, bar, brief=True)


def shared_bars(sheet: Sheet) -> Mapping[str, SharedBar]:
    """By lane, of those that share a bar on which somebody still lifts."""
    if not sheet.partners:
        return {}
    lanes = {lane.id: lane for lane in sheet.lanes}
    found = {}
    for turn in turns(sheet):
        group = next(group for group in sheet.partners if turn.lane in group)
        loads = tuple(planned_loads(sheet.piece, lanes[ident]) for ident in group)
        for place, ident in enumerate(turn.order):
            whose: TurnNow = "waits" if place else "now"
            after = printable(lanes[turn.order[place - 1]].name) if place else ""
            found[ident] = SharedBar(whose, after, loads, _on_it(sheet, turn))
    return found


def bars_shared(sheet: Sheet) -> Mapping[str, SharedBar]:
    """By lane, of all that share a bar, for the whole piece: nobody's turn, nothing on it."""
    lanes = {lane.id: lane for lane in sheet.lanes}
    found = {}
    for group in sheet.partners:
        loads = tuple(planned_loads(sheet.piece, lanes[ident]) for ident in group)
        found.update(dict.fromkeys(group, SharedBar("", "", loads, None)))
    return found


def planned_loads(piece: Piece, lane: Lane) -> tuple[Load | None, ...]:
    """The load of each set of a lane; one where the plan has no sets."""
    sets = max(1, len(piece.segment.sets))
    return tuple(piece.planned_load(lane, number) for number in range(1, sets + 1))


def _on_it(sheet: Sheet, turn: Turn) -> Load | None:
    tried = sheet.tallies[turn.before].attempts if turn.before is not None else ()
    return tried[-1].load if tried else None
