"""The views of a class that has been started: the wall, the settle, the end."""

from functools import lru_cache

from classclock.live.session import Session
from classclock.plan.model import is_piece
from classclock.screens.canvas.look import Look
from classclock.screens.live.end.summary_view import SummaryView
from classclock.screens.live.page_keys import PageKeys
from classclock.screens.live.settle.settle_view import SettleView
from classclock.screens.live.wall.wall_view import WallView
from classclock.tally.counting.counting import GRACE
from classclock.tally.record import ClassRecord
from classclock.tally.scores.questions import questions
from classclock.tally.sheet import Sheet
from classclock.units.kept import Same
from classclock.units.times import show_time
from classclock.wall.best_words import RunStandings, standings
from classclock.wall.kept_off import off_the_wall
from classclock.wall.kept_off_content import beside_kept_off, lane_kept_off
from classclock.wall.lane_content import LaneContent, LaneContents
from classclock.wall.own_runs import own_runs
from classclock.wall.wall_content import wall_content


class StartedViews:
    def __init__(self, session: Session, look: Look) -> None:
        self._session = session
        mirrored = session.club.tv.mirrored
        self._wall = WallView(look, id="wall")
        self._lanes = LaneContents(session.club.equipment)
        self._runs = lru_cache(maxsize=1)(own_runs)
        self._standings = lru_cache(maxsize=1)(standings)
        self._settle = SettleView(look, mirrored=mirrored, id="settle")
        self._summary = SummaryView(look, id="summary")
        self._on: WallView | SettleView | SummaryView = self._wall
        self.page_keys = PageKeys(session.source, self._pages, self._page_shown)

    def widgets(self) -> tuple[WallView | SettleView | SummaryView, ...]:
        return self._wall, self._settle, self._summary

    def show(self, *, selected: str | None, cue: str) -> str:
        """Show the class as it stands now; the id of the view that shows it."""
        live = self._session.live
        sheet = live.record.sheet
        saved, beside = self._saved, self._beside_earlier
        if live.record.closed or sheet is None:
            self._on = self._summary
            self._summary.show(live, saved(), beside(), on=self.page_keys.page("summary"))
            return "summary"
        if self._is_to_be_settled(sheet):
            self._on = self._settle
            asked = next(iter(questions(sheet)), None)
            on = self.page_keys.page(live.record.chosen, (asked, selected))
            self._settle.show(live, selected, saved(), beside(), on=on)
            return "settle"
        self._on = self._wall
        self.page_keys.page("wall")
        self._show_wall(sheet, selected, cue)
        return "wall"

    def _pages(self) -> int:
        """How many pages that turn by themselves what is shown has."""
        return 1 if isinstance(self._on, WallView) else self._on.pages

    def _page_shown(self) -> int:
        return 0 if isinstance(self._on, WallView) else self._on.page_shown

    def show_digits(self) -> None:
        """Bring the digits of a running clock up to date, and nothing else."""
        view = self._session.view()
        if view is None:
            return
        reading = view.at(self._session.live.clock.now())
        if reading.span.kind != "count-in":
            self._wall.show_digits(show_time(reading.shown * 1000), inverted=reading.over)

    def _is_to_be_settled(self, sheet: Sheet) -> bool:
        """Over, and so long ago that a call can't count as at the cap any more."""
        now = self._session.live.clock.now()
        if sheet.ended(now) is None or not is_piece(sheet.piece.segment):
            return False
        return sheet.ended_by is not None or sheet.late_by(now) > GRACE

    def _show_wall(self, sheet: Sheet, selected: str | None, cue: str) -> None:
        record, now = self._session.live.record, self._session.live.clock.now()
        view = self._session.view()
        if view is None:
            return
        phase = record.phase(now)
        content = wall_content(record, sheet, view.at(now), phase, cue=cue, now=now)
        lanes = (
            self._contents(record, sheet, now, selected)
            if sheet.lanes and phase != "count-in"
            else ()
        )
        self._wall.show(content, lanes)

    def _contents(
        self, record: ClassRecord, sheet: Sheet, now: int, selected: str | None
    ) -> tuple[LaneContent, ...]:
        runs = self._runs(
            Same(self._session.results.own_bests),
            Same(sheet.piece),
            tuple(tally.lane for tally in sheet.tallies.values()),
            sheet.timeline.total,
            record.people,
        )
        heats = record.heats(record.chosen)
        contents = self._lanes.at(sheet, heats, now, selected=selected, earlier=runs)
        private = [person for person in record.people if person.off_the_wall]
        if not private:
            return contents
        by_load = sheet.piece.counts_by == "load"
        off = {lane.id for lane in sheet.lanes if off_the_wall(lane, private)}
        beside = {one for group in sheet.partners if off.intersection(group) for one in group}
        return tuple(
            lane_kept_off(content, by_load=by_load)
            if lane.id in off
            else beside_kept_off(content)
            if lane.id in beside
            else content
            for lane, content in zip(sheet.lanes, contents, strict=True)
        )

    def _saved(self) -> tuple[str, ...]:
        return tuple(str(path) for path in self._session.on_disk.saved)

    def _beside_earlier(self) -> RunStandings:
        results = self._session.results
        record = Same(self._session.live.record)
        return self._standings(record, Same(results.own_bests), results.started)
