"""What the coach is told of the page."""

import errno

from classclock.following.page_messages import Served

LACKS_EXTRA = "the page needs a part that isn't installed: pip install 'classclock[serve]'"
STARTS_AGAIN = "the page has stopped, and is begun anew by itself"
HANGS = "the page hangs, and is begun anew by itself"
GIVEN_UP = "the page keeps stopping: ctrl+l tries it again"
_WHY = {
    errno.EADDRINUSE: "something else is there already: give another --port",
    errno.EADDRNOTAVAIL: "this laptop has no such address: give one of its own, or 0.0.0.0 for all",
    errno.EACCES: "you may not listen there: give a --port from 1024 on",
}


def cannot_listen(host: str, port: int, error: OSError) -> str:
    """Why nobody can be served there, and what to do."""
    why = _WHY.get(error.errno or 0) or error.strerror or type(error).__name__
    return f"no page at {host}, port {port}: {why}"


def spaced(digits: str) -> str:
    """Six of them as they are shown and said: `483 920`."""
    return f"{digits[:3]} {digits[3:]}"


def where_words(served: Served) -> tuple[str, ...]:
    """What there is to know beside the page's address."""
    only_here = "127.0.0.1" in served.bare or "[::1]" in served.bare
    lines = ["Whoever has this address sees the class, names and all, and nothing can be changed."]
    if only_here:
        lines.append("This laptop alone reaches it: --serve 0.0.0.0 lets the network see it too.")
    lines.append(f"A TV without a keyboard opens {served.bare} and shows six digits.")
    return tuple(lines)


def asks_words(digits: str) -> str:
    return f"{digits} asks to see the class: if your TV shows these digits, type them here"


def nobody_has(digits: str) -> str:
    return f"no screen shows {digits}: look again, and type what stands there"
