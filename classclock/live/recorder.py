"""Where a class's events go before they count: a journal on disk, or a list in memory."""

from typing import Protocol

from classclock.tally.events import Event


class Recorder(Protocol):
    def append(self, event: Event) -> int:
        """Take one event; its number in the class, from zero."""
        ...


class EventList:
    """Keeps a class's events in memory, where no journal is wanted."""

    def __init__(self) -> None:
        self.events: list[Event] = []

    def append(self, event: Event) -> int:
        self.events.append(event)
        return len(self.events) - 1
