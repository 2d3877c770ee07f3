"""How taps and numbers become rounds, stations, odd reps and a finish.

These rules take a tally and give the next one; whether an entry is allowed is asked in `counting`.
`at` is elapsed milliseconds of the piece.
"""

from collections.abc import Sequence

from msgspec import UNSET
from msgspec.structs import replace

from classclock.tally.counting.pace import Verdict, judge, pace
from classclock.tally.counting.work import Work
from classclock.tally.lane_tally import LaneTally, Round
from classclock.tally.piece import Piece


def tap(piece: Piece, tally: LaneTally, at: int) -> LaneTally:
    """One full round, one station, or the finish, as the piece counts."""
    if piece.count == "finish":
        return finish(piece, tally, at)
    if piece.count == "station" and piece.stations:
        return _complete_station(piece, tally, at)
    return complete_round(piece, tally, at)


def complete_round(piece: Piece, tally: LaneTally, at: int) -> LaneTally:
    """The round in progress is done; with the last of a set amount the lane has finished."""
    reps = Work(piece, tally.lane).round_reps(len(tally.rounds))
    split = _gone(tally.round_since, at)
    verdict = Verdict()
    if split is not None and piece.count == "round":
        paces = [pace(done.split, done.reps) for done in tally.rounds if done.split is not None]
        verdict = judge(pace(split, reps), paces)
    done = Round(reps, at, split, doubtful=verdict.doubtful or tally.station_doubtful)
    counted = replace(tally, rounds=(*tally.rounds, done), asks_missed=verdict.slow)
    if len(counted.rounds) == piece.rounds:
        return replace(begin_round(piece, counted, at), finish=at, odd=0)
    return begin_round(piece, counted, at)


def _gone(since: int | None, at: int) -> int | None:
    """The time from one moment to another; None where it isn't known.

    A call that is moved to somebody who came later, or a clock that is set back by hand, gives a
    moment before the one before: how long that took nobody knows, and it is never less than none.
    """
    return None if since is None or at < since else at - since


def _complete_station(piece: Piece, tally: LaneTally, at: int) -> LaneTally:
    work = Work(piece, tally.lane)
    index, position = len(tally.rounds), tally.position
    place = work.plan_station(position)
    verdict = Verdict()
    paces = tally.paces
    took = _gone(tally.station_since, at)
    if took is not None:
        latest = pace(took, work.station_worths(index)[position])
        verdict = judge(latest, [earlier for station, earlier in paces if station == place])
        paces = (*paces, (place, latest))
    counted = replace(
        tally, paces=paces, station_doubtful=tally.station_doubtful or verdict.doubtful
    )
    if position + 1 >= len(piece.stations):
        return replace(complete_round(piece, counted, at), asks_missed=verdict.slow)
    return replace(
        counted,
        position=position + 1,
        odd=None,
        odd_floor=work.done_within(index, position + 1),
        station_since=at,
        asks_missed=verdict.slow,
    )


def begin_round(piece: Piece, tally: LaneTally, at: int | None) -> LaneTally:
    """Nothing of the next round is known, but where it has no odd reps to speak of."""
    size = Work(piece, tally.lane).round_reps(len(tally.rounds))
    return replace(
        tally,
        odd=None if size > 1 else 0,
        odd_floor=0,
        position=0,
        station_since=at,
        station_doubtful=False,
        cut="",
    )


def set_rounds(piece: Piece, tally: LaneTally, rounds: int, *, doubtful: bool = False) -> LaneTally:
    """So many full rounds; those that were missing are filled in, without splits of their own."""
    have = len(tally.rounds)
    if rounds == have:
        return tally
    work = Work(piece, tally.lane)
    missing = (
        Round(work.round_reps(index), None, None, filled=True, doubtful=doubtful)
        for index in range(have, rounds)
    )
    counted = replace(tally, rounds=(*tally.rounds[:rounds], *missing), asks_missed=False)
    return begin_round(piece, counted, counted.round_since)


