"""From a way to share the equipment to the place of each person."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from classclock.plan.model import Segment
from classclock.planning.staging import Staging, heat_sizes
from classclock.planning.staging_words import staging_words
from classclock.tally.lanes import Choice, Place, Sharing
from classclock.tally.lineup import Groups


def sharing_of(
    way: Staging, segment: Segment, people: Sequence[str], choices: Mapping[str, Choice]
) -> Sharing:
    """Give everybody a place; `people` are ids in their order, `choices` what each modifies.

    Whoever has chosen the option already is the first to take it, then those who came last.
    """
    starts = [(heat, station) for heat, lanes in enumerate(way.heats, start=1) for station in lanes]
    teams = [tuple(people[at : at + way.team]) for at in range(0, len(people), way.team)]
    places = [
        Place(team, heat, station) for team, (heat, station) in zip(teams, starts, strict=True)
    ]
    options = [[0] * len(segment.station) for _ in places]
    for modified in way.modified:
        station, option = modified.station, modified.option
        chosen = [_option(choices, place, station) for place in places]
        for taken, heat in zip(
            _shares(modified.lanes, len(way.heats)), range(1, len(way.heats) + 1), strict=True
        ):
            mine = [at for at, place in enumerate(places) if place.heat == heat]
            mine.sort(key=lambda at: (chosen[at] != option, chosen[at] != 0, -at))
            for at in mine[:taken]:
                options[at][station] = option
    return Sharing(staging_words(way, segment), tuple(_with_options(places, options)))


def partners_sharing(words: str, partners: Groups, heats: int) -> Sharing:
    """Each in a lane of their own, those who share a bar in one heat."""
    sizes = heat_sizes(len(partners), heats)
    heat_of = [heat for heat, size in enumerate(sizes, start=1) for _ in range(size)]
    return Sharing(
        words,
        tuple(
            Place((ident,), heat)
            for group, heat in zip(partners, heat_of, strict=True)
            for ident in group
        ),
    )


def _with_options(places: Sequence[Place], options: Iterable[list[int]]) -> Iterator[Place]:
    for place, own in zip(places, options, strict=True):
        yield Place(place.members, place.heat, place.start_station, tuple(own) if any(own) else ())


def _option(choices: Mapping[str, Choice], place: Place, station: int) -> int:
    chosen = choices.get(place.members[0], Choice()).options
    return chosen[station] if station < len(chosen) else 0


def _shares(lanes: int, heats: int) -> tuple[int, ...]:
    """So many lanes from so many heats; the first heats are the fullest, so they give more."""
    return tuple(-(-(lanes - heat) // heats) for heat in range(heats))
