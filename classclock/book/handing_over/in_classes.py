"""What a class's results have about one person: their own lanes, and how they were called."""

from typing import Any

from classclock.records.document import LaneResults, PieceResults, ResultsDocument, plain_values

_OF_EVERYBODY = ("caution", "lanes")
_OF_OTHERS = ("athlete", "members", "partners")


def part_about(document: ResultsDocument, ids: frozenset[str]) -> dict[str, Any] | None:
    """Their part of a class's results, as the file has it; None where they weren't there."""
    here = [plain_values(person) for person in document.people if person.id in ids]
    pieces = [part for piece in document.pieces if (part := _piece(piece, ids))]
    if not here and not pieces:
        return None
    head = {"title": document.title, "started": document.started, "journal": document.journal}
    return {**head, "people": here, "pieces": pieces}


def _piece(piece: PieceResults, ids: frozenset[str]) -> dict[str, Any] | None:
    lanes = [_lane(lane, ids) for lane in piece.lanes if ids & {*lane.members}]
    if not lanes:
        return None
    head = {key: value for key, value in plain_values(piece).items() if key not in _OF_EVERYBODY}
    return {**head, "lanes": lanes}


def _lane(lane: LaneResults, ids: frozenset[str]) -> dict[str, Any]:
    """Of a team only how many the others were; its key is the first one's."""
    kept = {key: value for key, value in plain_values(lane).items() if key not in _OF_OTHERS}
    if lane.members[0] not in ids:
        del kept["key"]
    return {**kept, "others_in_the_team": len(set(lane.members) - ids)}
