"""What the coach's own screen says, worked out from the class: pure values, ready to be painted.

Another drawing of the same class: what is counted, asked and allowed is decided elsewhere.
"""

from collections.abc import Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from classclock.tally.events import Noted
from classclock.tally.lineup import MOST_LANES
from classclock.tally.load_flags import open_flags
from classclock.tally.record import ClassRecord
from classclock.tally.scores.questions import questions
from classclock.tally.sheet import Sheet
from classclock.units.kept import Same
from classclock.units.printable import printable
from classclock.wall.between.effort_lines import effort_asked
from classclock.wall.board_content import BoardContent
from classclock.wall.coach.about_people import AboutPeople
from classclock.wall.coach.board_lanes import lanes_ahead, people_alone, piece_ahead
from classclock.wall.coach.coach_lanes import running_lanes, settle_lanes
from classclock.wall.coach.coach_sections import (
    asked_section,
    entries_section,
    flags_section,
    notes_section,
    plan_section,
)
from classclock.wall.coach.coach_values import CoachContent, CoachLane, CoachLine, CoachSection
from classclock.wall.coach.end_lanes import end_lanes
from classclock.wall.coach.to_ask import to_ask
from classclock.wall.seen.class_seen import ClassSeen
from classclock.wall.seen.started_content import StartedContent
from classclock.wall.settle_content import settle_hint, settle_state
from classclock.wall.summary_content import where_saved
from classclock.wall.wall_content import WallContent

if TYPE_CHECKING:
    from classclock.strength.class_loads import ClassLoads

Notes = tuple[Noted, ...]


class CoachContents:
    """The coach's screen of one class; what was worked out is kept as long as nothing changed."""

    def __init__(self, seen: ClassSeen, started: StartedContent) -> None:
        """`started` is what the room sees of it: what that has worked out isn't done again."""
        self._seen, self._started = seen, started
        self._about = lru_cache(maxsize=2)(_about)
        self._ahead = lru_cache(maxsize=1)(_lanes_ahead)

    def before(self, board: BoardContent, notes: Notes = ()) -> CoachContent:
        """Before the start of the segment on the board, which says this to the room."""
        live = self._seen.live
        ahead = self._ahead(Same(live.record), Same(live.loads), notes)
        flags = (
            () if ahead.segment is None else open_flags(live.record, live.loads, (ahead.segment,))
        )
        lesson = board.lesson
        taught = f"the room is taught {lesson.name}: tab goes on" if lesson is not None else ""
        here = ahead.segment == live.record.chosen.segment
        asked = flags_section(flags, (board.equipment, taught), here=here)
        head = replace(_board_head(board), hint=_what_each_does(live.record, ahead))
        sections = self._beside(asked, None, notes, board.notes)
        return CoachContent(head, ahead.lanes, sections, clears=True)

    def started(
        self,
        *,
        selected: str | None = None,
        cue: str = "",
        notes: Notes = (),
        saved: tuple[str, ...] = (),
    ) -> CoachContent:
        """Of a class that has been started. `selected` is a lane's id, `saved` its results."""
        live = self._seen.live
        sheet = live.record.sheet
        head, screen = self._started.head(cue), self._started.screen
        if screen == "summary" or sheet is None or head is None:
            return self._end(notes, saved)
        if not sheet.lanes:
            return self._unscored(sheet, head, notes)
        if screen == "settle":
            return self._settle(sheet, head, selected, notes, saved)
        record, now = live.record, live.clock.now()
        asked = to_ask(sheet, now)
        about = self._about_now(record, notes)
        lanes = running_lanes(sheet, self._started.everybody(selected), asked, about)
        counts_in = live.phase == "count-in"
        sections = self._beside(asked_section(asked, sheet.lanes), sheet, notes)
        return _with_selected(CoachContent(head, tuple(lanes), sections, clears=counts_in))

    def _unscored(self, sheet: Sheet, head: WallContent, notes: Notes) -> CoachContent:
        """While nothing is counted everybody is shown with what they do next."""
        live = self._seen.live
        ahead = self._ahead(Same(live.record), Same(live.loads), notes)
        if not head.hint:
            head = replace(head, hint=_what_each_does(live.record, ahead))
        sections = self._beside(asked_section((), ()), sheet, notes)
        return CoachContent(head, ahead.lanes, sections, clears=live.phase == "count-in")

    def _settle(
        self,
        sheet: Sheet,
        head: WallContent,
        selected: str | None,
        notes: Notes,
        saved: tuple[str, ...],
    ) -> CoachContent:
        record, now = self._seen.live.record, self._seen.live.clock.now()
        asked = to_ask(sheet, now)
        lanes = settle_lanes(
            record,
            self._started.beside_earlier(),
            asked,
            self._about_now(record, notes),
            selected,
        )
        head = replace(head, hint=settle_hint(sheet, questions(sheet)).replace("  ", "; "))
        if asked:  # large, in place of TIME
            name = next(lane.name for lane in sheet.lanes if lane.id == asked[0].lane)
            head = replace(head, emphasis=printable(f"{name}: {asked[0].said()}"))
        state = settle_state(sheet, saved, named=False)
        asking = replace(asked_section(asked, sheet.lanes), over_keys=state)
        return _with_selected(CoachContent(head, tuple(lanes), self._beside(asking, sheet, notes)))

    def _end(self, notes: Notes, saved: tuple[str, ...]) -> CoachContent:
        record = self._seen.live.record
        _, where = where_saved(saved, any_=bool(record.pieces()))
        head = WallContent(clock="", title=printable(record.plan.title), words=where)
        about = self._about_now(record, notes)
        lanes = tuple(end_lanes(record, self._started.beside_earlier(), about))
        efforts = effort_asked(record)
        heading, *who = efforts or ("Nobody is to be asked",)
        if (more := len(lanes) - MOST_LANES) > 0:
            who.append(f"{more} more are here: ctrl+p lists everybody")
        asked = CoachSection("asked", heading, tuple(map(CoachLine, who)))
        return CoachContent(head, lanes[:MOST_LANES], self._beside(asked, None, notes))

    def _beside(
        self,
        asked: CoachSection,
        sheet: Sheet | None,
        notes: Notes,
        planned: Sequence[str] | None = None,
    ) -> tuple[CoachSection, ...]:
        """All sections, the weightiest first; `planned` are the plan's notes."""
        live = self._seen.live
        record = live.record
        if planned is None:
            of_plan = (*record.segment.notes, *record.plan.notes)
            planned = [printable(words, 200) for words in of_plan]
        entries = (entries_section(sheet),) if sheet is not None else ()
        plan = plan_section(record, live.clock.source.wall())
        return (asked, *entries, plan, notes_section(record, notes, planned))

    def _about_now(self, record: ClassRecord, notes: Notes) -> AboutPeople:
        loads = Same(self._seen.live.loads)
        return self._about(Same(record), loads, notes, record.chosen.segment)


