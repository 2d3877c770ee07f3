"""Who shares a bar with whom, so that over all sets the fewest plates are put on and taken off.

Pairs by the best matching there is, with the plates taken as free; a three where the number is odd.
Then it is looked at once whether the club's bars and plates do for all who lift at the same time.
Who is new gets a partner who isn't, as far as numbers allow, before plates are counted (common
practice, no source). Pure: loads in, groups out.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations, permutations

from msgspec import Struct

from classclock.planning.bar_turns import BarTurns
from classclock.planning.lifting_at_once import can_never_fit, fit_at_once
from classclock.units.bars_and_plates import Equipment
from classclock.units.loads import Load

_NEWCOMER = 10**18
"""What a newcomer among newcomers costs: more than all plates of a class."""
_NO_BAR = 10**12
_PLATE = 10**4
"""More than how far apart all who share have come in; that only decides among equals."""
_MOST_SWAPS = 40
"""Swaps that are tried where the plates don't do; a class seldom needs three."""

_Groups = tuple[tuple[int, ...], ...]
"""Who shares, by their place in the list."""


class Lifter(Struct, frozen=True):
    """Somebody who lifts. `loads` are those of all sets; None is not known."""

    id: str
    loads: tuple[Load | None, ...] = ()
    newcomer: bool = False


class Partnering(Struct, frozen=True):
    """A proposal."""

    groups: tuple[tuple[str, ...], ...]
    """Ids, each group in the order of its turns; in the order in which its first one came."""
    changes: int
    """Plates put on or taken off a side, over all bars and sets, after the first loading."""
    best_found: bool = False
    """Somebody was swapped for want of plates: it may be that others would change fewer."""
    enough: bool = True
    """Whether bars and plates do for all whose turn it is at once."""


def changes_of(group: Sequence[Lifter], equipment: Equipment) -> int | None:
    """Plates changed where these lift in this order; None where no bar makes all their loads.

    Whoever has a load that isn't known is taken to lift what is on the bar.
    """
    return BarTurns([one.loads for one in group], equipment).in_order(tuple(range(len(group))))


def propose_partners(lifters: Sequence[Lifter], equipment: Equipment, heats: int = 1) -> Partnering:
    """Partners for all of them, as they came in; nobody has one where there is only one.

    In several heats the groups follow each other, the fullest heat first.
    """
    task = _Task(lifters, equipment, heats)
    best = task.best()
    groups = best if task.fits(best) else task.swapped(best)
    enough = groups is not None
    chosen = task.in_order(groups if groups is not None else best)
    return Partnering(
        tuple(tuple(lifters[at].id for at in group) for group in chosen),
        sum(task.changes(group) or 0 for group in chosen),
        best_found=enough and groups != best,
        enough=enough,
    )


class _Task:
    def __init__(self, lifters: Sequence[Lifter], equipment: Equipment, heats: int) -> None:
        self._lifters, self._equipment, self._heats = lifters, equipment, heats
        self._bars = BarTurns([one.loads for one in lifters], equipment)
        self._cost: dict[tuple[int, ...], int] = {}

    def changes(self, group: tuple[int, ...]) -> int | None:
        return self._bars.in_order(group)

    def best(self) -> _Groups:
        """The groups with the least cost of all."""
        everybody = range(len(self._lifters))
        if len(everybody) < 2:
            return ()
        if len(everybody) % 2 == 0:
            return self._pairs(everybody)
        return self._pairs_and_a_three(everybody)

    def in_order(self, groups: _Groups) -> _Groups:
        """Each in the order of turns that changes least; the groups as their first one came."""
        return tuple(self._turns(group) for group in sorted(groups, key=min))

    def _turns(self, group: tuple[int, ...]) -> tuple[int, ...]:
        every = permutations(sorted(group))
        return min(every, key=lambda order: _or_more(self._bars.in_order(order)))

    def _costs(self, group: tuple[int, ...]) -> int:
        """What a group costs: whole numbers, so that the matching is exact."""
        group = tuple(sorted(group))
        if group not in self._cost:
            new = sum(self._lifters[at].newcomer for at in group)
            alone = new if new == len(group) else 0
            plates = self._bars.in_order(self._turns(group))
            apart = group[-1] - group[0]
            self._cost[group] = alone * _NEWCOMER + apart
            self._cost[group] += _NO_BAR if plates is None else plates * _PLATE
        return self._cost[group]

    def _pairs(self, people: Sequence[int]) -> _Groups:
        from rustworkx import PyGraph, max_weight_matching  # noqa: PLC0415  only where people share

        if not people:
            return ()
        graph: PyGraph[int, int] = PyGraph(multigraph=False)
        graph.add_nodes_from(people)
        most = 2 * _NEWCOMER + _NO_BAR
        graph.add_edges_from(
            [
                (at, other, most - self._costs((people[at], people[other])))
                for at, other in combinations(range(len(people)), 2)
            ]
        )
        matched = max_weight_matching(graph, max_cardinality=True, weight_fn=int)
        pairs = (sorted((people[one], people[other])) for one, other in matched)
        return tuple(sorted((first, second) for first, second in pairs))

    def _pairs_and_a_three(self, people: Sequence[int]) -> _Groups:
        """The three that leaves the best whole, found by trying those that still may."""
        cheapest = {
            one: min(self._costs((one, other)) for other in people if other != one)
            for one in people
        }
        whole = sum(cheapest.values())

        def at_least(three: tuple[int, ...]) -> int:
            # Each of the others has half a pair, and none is cheaper than their cheapest.
            return self._costs(three) + -(-(whole - sum(cheapest[one] for one in three)) // 2)

        found: _Groups = ()
        least: int | None = None
        for bound, three in sorted((at_least(each), each) for each in combinations(people, 3)):
            if least is not None and bound >= least:
                break
            groups = (*self._pairs([one for one in people if one not in three]), three)
            cost = self._total(groups)
            if least is None or cost < least:
                found, least = groups, cost
        return found

    def _total(self, groups: _Groups) -> int:
        return sum(map(self._costs, groups))

    # -- what there is -----------------------------------------------------------

    def fits(self, groups: _Groups) -> bool:
        """Whether bars and plates do for all groups of each heat at once."""
        loads = [[self._lifters[at].loads for at in group] for group in self.in_order(groups)]
        return fit_at_once(loads, self._equipment, self._heats)

    def swapped(self, groups: _Groups) -> _Groups | None:
        """The cheapest swap of two people with which it fits; None where none does."""
        turns = max(map(len, groups), default=1) * self._heats
        if can_never_fit([one.loads for one in self._lifters], self._equipment, turns):
            return None
        every = sorted((self._total(other), other) for other in _swaps(groups))
        fitting = (other for _, other in every[:_MOST_SWAPS] if self.fits(other))
        return next(fitting, None)


def _or_more(changes: int | None) -> int:
    return _NO_BAR if changes is None else changes


def _swaps(groups: _Groups) -> Iterator[_Groups]:
    """The same groups with two people of two of them in each other's place."""
    for first, second in combinations(range(len(groups)), 2):
        for one in groups[first]:
            for other in groups[second]:
                changed = list(groups)
                changed[first] = _with(groups[first], one, other)
                changed[second] = _with(groups[second], other, one)
                yield tuple(changed)


def _with(group: tuple[int, ...], gone: int, come: int) -> tuple[int, ...]:
    return tuple(come if at == gone else at for at in group)
