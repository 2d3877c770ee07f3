"""Enough equipment for everyone, or a way to share it: the shortest there is, tried out in full."""

import itertools
from collections.abc import Mapping, Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.plan.model import Segment
from classclock.plan.movements.library import Library, Movement
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.planning.equipment import inventory_of, shortage, uncounted
from classclock.planning.spreading import peaks, spread
from classclock.planning.staging import CHANGE, Staging, propose_staging, usual_heats
from classclock.planning.staging_words import spare_words, staging_words, who_starts_where

PIECES = ("box", "rower", "bell")
Needs = Sequence[Mapping[str, int]]


def library_of(needs: Needs) -> Library:
    """One movement for each station, that needs just that."""
    return Library(
        Movement(name=f"move {'abcdef'[place]}", pattern="carry", equipment=dict(need))
        for place, need in enumerate(needs)
    )


def piece_of(needs: Needs, head: str = 'format = "rounds-in-time"\ntime = "10:00"') -> Segment:
    stations = "".join(
        f'[[segment.station]]\nmovement = "move {"abcdef"[place]}"\nreps = 5\noptions = ["bare"]\n'
        for place in range(len(needs))
    )
    text = f'title = "Depot"\n[[segment]]\nname = "Siding"\n{head}\n{stations}'
    plan, findings = parse_plan(text, "depot.toml")
    assert plan is not None, [str(one) for one in findings]
    return plan.segment[0]


def goes_round(needs: Needs, starts: Sequence[int], inventory: Mapping[str, int]) -> bool:
    """Walk every lane round, move by move, and count what they hold."""
    for moved in range(len(needs)):
        held: dict[str, int] = {}
        for start in starts:
            for piece, count in needs[(start + moved) % len(needs)].items():
                held[piece] = held.get(piece, 0) + count
        if any(count > inventory.get(piece, count) for piece, count in held.items()):
            return False
    return True


def fits_however_they_drift(lanes: Sequence[Needs], inventory: Mapping[str, int]) -> bool:
    """Whether every combination of stations that the lanes can be at finds its equipment."""
    for at in itertools.product(*(range(len(lane)) for lane in lanes)):
        held: dict[str, int] = {}
        for lane, place in zip(lanes, at, strict=True):
            for piece, count in lane[place].items():
                held[piece] = held.get(piece, 0) + count
        if any(count > inventory.get(piece, count) for piece, count in held.items()):
            return False
    return True


def least_heats(needs: Needs, lanes: int, inventory: Mapping[str, int]) -> int | None:
    """Try every start of every lane in heats of every size."""
    can = [
        size
        for size in range(1, lanes + 1)
        if any(
            goes_round(needs, starts, inventory)
            for starts in itertools.combinations_with_replacement(range(len(needs)), size)
        )
        or fits_however_they_drift([needs] * size, inventory)
    ]
    fewest: list[int | None] = [0]
    for total in range(1, lanes + 1):
        rests = [one for size in can if size <= total and (one := fewest[total - size]) is not None]
        fewest.append(min(rests) + 1 if rests else None)
    return fewest[lanes]


NEEDS = st.lists(
    st.dictionaries(st.sampled_from(PIECES), st.integers(1, 2), max_size=2), min_size=1, max_size=3
)
INVENTORY = st.dictionaries(st.sampled_from(PIECES), st.integers(0, 6))


