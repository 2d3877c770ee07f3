"""The time of day, cues and the last line, in words."""

from datetime import datetime, timedelta, timezone

from classclock.clock.cue_track import CueHeard, CueSkipped
from classclock.clock.cues import Cue
from classclock.wall.cue_words import skipped_words, word_of
from classclock.wall.time_words import left_words, time_words

HERE = timezone(timedelta(hours=1))
ENDS = "2026-03-03T19:00:00+01:00"


def at(hour: int, minute: int, second: int = 0) -> datetime:
    return datetime(2026, 3, 3, hour, minute, second, tzinfo=HERE)


def test_the_time_of_day_and_the_class_s_end_are_told() -> None:
    words = time_words(at(18, 42), ENDS)
    assert (words.now, words.end, words.over) == ("18:42", "ends 19:00", False)


def test_once_past_the_end_the_minutes_over_are_told() -> None:
    assert time_words(at(19, 0, 59), ENDS).end == "ends 19:00"
    words = time_words(at(19, 3, 20), ENDS)
    assert (words.end, words.over) == ("3 min over", True)


def test_an_end_given_in_another_offset_is_told_in_the_room_s_time() -> None:
    assert time_words(at(18, 42), "2026-03-03T18:00:00+00:00").end == "ends 19:00"


def test_what_is_left_of_the_class_stands_beside_what_the_plan_needs() -> None:
    words = left_words(at(18, 20), ENDS, 23 * 60_000)
    assert words == "40 min of the class left, the plan needs 23 min more"


def test_a_cue_has_a_word_and_the_countdown_has_its_digits() -> None:
    assert word_of([CueHeard(Cue(0, "halfway"), 0)]) == "HALFWAY"
    assert word_of([CueHeard(Cue(0, "short"), 0)]) == ""


def test_a_cue_that_came_too_late_is_named() -> None:
    late: list[CueHeard | CueSkipped] = [
        CueSkipped(Cue(0, "halfway"), 1500),
        CueHeard(Cue(0, "end"), 0),
    ]
    assert skipped_words(late) == "not sounded, over a second late: halfway"
    assert skipped_words(late[1:]) == ""
