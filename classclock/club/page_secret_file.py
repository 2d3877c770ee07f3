"""The secret of the page's address, where a club wants it to stay."""

import re
from pathlib import Path

from classclock.club.folder import page_secret, private
from classclock.machine.plain_file import read_file
from classclock.machine.whole_file import write_whole

_SECRET = re.compile(rb"[A-Za-z0-9_-]{22}\s*")


def kept_secret(folder: Path, fresh: str) -> str:
    """The one that is kept; from now on `fresh` where none is.

    Raises:
        OSError: it can't be written.
    """
    try:
        kept = read_file(page_secret(folder))
    except OSError:
        kept = b""
    if _SECRET.fullmatch(kept):
        return kept.decode().strip()
    write_whole(page_secret(private(folder)), f"{fresh}\n".encode())
    return fresh
