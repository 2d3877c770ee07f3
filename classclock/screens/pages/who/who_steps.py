"""Who may try the next option, while the coach says who is here: each is read once."""

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from classclock.club import folder as club_folder
from classclock.plan.station import Station
from classclock.planning.next_steps import NextStep, next_step
from classclock.screens.pages.who.who_list import WhoList
from classclock.tally.piece import Piece

if TYPE_CHECKING:
    from collections.abc import Sequence

    from classclock.book.asking.step_reading import Uses  # loads sqlalchemy


class StepsHere:
    """For the coach's eyes alone; who asks sees to it that no room reads along."""

    def __init__(self, who: WhoList, enough: int) -> None:
        """`enough` is the club's number of scores like the others'; 0 names nobody."""
        self._who, self._enough = who, enough
        self._uses: dict[str, Uses] = {}

    def learn(self, read: "Uses") -> None:
        """Take up what was read."""
        self._uses |= dict.fromkeys(read.own, read)

    def of(self, ident: str, *, up: bool = True) -> tuple[tuple[Station, NextStep], ...]:
        """What may be offered to somebody for what they do in this plan, station by station.

        Without `up` nothing that is nearer to as written.
        """
        return tuple(self._found(ident, up=up)) if self._enough else ()

    def _found(self, ident: str, *, up: bool) -> Iterator[tuple[Station, NextStep]]:
        uses, who = self._uses.get(ident), self._who
        if uses is None:
            return
        for index, segment in enumerate(who.plan.segment):
            if segment.teams is not None or Piece.of(segment, who.unit).counts_by == "load":
                continue
            chosen = who.choices.in_segment(index)
            options = chosen[ident].options if ident in chosen else ()
            for place, station in enumerate(segment.station):
                option = options[place] if place < len(options) else 0
                used = uses.of(ident, segment, place, option)
                step = next_step(station, option, used, self._enough)
                if step is not None and (up or not step.up):
                    yield station, step


def read_steps_here(folder: Path, people: "Sequence[str]", who: WhoList, now: datetime) -> "Uses":
    """Read it for these ids; loads sqlalchemy, and takes its time: for a thread."""
    from classclock.book.asking.step_reading import (  # noqa: PLC0415  see above
        StepQuestion,
        Uses,
        uses_for,
    )

    if not club_folder.results(folder).is_dir():
        return Uses()
    return uses_for(folder, StepQuestion(people, who.plan, int(now.timestamp() * 1000)))
