"""What all pages show: the class that runs, in parts, brought up to date as it happens."""

import asyncio
from collections.abc import Callable, Coroutine
from pathlib import Path

from msgspec import to_builtins

from classclock.clock.cue_track import CueHeard, CueSkipped
from classclock.clock.engine import ClockEngine, SoundAhead
from classclock.clock.source import local_now, stamp_now
from classclock.clock.timeline import Reading
from classclock.club.folder import settings
from classclock.club.settings import read_club
from classclock.following.followed_guide import FollowedGuide
from classclock.following.follower import Followed, Follower
from classclock.following.following_words import CANNOT, WAITS, alone_words
from classclock.serve.page_clock import page_clock
from classclock.serve.sent_content import (
    RoomPart,
    sent_board,
    sent_card,
    sent_lane,
    sent_settle,
    sent_summary,
    sent_wall,
)
from classclock.tally.lineup import MOST_LANES
from classclock.wall.board_content import board_now
from classclock.wall.cue_words import CueStanding, word_of
from classclock.wall.expected_line import Expectation
from classclock.wall.seen.started_content import StartedContent
from classclock.wall.start_lines import start_lines
from classclock.wall.time_words import time_words

RoomParts = dict[str, RoomPart]

EVERY = 0.04
"""Seconds between two looks at the files, as a terminal that follows has them."""
_SHOWS = 0.5
"""Seconds between two times that all is brought up to date."""


class ShownClass:
    """Listens to an engine of its own for each class; no sound comes from here."""

    def __init__(self, follower: Follower, folder: Path, show: Callable[[RoomParts], None]) -> None:
        """`show` is handed all parts whenever some of them may have changed."""
        self._follower, self._folder, self._show = follower, folder, show
        self._followed: Followed | None = None
        self._content: StartedContent | None = None
        self._engine: ClockEngine | None = None
        self._expectation = Expectation()
        self._cue = CueStanding()
        self._readings = 0
        self._trouble = ""
        self._tasks: set[asyncio.Task[None]] = set()

    @property
    def journal(self) -> str:
        """Which class it is: another name, another class; empty where none runs."""
        if self._followed is None:
            return ""
        return f"{self._followed.seen.started} {self._followed.seen.live.record.plan_name}"

    async def run(self) -> None:
        """Until cancelled."""
        loop, shown = asyncio.get_running_loop(), float("-inf")
        try:
            while True:
                if self.look() or loop.time() - shown >= _SHOWS:
                    shown = loop.time()
                    self.show()
                await asyncio.sleep(EVERY)
        finally:
            self._stop()

    def look(self) -> bool:
        """See what has happened; whether anything has."""
        if not self._follower.look():
            return False
        if self._follower.followed is not self._followed:
            self._turn_to(self._follower.followed)
        if self._followed is not None:
            self._read_book_again(self._followed)
        if self._engine is not None:
            self._engine.wake()
        return True

    def show(self) -> None:
        """Hand over how things stand now."""
        self._show(self.parts())

    # -- which class -----------------------------------------------------------------------

    def _turn_to(self, followed: Followed | None) -> None:
        self._stop()
        self._followed, self._readings, self._trouble = followed, 0, ""
        self._cue = CueStanding()
        if followed is None:
            self._content = self._engine = None
            return
        live = followed.seen.live
        self._content = StartedContent(followed.seen)
        self._engine = ClockEngine(live.clock, live.view, self)
        self._begin(self._engine.run())
        self._begin(asyncio.to_thread(followed.seen.read_ahead))

    def _read_book_again(self, followed: Followed) -> None:
        readings = followed.guide.room.readings
        if readings != self._readings:
            self._readings = readings
            self._begin(self._read_book(followed))

    async def _read_book(self, followed: Followed) -> None:
        trouble = await asyncio.to_thread(followed.seen.read_book)
        if followed is self._followed:
            self._trouble = trouble
            self.show()

    def _begin(self, work: Coroutine[object, object, None]) -> None:
        task = asyncio.get_running_loop().create_task(work)
        self._tasks.add(task)
        task.add_done_callback(self._tasks.discard)

    def _stop(self) -> None:
        for task in self._tasks:
            task.cancel()

    # -- what is seen ----------------------------------------------------------------------

    def parts(self) -> RoomParts:
        """All that a page shows now; None stands for a part that isn't there."""
        shown = _NOTHING.copy()
        followed, content = self._followed, self._content
        if followed is None or content is None:
            trouble = self._follower.trouble
            shown["screen"] = "waiting"
            shown["said"] = [CANNOT, trouble] if trouble else [WAITS, ""]
            shown["time"] = to_builtins(time_words(local_now(), None))
            return shown
        seen, guide = followed.seen, followed.guide
        live, room = seen.live, guide.room
        record = live.record
        shown["time"] = to_builtins(time_words(seen.source.wall(), record.ends))
        shown["foot"] = followed.trouble or self._trouble
        shown["alone"] = alone_words(live.phase) if self._follower.alone else ""
        if record.sheet is None and not record.closed:
            board = board_now(seen, guide.lesson)
            if seen.basis is not None:
                board = self._expectation.beside(board, live, seen.basis)
            shown["screen"], shown["board"] = "board", sent_board(board)
        else:
            self._started(shown, content, guide)
        if (view := live.view()) is not None:
            shown["clock"] = to_builtins(page_clock(view, live.clock))
        if room.card:
            club = read_club(settings(self._folder))[0] or seen.club
            shown["card"] = sent_card(club.emergency)
        elif room.sharing and live.phase == "board":
            shown["sharing"] = list(start_lines(live)) or None
        return shown

    def _started(self, shown: RoomParts, content: StartedContent, guide: FollowedGuide) -> None:
        selected = guide.selected
        shown["screen"] = content.screen
        match content.screen:
            case "settle":
                shown["settle"] = sent_settle(content.settle(selected))
            case "summary":
                shown["summary"] = sent_summary(content.summary(), guide.page("end"))
            case "wall":
                cue = self._cue.word(self._real())
                if (wall := content.wall(selected, cue)) is not None:
                    heading, lanes = wall
                    shown["wall"], shown["lanes"] = sent_wall(heading), len(lanes)
                    shown |= {f"lane {n}": sent_lane(lane) for n, lane in enumerate(lanes)}

    def _real(self) -> int:
        if self._followed is None:
            return 0
        return self._followed.seen.source.stroke_ms(stamp_now())

    # -- what the engine says --------------------------------------------------------------

    def on_tick(self, _: Reading) -> None:
        """A digit has changed: what a lane is on for may have, too."""
        self.show()

    def on_cues(self, cues: tuple[CueHeard | CueSkipped, ...]) -> None:
        self._cue.come(word_of(cues), self._real())
        self.show()

    def on_sounds(self, sounds: tuple[SoundAhead, ...]) -> None:
        """A page sounds them by its own clock, where somebody turned that on."""

    def on_silence(self) -> None:
        """As above."""

    def on_over(self) -> None:
        self.show()


_NOTHING: RoomParts = {
    "screen": "waiting",
    **dict.fromkeys(("said", "foot", "alone", "time", "clock", "card", "sharing")),
    **dict.fromkeys(("board", "wall", "lanes", "settle", "summary")),
    **dict.fromkeys(f"lane {n}" for n in range(MOST_LANES)),
}
