"""What the settle shows, worked out from the class: pure values, ready to be painted."""

from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from classclock.live.live_class import LiveClass
from classclock.plan.model import is_piece
from classclock.plan.outline import describe
from classclock.tally.fitted_words import described
from classclock.tally.lane_tally import LaneTally
from classclock.tally.scores.lane_score import LaneScore
from classclock.tally.scores.scores import scores, unsettled
from classclock.tally.sheet import Sheet
from classclock.units.printable import printable
from classclock.wall.best_words import RunStandings, with_best
from classclock.wall.kept_off import off_the_wall
from classclock.wall.kept_off_content import score_kept_off
from classclock.wall.score_row import ScoreRow

_FORMS = {"intervals": "3:12n gives interval 3", "rounds": "12n gives odd reps"}


class SettlePage(Struct, frozen=True):
    title: str
    words: str
    state: str
    """Provisional or settled, and whether it is saved."""
    rows: tuple[ScoreRow, ...]
    detail: str
    """All that is to be said of the selected lane."""
    hint: str
    """What to do next, in one line."""
    asks: bool
    """Whether somebody is still to be asked."""


def settle_page(
    live: LiveClass,
    selected: str | None,
    saved: tuple[str, ...] = (),
    *,
    mirrored: bool = True,
    standings: RunStandings | None = None,
) -> SettlePage:
    """The piece on the board. `selected` is a lane's id, `saved` where its results are.

    What the room may not read is left out where the TV is a mirror. `standings` says how the
    scores stand beside earlier ones.
    """
    record = live.record
    segment, sheet = record.segment, record.sheet
    title = printable(segment.name)
    if sheet is None or not is_piece(segment):
        words = printable(describe(segment), 120)
        return SettlePage(title, words, "over", (), "", "enter goes on", asks=False)
    words = printable(described(record, record.chosen.segment, sheet), 120)
    heats = record.heats(record.chosen)
    if len(heats) > 1 or sheet.heat > 1:
        title = f"{title}, heat {sheet.heat}"
    to_ask = dict(unsettled(sheet))
    here = [
        score
        for score in scores(heats, now=None, settled=sheet.settled)
        if score.heat == sheet.heat
    ]
    # Whoever keeps their rank to themselves stands last: it could be read from their place.
    here.sort(
        key=lambda score: (
            score.lane.id not in to_ask,
            off_the_wall(score.lane, record.people),
        )
    )
    key = record.chosen._replace(heat=1)
    by_load = sheet.piece.counts_by == "load"
    rows = []
    for score in here:
        asked = to_ask.get(score.lane.id, "")
        row = _row(
            score,
            sheet.tallies[score.lane.id],
            asked,
            selected=score.lane.id == selected,
            mirrored=mirrored,
        )
        if not asked:
            row = with_best(row, (standings or {}).get((key, score.lane.id)))
        if off_the_wall(score.lane, record.people):
            row = score_kept_off(row, by_load=by_load)
        rows.append(row)
    return SettlePage(
        title,
        words,
        _state(sheet, saved),
        tuple(rows),
        next((_detail(row) for row in rows if row.selected), ""),
        _hint(sheet, tuple(rows), len(to_ask)),
        asks=bool(to_ask),
    )


def _row(
    score: LaneScore, tally: LaneTally, asked: str, *, selected: bool, mirrored: bool
) -> ScoreRow:
    absent = score.status == "absent"
    lacks = asked and asked != "; ".join(tally.doubts)
    return ScoreRow(
        name=printable(score.athlete, 40),
        score="-" if absent else score.score,
        key=score.key,
        rank="" if score.rank is None else str(score.rank),
        asked=f"{asked}?" if lacks else "",
        notes=() if absent else _notes(score, tally, mirrored=mirrored),
        selected=selected,
    )


def _notes(score: LaneScore, tally: LaneTally, *, mirrored: bool) -> tuple[str, ...]:
    doubts = tally.doubts
    if mirrored and any(tried.doubtful for tried in tally.attempts):
        # That a load is far above earlier ones tells the room what somebody's maximum is.
        doubts = (*replace(tally, attempts=()).doubts, "a load: look again")
    notes = [f"? {doubt}" for doubt in doubts]
    if score.status == "stopped":
        notes.append("stopped early")
    if tally.corrected is not None:
        notes.append("corrected" if mirrored else f"corrected: {printable(tally.corrected)}")
    if score.modification:
        notes.append(printable(score.modification))
    return tuple(notes)


def _detail(row: ScoreRow) -> str:
    words = [text for text in (row.asked, row.best, *row.notes) if text]
    return f"{row.name}, {row.score}: {'; '.join(words) or 'complete'}"


def _state(sheet: Sheet, saved: tuple[str, ...]) -> str:
    standing = "settled" if sheet.settled else "provisional"
    return f"{standing}, saved as {Path(saved[0]).name}" if saved else f"{standing}, not saved yet"


def _hint(sheet: Sheet, rows: tuple[ScoreRow, ...], to_ask: int) -> str:
    if sheet.settled:
        return "enter goes on; F9 corrects the selected score"
    if not to_ask:
        return "enter: settle and go on"
    lacking = [row.name for row in rows[:to_ask] if row.asked]
    if not lacking:
        doubted = [row.name for row in rows[:to_ask]]
        return f"look at {_names(doubted)}; enter twice settles it as it stands"
    return f"{_FORMS.get(sheet.piece.counts_by, '12n')}, n being the key: ask {_names(lacking)}"


def _names(names: list[str]) -> str:
    return ", ".join(names[:4]) + (f" and {len(names) - 4} more" if len(names) > 4 else "")