def set_odd(piece: Piece, tally: LaneTally, odd: int, at: int) -> LaneTally:
    """So many reps of the round in progress; as many as it has complete it at this moment."""
    work = Work(piece, tally.lane)
    index = len(tally.rounds)
    size = work.round_reps(index)
    if size and odd == size:
        return complete_round(piece, tally, at)
    position = work.position_of(index, odd)
    if odd == work.done_within(index, tally.position):
        position = tally.position  # what was tapped says more than the reps alone
    return replace(
        tally,
        odd=odd,
        odd_floor=odd,
        cut="",
        position=position,
        station_since=tally.station_since if position == tally.position else None,
        asks_missed=False,
    )


def finish(piece: Piece, tally: LaneTally, at: int) -> LaneTally:
    """The whole work is done: rounds and stations that were missing are filled in.

    They are in doubt, unless the piece counts nothing but finishes.
    """
    before_last = _set_amount(piece) - 1
    missing = before_last + 1 - len(tally.rounds)
    skipped = piece.count == "station" and tally.position + 1 < len(piece.stations)
    filled = set_rounds(piece, tally, before_last, doubtful=piece.count != "finish")
    done = complete_round(piece, filled, at)
    last = done.rounds[-1]
    if skipped and missing == 1:
        last = replace(last, doubtful=True)
    return replace(done, rounds=(*done.rounds[:-1], last))


def finish_as_corrected(piece: Piece, tally: LaneTally, at: int) -> LaneTally:
    """The finish was at this moment, whatever was tapped; nothing of it is in doubt."""
    before = set_rounds(piece, replace(tally, finish=None), _set_amount(piece) - 1)
    sure = tuple(
        replace(done, doubtful=False)
        if done.at is None or done.at <= at
        else Round(done.reps, None, None, filled=True)
        for done in before.rounds
    )
    done = complete_round(piece, replace(before, rounds=sure, station_doubtful=False), at)
    return replace(done, rounds=(*sure, replace(done.rounds[-1], doubtful=False)), stopped=None)


def _set_amount(piece: Piece) -> int:
    if piece.rounds is None:
        raise ValueError("only a set amount of work can be finished")
    return piece.rounds


def change_option(piece: Piece, tally: LaneTally, station: int, option: int, at: int) -> LaneTally:
    """From here on the lane's rounds follow the option; those already done keep their size."""
    count = len(piece.stations)
    lane = tally.lane
    own = lane.own_options
    changed = replace(
        tally,
        lane=replace(
            lane,
            options=_changed(lane.options, count, station, option),
            own_options=None if own is None else _changed(own, count, station, option),
            portion=lane.portion if option else UNSET,
        ),
        option_changed=at if at > 0 else tally.option_changed,
    )
    work = Work(piece, changed.lane)
    index = len(changed.rounds)
    floor = work.done_within(index, changed.position)
    most = max(0, work.round_reps(index) - 1)
    if changed.odd is None:
        return replace(changed, odd_floor=floor)
    if changed.odd > most and changed.finish is None:
        remark = f"the round got smaller: odd reps cut from {changed.odd} to {most}, ask again"
        return replace(
            changed,
            odd=most,
            odd_floor=most,
            cut=remark,
            position=work.position_of(index, most),
        )
    return replace(changed, odd_floor=changed.odd)


def station_on(piece: Piece, tally: LaneTally) -> int | None:
    """Which of the plan's stations the lane is at, where taps or odd reps tell."""
    told = piece.count == "station" or tally.odd is not None
    if piece.counts_by != "rounds" or not piece.stations or not told or tally.finish is not None:
        return None
    return Work(piece, tally.lane).plan_station(tally.position)


def _changed(options: Sequence[int], count: int, station: int, option: int) -> tuple[int, ...]:
    """The options at so many stations with one of them changed; option 0 is all as written."""
    if option == 0:
        return (0,) * count
    changed = [*options, *(0,) * (count - len(options))]
    changed[station] = option
    return tuple(changed)
