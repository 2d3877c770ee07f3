"""What a screen is told when the keys go to another window, and when they come back."""

from textual.message import Message


class FocusMoved(Message):
    """The terminal's window got the keys, or another one did."""

    def __init__(self, here: bool) -> None:  # noqa: FBT001  there is nothing else it could mean
        super().__init__()
        self.here = here
