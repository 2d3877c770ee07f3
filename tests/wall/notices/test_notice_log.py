"""All that was said in a class, with its times."""

from datetime import UTC, datetime, timedelta

from classclock.wall.notices.notice import Notice
from classclock.wall.notices.notice_log import Logged, NoticeLog

SEVEN = datetime(2026, 3, 3, 19, tzinfo=UTC)
DISK, SOUND = (Notice(f"{key} is wrong", "must", key=key) for key in ("disk", "sound"))


def at(seconds: int) -> datetime:
    return SEVEN + timedelta(seconds=seconds)


def test_the_newest_comes_first_and_what_was_put_right_says_when() -> None:
    log = NoticeLog()
    log.said(Notice("rejoined", "must"), at(0))
    log.stand((DISK, SOUND), at(1))
    log.said(Notice("Noor, round 1", "answer"), at(2))
    log.stand((SOUND,), at(60))
    log.stand((SOUND, DISK), at(90))
    assert log.newest_first() == (
        Logged(DISK, at(90)),
        Logged(Notice("Noor, round 1", "answer"), at(2)),
        Logged(SOUND, at(1)),
        Logged(DISK, at(1), until=at(60)),
        Logged(Notice("rejoined", "must"), at(0)),
    )
    assert [one.wrong for one in log.newest_first()] == [True, False, True, False, False]


def test_a_trouble_whose_words_change_is_one_line() -> None:
    log = NoticeLog()
    log.stand((DISK,), at(0))
    fuller = Notice("disk is still wrong", "must", key="disk")
    log.stand((fuller,), at(5))
    assert log.newest_first() == (Logged(fuller, at(0)),)


def test_a_key_that_is_held_down_fills_no_list() -> None:
    log = NoticeLog()
    again = Notice("n again within 1.2 s: not counted", "refusal", answered_by=("n",))
    for tenth in range(30):
        log.said(again, SEVEN + timedelta(seconds=tenth / 10))
    assert log.newest_first() == (Logged(again, SEVEN + timedelta(seconds=2.9)),)
