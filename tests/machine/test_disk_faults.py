"""What a disk answers, in a coach's words."""

import errno

import pytest

from classclock.machine.disk_faults import is_full, reason


@pytest.mark.parametrize(
    ("number", "words", "full"),
    [
        (errno.ENOSPC, "the disk is full", True),
        (errno.EDQUOT, "your part of the disk is full", True),
        (errno.EIO, "the disk is failing", False),
        (errno.EROFS, "the disk can only be read", False),
        (errno.EACCES, "you may not write there", False),
    ],
)
def test_what_is_known_is_said_plainly(
    number: int,
    words: str,
    full: bool,  # noqa: FBT001  a case of the test
) -> None:
    error = OSError(number, "as the system has it")
    assert (reason(error), is_full(error)) == (words, full)


def test_all_else_as_the_system_says_it() -> None:
    assert reason(OSError(errno.ELOOP, "Too many levels")) == "Too many levels"
    assert reason(TimeoutError()) == "TimeoutError"
