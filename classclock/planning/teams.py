"""Who is in a team with whom: as they came, drawn by lot, or as even as can be told. Pure."""

import random
from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations
from statistics import fmean, median

from classclock.tally.lineup import Groups

_MOST_ROUNDS = 200
"""Swaps until no one more makes the teams evener; a class takes a dozen."""


def team_sizes(people: int, size: int) -> tuple[int, ...]:
    """Teams of this size and what is left over; nobody is left alone: the last team has one more.

    Only where there is one person and no other are they alone.
    """
    full, over = divmod(people, size)
    if over == 1 and full:
        return (*(size,) * (full - 1), size + 1)
    return (*(size,) * full, *((over,) if over else ()))


def as_they_came(people: Sequence[str], sizes: Sequence[int]) -> Groups:
    """The first ones together, then the next. `people` are ids; the sizes add up to all of them."""
    rest = iter(people)
    return tuple(tuple(next(rest) for _ in range(size)) for size in sizes)


def by_lot(people: Sequence[str], sizes: Sequence[int], seed: int) -> Groups:
    """Drawn: the same people, in whatever order, and the same seed make the same teams.

    What a seed draws is the same on every Python (its `random` promises that of `random()`).
    """
    lot = random.Random(seed)  # noqa: S311  a game's lot: nobody gains by guessing it
    drawn = {person: lot.random() for person in sorted(people)}
    return as_they_came(sorted(people, key=drawn.__getitem__), sizes)


def even(people: Sequence[str], sizes: Sequence[int], worth: Mapping[str, float]) -> Groups:
    """Teams whose members are worth as much on average, as far as swaps of two can make it so.

    Who has no worth counts as the middle of the others. Everybody stays in the order in which they
    came within their team.
    """
    worths = known_or_middle(people, worth)
    place = {person: at for at, person in enumerate(people)}
    teams = [list(team) for team in _dealt(people, sizes, worths)]
    for _ in range(_MOST_ROUNDS):
        better = _better(teams, worths)
        if better is None:
            break
        teams = better
    return tuple(tuple(sorted(team, key=place.__getitem__)) for team in teams)


def known_or_middle(people: Sequence[str], worth: Mapping[str, float]) -> dict[str, float]:
    """What each is worth; the middle of those who are known where it isn't, 1 if nobody is."""
    known = [worth[person] for person in people if person in worth]
    middle = median(known) if known else 1.0
    return {person: worth.get(person, middle) for person in people}


def apart(groups: Groups, worths: Mapping[str, float]) -> float:
    """How far the best team lies above the worst, as a share of the mean team; 0 is even."""
    means = [fmean(worths[one] for one in team) for team in groups]
    return (max(means) - min(means)) / fmean(means) if means else 0.0


def _dealt(
    people: Sequence[str], sizes: Sequence[int], worths: Mapping[str, float]
) -> Iterator[list[str]]:
    """The best to the first team, the next to the second, …, then back: a start that is near."""
    teams: list[list[str]] = [[] for _ in sizes]
    there_and_back = [*range(len(sizes)), *reversed(range(len(sizes)))]
    best_first = iter(sorted(people, key=lambda one: -worths[one]))
    while any(len(team) < size for team, size in zip(teams, sizes, strict=True)):
        for at in there_and_back:
            if len(teams[at]) < sizes[at]:
                teams[at].append(next(best_first))
    yield from teams


def _better(teams: list[list[str]], worths: Mapping[str, float]) -> list[list[str]] | None:
    """The swap of two people that helps most; None where none does."""
    least, found = _unevenness(teams, worths), None
    for first, second in combinations(range(len(teams)), 2):
        for one in teams[first]:
            for other in teams[second]:
                changed = list(teams)
                changed[first] = [other if each == one else each for each in teams[first]]
                changed[second] = [one if each == other else each for each in teams[second]]
                uneven = _unevenness(changed, worths)
                if uneven < least:
                    least, found = uneven, changed
    return found


def _unevenness(teams: Sequence[Sequence[str]], worths: Mapping[str, float]) -> tuple[float, float]:
    """How far the best lies above the worst; then how far all lie from the mean, squared."""
    means = [fmean(worths[one] for one in team) for team in teams]
    middle = fmean(means)
    # Rounded, or a difference in the sixteenth place would be swapped for ever.
    return (
        round(max(means) - min(means), 9),
        round(sum((mean - middle) ** 2 for mean in means), 9),
    )
