"""What a disk answers when it refuses, in a coach's words."""

import errno

_WORDS = {
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "your part of the disk is full",
    errno.EFBIG: "this file may grow no further",
    errno.EIO: "the disk is failing",
    errno.EEXIST: "something else has that name",
    errno.ENOTDIR: "a file stands where a folder belongs",
    errno.EROFS: "the disk can only be read",
    errno.EACCES: "you may not write there",
    errno.EPERM: "you may not write there",
}
_FULL = (errno.ENOSPC, errno.EDQUOT)


def is_full(error: OSError) -> bool:
    """Whether more can be written once something else is deleted."""
    return error.errno in _FULL


def reason(error: OSError) -> str:
    """Why the disk refuses: a clause that fits behind what it refuses."""
    known = _WORDS.get(error.errno or 0)
    return known or error.strerror or type(error).__name__