def _about(
    record: Same[ClassRecord],
    loads: "Same[ClassLoads | None]",
    notes: Notes,
    segment: int | None,
) -> AboutPeople:
    return AboutPeople(record.it, loads.it, notes, segment)


class _Ahead(Struct, frozen=True):
    """Everybody with what they do in the next piece; no segment: none is left."""

    segment: int | None
    lanes: tuple[CoachLane, ...]


def _lanes_ahead(
    record: Same[ClassRecord], loads: "Same[ClassLoads | None]", notes: Notes
) -> _Ahead:
    ahead = piece_ahead(record.it, loads.it)
    segment = None if ahead is None else ahead.segment
    about = AboutPeople(record.it, loads.it, notes, segment)
    lanes = people_alone(record.it, about) if ahead is None else lanes_ahead(ahead, about)
    return _Ahead(segment, tuple(lanes))


def _what_each_does(record: ClassRecord, ahead: _Ahead) -> str:
    """In which piece, where that isn't the one on the board."""
    if ahead.segment is None or ahead.segment == record.chosen.segment:
        return ""
    return f"each one's line is about {printable(record.plan.segment[ahead.segment].name, 40)}"


def _with_selected(content: CoachContent) -> CoachContent:
    """With all that is known of the selected lane before the notes, where there is room for it."""
    lane = next((lane for lane in content.lanes if lane.selected), None)
    if lane is None:
        return content
    known = "; ".join(said.words for said in lane.about)
    line = CoachLine(f"{lane.name} {lane.score}: {known or 'nothing else is known'}", lane.key)
    sections = (
        replace(one, heading="Selected, and notes", lines=(line, *one.lines))
        if one.name == "notes"
        else one
        for one in content.sections
    )
    return replace(content, sections=tuple(sections))


def _board_head(board: BoardContent) -> WallContent:
    """What is on the board, as the heading of a wall without a clock."""
    stop = (board.stop,) if board.stop else ()
    return WallContent(
        clock="",
        title=board.name,
        words="; ".join(filter(None, (board.terms or board.words, board.expected))),
        head=board.head,
        fitted=board.place,
        stations=tuple(station.words for station in board.stations),
        standards=tuple(station.standard for station in board.stations),
        lines=(*board.sets, *board.lines),
        cautions=(*stop, *board.cautions),
    )
