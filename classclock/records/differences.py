"""Where two results documents of one class differ: what is saved, and what its journal gives."""

from collections.abc import Iterator, Sequence

from msgspec import UNSET

from classclock.records.document import LaneResults, ResultsDocument, plain_values

_FROM_THE_BOOK = ("best_before",)
"""What no journal knows."""


def differences(worked_out: ResultsDocument, saved: ResultsDocument) -> tuple[str, ...]:
    """A line for each, in words. What the saved file doesn't say isn't compared."""
    return tuple(_differences(worked_out, saved))


def _differences(worked_out: ResultsDocument, saved: ResultsDocument) -> Iterator[str]:
    again = {(piece.name, piece.attempt): piece for piece in worked_out.pieces}
    before = {(piece.name, piece.attempt): piece for piece in saved.pieces}
    for key in dict.fromkeys((*again, *before)):
        if key not in again or key not in before:
            yield f"{key[0]}: only {'saved' if key in before else 'in the journal'}"
        else:
            if again[key].status != before[key].status:
                now, then = again[key].status, before[key].status
                yield f"{key[0]}: {now} in the journal, saved was {then}"
            yield from _of_lanes(key[0], again[key].lanes, before[key].lanes)


def _of_lanes(
    piece: str, again: Sequence[LaneResults], before: Sequence[LaneResults]
) -> Iterator[str]:
    saved = {(lane.athlete, lane.key, lane.heat): lane for lane in before}
    for lane in again:
        other = saved.pop((lane.athlete, lane.key, lane.heat), None)
        if other is None:
            yield f"{piece}, {lane.athlete}: not in the saved results"
        else:
            for field in _unequal(lane, other):
                now, then = _written(lane, field), _written(other, field)
                yield f"{piece}, {lane.athlete}: {field} {now}, saved was {then}"
    yield from (f"{piece}, {name}: not in the journal" for name, *_ in saved)


def _unequal(lane: LaneResults, saved: LaneResults) -> Iterator[str]:
    for field in LaneResults.__struct_fields__:
        then = getattr(saved, field)
        if then is not UNSET and then != getattr(lane, field) and field not in _FROM_THE_BOOK:
            yield field


def _written(lane: LaneResults, field: str) -> str:
    return _shown(plain_values(lane)[field])


def _shown(value: object) -> str:
    """As Python writes it, but for signs within texts: joined picture signs stay together."""
    match value:
        case str():
            return f"'{value}'"
        case list() | tuple():
            return f"[{', '.join(map(_shown, value))}]"
        case _:
            return repr(value)
