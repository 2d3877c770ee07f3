"""What a page is sent: the follower's content, in parts, without what only the coach needs.

A part is sent again when it has changed. What time alone changes, digits and ribbons, isn't among
them: the page draws it by its clock.
"""

from typing import Any

from msgspec import to_builtins
from msgspec.structs import replace

from classclock.plan.settings.club import Emergency
from classclock.wall.board_content import BoardContent
from classclock.wall.emergency_words import (
    DISPATCHER,
    RULES,
    TO_THE_DOOR,
    call_words,
    place_words,
)
from classclock.wall.lane_bars import Ribbon
from classclock.wall.lane_content import LaneContent
from classclock.wall.modification import AS_WRITTEN
from classclock.wall.seen.page_turning import PageOn
from classclock.wall.settle_content import SettlePage
from classclock.wall.summary_content import Summary
from classclock.wall.wall_content import WallContent

RoomPart = dict[str, Any] | list[Any] | str | int | None

_OF_THE_BOARD = (
    *("place", "name", "head", "terms", "words", "expected", "stations", "sets", "lines"),
    *("cautions", "stop", "stop_stood", "lanes", "lesson", "lift"),
)
_OF_THE_WALL = (
    *("title", "words", "head", "fitted", "emphasis", "held", "progress", "total_left"),
    *("stations", "standards", "lift", "lines", "cautions", "longest_clock"),
)
_OF_A_LANE = (
    *("key", "name", "tally", "rank", "modification", "split", "on_for", "against", "standing"),
    *("sign", "doubtful", "out", "bar", "selected", "turn", "start", "rung", "load", "unit"),
    *("plates",),
)
_OF_A_LIFTER = (
    *("key", "name", "amount", "unit", "bar", "plates", "side", "which", "words", "later"),
    *("flagged", "waits"),
)
_OF_THE_SETTLE = ("title", "words", "rows", "question")


def sent_board(content: BoardContent) -> RoomPart:
    """Notes, keys and the minutes left are the coach's."""
    board = _only(content, _OF_THE_BOARD)
    if content.lift is not None:
        lanes = [
            {**_only(lane, _OF_A_LIFTER), "then": lane.change.words, "side": lane.plate_words}
            for lane in content.lift.lanes
        ]
        board["lift"] = {
            "title": content.lift.title,
            "work": content.lift.work,
            "short": content.lift.short,
            "lanes": lanes,
        }
    return board


def sent_wall(content: WallContent) -> RoomPart:
    """The digits of its clock are the page's to draw; the keys are the coach's."""
    return _only(content, _OF_THE_WALL)


def sent_lane(content: LaneContent) -> RoomPart:
    """The end of its ribbon is the page's to draw, as long as it grows."""
    if isinstance(content.bar, Ribbon) and not content.bar.stopped:
        content = replace(content, bar=replace(content.bar, reached=0))
    if content.modification == AS_WRITTEN:
        content = replace(content, modification="")
    planned = content.planned[0] if content.planned and content.turn else ""
    return {**_only(content, _OF_A_LANE), "planned": planned, "room": content.room.tallies[0]}


def sent_settle(page: SettlePage) -> RoomPart:
    """Keys, and what is said of one lane to the coach, stay out; so does where a file is."""
    return {**_only(page, _OF_THE_SETTLE), "state": page.short_state or page.state}


def sent_summary(page: Summary, on: PageOn) -> RoomPart:
    """Where the files are stays out. `at` is the piece that the coach's keys have turned to."""
    turned = on.by_hand and bool(page.pieces)
    return {
        "title": page.title,
        "pieces": to_builtins(page.pieces),
        "asked": list(page.asked),
        "at": on.of(len(page.pieces)) if turned else None,
    }


def sent_card(card: Emergency) -> RoomPart:
    """What to do at once, where we are, whom to obey."""
    return {
        "call": call_words(card),
        "door": TO_THE_DOOR,
        "places": [words for _, words in place_words(card)],
        "obey": [DISPATCHER, RULES],
    }


def _only(content: object, fields: tuple[str, ...]) -> dict[str, Any]:
    return {name: to_builtins(getattr(content, name)) for name in fields}
