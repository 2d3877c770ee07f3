"""Loads that were talked over: what somebody is to lift in place of what the plan says."""

from collections.abc import Mapping, Sequence

from classclock.units.loads import Load

ChosenLoads = Mapping[int, Load]
"""By the set's number, from 1; `EVERY_SET` holds for those that aren't named."""
EVERY_SET = 0


def choose(chosen: ChosenLoads, set_number: int | None, load: Load | None) -> ChosenLoads:
    """With one load more; None takes back what was said, of that set or of all."""
    if set_number is None:
        return {} if load is None else {EVERY_SET: load}
    others = {number: one for number, one in chosen.items() if number != set_number}
    return others if load is None else {**others, set_number: load}


def as_chosen(planned: Sequence[Load | None], chosen: ChosenLoads) -> tuple[Load | None, ...]:
    """The load of each set. The last one planned goes on beyond its end, here as there."""
    if not chosen:
        return tuple(planned)
    sets = max(len(planned), *chosen, 1)
    every = chosen.get(EVERY_SET)
    last = planned[-1] if planned else None
    on = (*planned, *(last for _ in range(len(planned), sets)))
    return tuple(chosen.get(number, every or load) for number, load in enumerate(on, start=1))