@given(NEEDS, st.integers(1, 6), INVENTORY)
def test_no_way_without_options_is_shorter_than_the_shortest_proposed(
    needs: Needs, people: int, inventory: Mapping[str, int]
) -> None:
    ways = propose_staging(piece_of(needs), people, inventory, library_of(needs))
    assert not any(way.modified for way in ways), "nobody knows an option that needs less"
    if not shortage(needs, people, inventory):
        assert ways == ()
        return
    lanes = [people, *([-(-people // 2)] if people > 1 else [])]
    every = [one for many in lanes if (one := least_heats(needs, many, inventory)) is not None]
    lengths = [heats * 610_000 + (heats - 1) * CHANGE for heats in every]
    assert min((way.length for way in ways), default=None) == min(lengths, default=None)


@given(NEEDS, st.integers(1, 6), INVENTORY)
def test_everything_proposed_works_in_the_room(
    needs: Needs, people: int, inventory: Mapping[str, int]
) -> None:
    segment = piece_of(needs)
    library = library_of(needs)
    bare = Library((*library.movements, Movement(name="bare", pattern="carry")))
    ways = propose_staging(segment, people, inventory, bare)
    assert [way.length for way in ways] == sorted(way.length for way in ways)
    for way in ways:
        assert sum(len(heat) for heat in way.heats) == -(-people // way.team)
        assert way.length == len(way.heats) * 610_000 + (len(way.heats) - 1) * CHANGE
        assert way.extra == way.length - 610_000
        for heat in way.heats:
            lanes = [list(needs) for _ in heat]
            for modified in way.modified:
                for lane in lanes[: modified.lanes]:
                    lane[modified.station] = {}
            together = fits_however_they_drift(lanes, inventory)
            assert goes_round(needs, heat, inventory) if way.staggered else together
        assert staging_words(way, segment)


@given(NEEDS, st.integers(1, 12), INVENTORY, st.sampled_from(PIECES))
def test_one_more_of_a_piece_never_makes_the_class_longer(
    needs: Needs, people: int, inventory: Mapping[str, int], piece: str
) -> None:
    segment, library = piece_of(needs), library_of(needs)

    def shortest(there: Mapping[str, int]) -> float:
        if not shortage(needs, people, there):
            return 0
        ways = propose_staging(segment, people, there, library)
        return min((way.extra for way in ways), default=float("inf"))

    more = {**inventory, piece: inventory[piece] + 1} if piece in inventory else inventory
    assert shortest(more) <= shortest(inventory)


@given(NEEDS, st.integers(1, 9), INVENTORY)
def test_options_are_taken_by_no_more_people_than_must(
    needs: Needs, people: int, inventory: Mapping[str, int]
) -> None:
    bare = Library((*library_of(needs).movements, Movement(name="bare", pattern="carry")))
    for way in propose_staging(piece_of(needs), people, inventory, bare):
        for modified in way.modified:
            without = [list(needs) for _ in range(people)]
            for other in way.modified:
                for lane in without[: min(other.lanes, modified.lanes - 1)]:
                    lane[other.station] = {}
            assert not fits_at_worst(without, inventory), "one fewer would have done"


def fits_at_worst(lanes: Sequence[Needs], inventory: Mapping[str, int]) -> bool:
    """Each piece by itself: every lane at the station where it needs most of it."""
    return all(
        sum(max(need.get(piece, 0) for need in lane) for lane in lanes) <= there
        for piece, there in inventory.items()
    )


@given(st.integers(1, 26), st.integers(1, 6))
def test_stations_of_their_own_equipment_need_lanes_over_stations_rounded_up(
    lanes: int, stations: int
) -> None:
    needs = [{f"piece {place}": 1} for place in range(stations)]
    fullest = -(-lanes // stations)
    enough = {f"piece {place}": fullest for place in range(stations)}
    starts = spread(needs, lanes, enough)
    assert starts is not None
    assert sum(starts) == lanes
    assert max(starts) == fullest
    assert set(peaks(needs, starts).values()) == {fullest}
    assert spread(needs, lanes, {**enough, "piece 0": fullest - 1}) is None


def test_one_of_a_piece_is_left_to_spare_where_the_counts_allow_it() -> None:
    needs = [{"box": 1}, {}, {}]
    segment, library = piece_of(needs), library_of(needs)
    roomy, full = (propose_staging(segment, 12, {"box": boxes}, library)[0] for boxes in (5, 4))
    assert roomy.no_spare == ()
    assert spare_words(roomy) == ""
    assert full.no_spare == ("box",)
    assert spare_words(full) == "no box to spare, so someone may wait"


def test_a_rower_at_two_stations_is_shared_by_starts_that_lie_apart() -> None:
    # Worked: two lanes a station apart never row at once; two stations apart they always do.
    needs = [{"rower": 1}, {}, {"rower": 1}, {}]
    starts = spread(needs, 2, {"rower": 1})
    assert starts is not None
    assert goes_round(
        needs, [place for place, many in enumerate(starts) for _ in range(many)], {"rower": 1}
    )


# -- what the coach reads ----------------------------------------------------------------

TURNTABLE: Needs = ({"box": 1}, {"bell": 2}, {})


def ways_for(people: int, inventory: Mapping[str, int]) -> tuple[Staging, ...]:
    return propose_staging(piece_of(TURNTABLE), people, inventory, library_of(TURNTABLE))


def test_twelve_people_and_four_boxes_are_told_the_trades_ways_the_shortest_first() -> None:
    segment = piece_of(TURNTABLE)
    bare = Library((*library_of(TURNTABLE).movements, Movement(name="bare", pattern="carry")))
    ways = propose_staging(segment, 12, {"box": 4, "bell": 24}, bare)
    assert [staging_words(way, segment) for way in ways] == [
        "start at different stations: 4 at move a, 4 at move b, 4 at move c; no longer",
        "8 take bare in place of move a; no longer",
        "in pairs, one works while the other rests, 2 heats of 3; 12:10 longer",
        "3 heats of 4; 24:20 longer",
    ]


def test_who_starts_where_is_said_by_name() -> None:
    segment = piece_of(TURNTABLE)
    names = ("Ilse", "Bram", "Noor", "Piet", "Tuva")
    staggered = ways_for(5, {"box": 3})[0]
    assert who_starts_where(staggered, segment, names) == (
        ("move a", "Ilse, Bram"),
        ("move b", "Noor"),
        ("move c", "Piet, Tuva"),
    )
    heats = next(way for way in ways_for(5, {"box": 3}) if len(way.heats) == 2)
    assert who_starts_where(heats, segment, names) == (
        ("heat 1", "Ilse, Bram, Noor"),
        ("heat 2", "Piet, Tuva"),
    )
    pairs = next(way for way in ways_for(5, {"box": 3}) if way.team == 2)
    assert who_starts_where(pairs, segment, names) == (("pairs", "Ilse + Bram, Noor + Piet, Tuva"),)


def test_without_a_single_box_only_an_option_helps() -> None:
    segment = piece_of(TURNTABLE)
    bare = Library((*library_of(TURNTABLE).movements, Movement(name="bare", pattern="carry")))
    (way,) = propose_staging(segment, 4, {"box": 0}, bare)
    assert staging_words(way, segment) == "4 take bare in place of move a; no longer"
    assert ways_for(4, {"box": 0}) == ()


def test_what_was_never_counted_is_taken_to_be_there_and_named() -> None:
    assert ways_for(12, {}) == ()
    assert uncounted(TURNTABLE, {"box": 4}) == ("bell",)


@pytest.mark.parametrize(
    "head",
    [
        'format = "interval"\nrepeat = 2\nsteps = [{ work = "5:00" }]',
        'format = "countdown"\ntime = "10:00"',
    ],
)
def test_only_rounds_can_begin_at_another_station(head: str) -> None:
    needs = [{"box": 1}, {}]
    ways = propose_staging(piece_of(needs, head), 4, {"box": 2}, library_of(needs))
    assert ways
    assert not any(way.staggered for way in ways)


def test_a_lift_is_done_in_pairs_turn_by_turn_or_in_heats() -> None:
    text = 'title = "D"\n[[segment]]\nname = "Squat"\nformat = "countdown"\ntime = "12:00"\n'
    plan, _ = parse_plan(f'{text}lift = "move a"', "depot.toml")
    assert plan is not None
    segment = plan.segment[0]
    ways = propose_staging(segment, 12, {"bar": 6}, library_of([{"bar": 1}]))
    assert [staging_words(way, segment) for way in ways] == [
        "in pairs, turn by turn; no longer",
        "2 heats of 6; 14:10 longer",
    ]


def test_the_plans_own_teams_stay() -> None:
    needs = [{"bag": 1}]
    head = 'format = "rounds-in-time"\ntime = "10:00"\nteams = 3'
    segment = piece_of(needs, head)
    assert usual_heats(segment, 10) == (4,)
    (way,) = propose_staging(segment, 10, {"bag": 2}, library_of(needs))
    assert (way.team, way.heats) == (3, ((0, 0), (0, 0)))


def test_more_than_26_lanes_run_in_heats_anyway() -> None:
    needs = [{"box": 1}]
    assert usual_heats(piece_of(needs), 40) == (20, 20)
    assert propose_staging(piece_of(needs), 40, {"box": 20}, library_of(needs)) == ()
    ways = propose_staging(piece_of(needs), 40, {"box": 14}, library_of(needs))
    assert {(len(way.heats), way.team, way.extra) for way in ways} == {
        (3, 1, 730_000),
        (2, 2, 0),
    }


def test_bars_are_those_that_the_settings_name_but_not_the_usual_ones() -> None:
    boxes = {"equipment": {"boxes": 4}}
    assert inventory_of(Club()) == {}
    assert inventory_of(Club.model_validate(boxes)) == {"box": 4}
    bars = [{"name": "Long", "weight": 20, "count": 3}, {"name": "Short", "weight": 15}]
    assert inventory_of(Club.model_validate({**boxes, "bar": bars})) == {"box": 4, "bar": 4}
    named = {"bar": bars, "equipment": {"bars": 2}}
    assert inventory_of(Club.model_validate(named)) == {"bar": 2}
