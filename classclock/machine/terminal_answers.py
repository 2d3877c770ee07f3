"""A terminal's answers, kept apart from what is typed. They come in among the keys.

Asked are XTVERSION, answered by `DCS > | text ST` or not at all, and then the primary device
attributes (DA1), which every terminal answers: by `CSI ? numbers c` (xterm's ctlseqs).
"""

import re

QUERY = b"\x1b[>q\x1b[c"

_ANSWER = re.compile(rb"\x1bP>\|(?P<version>[^\x1b]{0,200})\x1b\\|\x1b\[\?[0-9;]*(?P<last>c)")
_BEGUN = re.compile(rb"\x1b(P(>(\|[^\x1b]{0,200}(\x1b)?)?)?|\[(\?[0-9;]*)?)?")
_COULD_BE_KEYS = (b"\x1b", b"\x1bP", b"\x1b[")
KEY_SECONDS = 0.1
"""After so much silence an escape was a key; as long as Textual waits, too."""
LOST_SECONDS = 5
"""After so much silence the rest of an answer isn't coming."""


class TerminalAnswers:
    """Takes what a terminal sends, in pieces cut anywhere, and gives what was typed."""

    def __init__(self) -> None:
        self.version = ""
        """What it calls itself, once it has said so."""
        self.complete = False
        """Whether the last answer has come: from then on everything was typed."""
        self._held = b""

    @property
    def held(self) -> bool:
        """Whether something is kept that may be the beginning of an answer."""
        return bool(self._held)

    def typed(self, data: bytes) -> bytes:
        """What of it was typed, as far as that can be said by now."""
        if self.complete:
            return data
        left, self._held = self._held + data, b""
        typed = b""
        while not self.complete and (at := left.find(b"\x1b")) >= 0:
            typed, left = typed + left[:at], left[at:]
            if answer := _ANSWER.match(left):
                self._take(answer)
                left = left[answer.end() :]
            elif _BEGUN.fullmatch(left):
                self._held = left
                return typed
            else:
                typed, left = typed + left[:1], left[1:]
        return typed + left

    def typed_after(self, seconds: float) -> bytes:
        """What of the beginning that is held was typed, where nothing came for so long."""
        if self._held in _COULD_BE_KEYS and seconds >= KEY_SECONDS:
            held, self._held = self._held, b""
            return held
        if seconds >= LOST_SECONDS:
            self._held = b""
        return b""

    def _take(self, answer: re.Match[bytes]) -> None:
        if answer["last"]:
            self.complete = True
        else:
            self.version = answer["version"].decode("ascii", "replace")
