"""A class that has been started, as the room sees it: which screen is up, and what is on the wall.

What was worked out is kept as long as nothing of it has changed.
"""

from functools import lru_cache
from typing import Literal

from classclock.clock.timeline import Reading
from classclock.plan.model import is_piece
from classclock.tally.counting.counting import GRACE
from classclock.tally.record import ClassRecord
from classclock.tally.sheet import Sheet
from classclock.units.kept import Same
from classclock.units.times import show_time
from classclock.wall.best_words import RunStandings, standings
from classclock.wall.kept_off import off_the_wall
from classclock.wall.kept_off_content import beside_kept_off, lane_kept_off
from classclock.wall.lane_content import LaneContent, LaneContents
from classclock.wall.own_runs import own_goals, own_runs
from classclock.wall.seen.class_seen import ClassSeen
from classclock.wall.settle_content import SettlePage, settle_page
from classclock.wall.summary_content import Summary, summary
from classclock.wall.wall_content import WallContent, wall_content

StartedScreen = Literal["wall", "settle", "summary"]


class StartedContent:
    def __init__(self, seen: ClassSeen, *, mirrored: bool = True) -> None:
        """`mirrored`: what the room may not read is left out."""
        self._seen, self._mirrored = seen, mirrored
        self._lanes = LaneContents(seen.club.equipment)
        self._runs = lru_cache(maxsize=1)(own_runs)
        self._goals = lru_cache(maxsize=1)(own_goals)
        self._standings = lru_cache(maxsize=1)(standings)

    @property
    def screen(self) -> StartedScreen:
        """Which screen shows the class as it stands now."""
        live = self._seen.live
        sheet = live.record.sheet
        if live.record.closed or sheet is None:
            return "summary"
        return "settle" if _is_to_be_settled(sheet, live.clock.now()) else "wall"

    def wall(
        self, selected: str | None = None, cue: str = ""
    ) -> tuple[WallContent, tuple[LaneContent, ...]] | None:
        """The wall and its lanes; None where no clock was started. `selected` is a lane's id."""
        record, sheet, content = (
            self._seen.live.record,
            self._seen.live.record.sheet,
            self.head(cue),
        )
        if sheet is None or content is None:
            return None
        counts_in = self._seen.live.phase == "count-in"
        lanes = () if counts_in or not sheet.lanes else self.everybody(selected)
        return content, _as_the_room_may_read(lanes, record, sheet) if lanes else ()

    def head(self, cue: str = "") -> WallContent | None:
        """The wall beside its lanes."""
        live = self._seen.live
        record, now, view = live.record, live.clock.now(), live.view()
        if record.sheet is None or view is None:
            return None
        phase = record.phase(now)
        return wall_content(record, record.sheet, view.at(now), phase, cue=cue, now=now)

    def everybody(self, selected: str | None = None) -> tuple[LaneContent, ...]:
        """Every lane with all that it says, whoever keeps it off the wall: for the coach alone."""
        live = self._seen.live
        record, sheet = live.record, live.record.sheet
        return () if sheet is None else self._of_lanes(record, sheet, live.clock.now(), selected)

    def settle(self, selected: str | None = None, saved: tuple[str, ...] = ()) -> SettlePage:
        """The piece on the board as it stands. `saved`: where its results are."""
        live, standings = self._seen.live, self.beside_earlier()
        return settle_page(live, selected, saved, mirrored=self._mirrored, standings=standings)

    def summary(self, saved: tuple[str, ...] = ()) -> Summary:
        """The end of the class. `saved`: the paths of the results, as they are to be read."""
        return summary(self._seen.live, saved, self.beside_earlier())

    def beside_earlier(self) -> RunStandings:
        """How the scores of this class stand beside those of earlier ones."""
        seen = self._seen
        return self._standings(Same(seen.live.record), Same(seen.own_bests), seen.started)

    def _of_lanes(
        self, record: ClassRecord, sheet: Sheet, now: int, selected: str | None
    ) -> tuple[LaneContent, ...]:
        theirs = (
            Same(self._seen.own_bests),
            Same(sheet.piece),
            tuple(tally.lane for tally in sheet.tallies.values()),
            sheet.timeline.total,
            record.people,
        )
        runs, goals = self._runs(*theirs), self._goals(*theirs)
        heats = record.heats(record.chosen)
        return self._lanes.at(sheet, heats, now, selected=selected, earlier=runs, goals=goals)


def _as_the_room_may_read(
    lanes: tuple[LaneContent, ...], record: ClassRecord, sheet: Sheet
) -> tuple[LaneContent, ...]:
    """Without what somebody keeps off the wall."""
    private = [person for person in record.people if person.off_the_wall]
    if not private:
        return lanes
    by_load = sheet.piece.counts_by == "load"
    off = {lane.id for lane in sheet.lanes if off_the_wall(lane, private)}
    beside = {one for group in sheet.partners if off.intersection(group) for one in group}
    return tuple(
        lane_kept_off(content, by_load=by_load)
        if lane.id in off
        else beside_kept_off(content)
        if lane.id in beside
        else content
        for lane, content in zip(sheet.lanes, lanes, strict=True)
    )


def digits(reading: Reading) -> str:
    """What the clock shows of a piece that runs; nothing while it is counted in."""
    return "" if reading.span.kind == "count-in" else show_time(reading.shown * 1000)


def _is_to_be_settled(sheet: Sheet, now: int) -> bool:
    """Over, and so long ago that a call can't count as at the cap any more."""
    if sheet.ended(now) is None or not is_piece(sheet.piece.segment):
        return False
    return sheet.ended_by is not None or sheet.late_by(now) > GRACE
