"""What the settle shows, worked out from the class: pure values, ready to be painted."""

from collections.abc import Collection
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from classclock.live.standing_class import StandingClass
from classclock.plan.model import is_piece
from classclock.plan.outline import describe
from classclock.tally.fitted_words import described
from classclock.tally.scores.lane_score import LaneScore
from classclock.tally.scores.questions import ScoreQuestion, questions
from classclock.tally.scores.scores import scores
from classclock.tally.sheet import Sheet
from classclock.tally.signs import SIGNS, Remark, signed
from classclock.units.printable import printable
from classclock.wall.best_words import RunStandings, with_best
from classclock.wall.kept_off import off_the_wall
from classclock.wall.kept_off_content import score_kept_off
from classclock.wall.score_row import ScoreRow


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
    question: str
    """Who is asked what first, to be drawn large; empty where nobody is."""
    short_question: str = ""
    """Where there is no room for that in large letters."""
    short_state: str = ""
    """Where there is no room for the file's name."""


def settle_page(
    live: StandingClass,
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
        return SettlePage(title, words, "over", (), "", "enter goes on", "")
    words = printable(described(record, record.chosen.segment, sheet), 120)
    heats = record.heats(record.chosen)
    if len(heats) > 1 or sheet.heat > 1:
        title = f"{title}, heat {sheet.heat}"
    asked = questions(sheet)
    order = list(dict.fromkeys(one.lane for one in asked))
    here = [
        score
        for score in scores(heats, now=None, settled=sheet.settled)
        if score.heat == sheet.heat
    ]
    # Who is asked stands first, in the order of the lanes. Of the others whoever keeps their rank
    # to themselves stands last: it could be read from their place.
    here.sort(
        key=lambda score: (
            order.index(score.lane.id) if score.lane.id in order else len(order),
            off_the_wall(score.lane, record.people),
        )
    )
    key = record.chosen._replace(heat=1)
    by_load = sheet.piece.counts_by == "load"
    hidden = frozenset(
        lane.id for lane in sheet.lanes if by_load and off_the_wall(lane, record.people)
    )
    rows = []
    for score in here:
        own = tuple(one for one in asked if one.lane == score.lane.id)
        row = _row(
            score,
            sheet.tallies[score.lane.id].corrected,
            own,
            selected=score.lane.id == selected,
            mirrored=mirrored,
            hidden=hidden,
        )
        if not own:
            row = with_best(row, (standings or {}).get((key, score.lane.id)))
        if off_the_wall(score.lane, record.people):
            row = score_kept_off(row, by_load=by_load)
        rows.append(row)
    detail = next((_detail(row) for row in rows if row.selected), "")
    return SettlePage(
        title,
        words,
        settle_state(sheet, saved),
        tuple(rows),
        detail or _details(asked, hidden, mirrored=mirrored),
        settle_hint(sheet, asked),
        _aloud(asked[0], hidden) if asked else "",
        _aloud(replace(asked[0], words=asked[0].short or asked[0].words), hidden) if asked else "",
        settle_state(sheet, saved, named=False),
    )


def _row(
    score: LaneScore,
    corrected: str | None,
    asked: tuple[ScoreQuestion, ...],
    *,
    selected: bool,
    mirrored: bool,
    hidden: Collection[str],
) -> ScoreRow:
    absent = score.status == "absent"
    remarks = {} if absent else remarks_on(score, corrected, mirrored=mirrored)
    kinds = dict.fromkeys((*(one.doubt for one in asked), *remarks))
    return ScoreRow(
        name=printable(score.athlete, 40),
        score="-" if absent else score.score,
        key=score.key,
        rank="" if score.rank is None else str(score.rank),
        asked=" ".join(_words(one, hidden) for one in asked),
        notes=tuple(signed(kind, words) for kind, words in remarks.items()),
        signs="".join(SIGNS[kind].sign for kind in kinds),
        selected=selected,
    )


def remarks_on(score: LaneScore, corrected: str | None, *, mirrored: bool) -> dict[Remark, str]:
    """What is said of the score beside what is asked; `corrected` is why it was set right."""
    remarks: dict[Remark, str] = {}
    if score.status == "stopped":
        remarks["stopped"] = SIGNS["stopped"].word
    if corrected is not None:
        word = SIGNS["corrected"].word
        remarks["corrected"] = word if mirrored else f"{word}: {printable(corrected)}"
    if score.modification:
        remarks["option"] = printable(score.modification)
    return remarks


def _words(question: ScoreQuestion, hidden: Collection[str]) -> str:
    """As it is asked, behind its sign; of somebody's load that is kept off the wall no number."""
    about_a_load = question.doubt == "load" and question.lane in hidden
    words = f"{SIGNS['load'].word}: right?" if about_a_load else question.words
    return words if question.doubt == "not given" else signed(question.doubt, words)


def _aloud(question: ScoreQuestion, hidden: Collection[str]) -> str:
    return printable(f"{printable(question.name, 40)}: {_words(question, hidden)}")


def _details(asked: tuple[ScoreQuestion, ...], hidden: Collection[str], *, mirrored: bool) -> str:
    """What the first question comes from, and what is asked next."""
    if not asked:
        return ""
    first, *others = asked
    # That a load is far above earlier ones tells the room what somebody's maximum is.
    says = "" if first.doubt == "load" and mirrored else printable(first.detail)
    then = "; ".join(_aloud(one, hidden) for one in others[:3])
    more = f" and {len(others) - 3} more" if len(others) > 3 else ""
    return ". ".join(part for part in (says, f"then {then}{more}" if others else "") if part)


def _detail(row: ScoreRow) -> str:
    words = [text for text in (row.asked, row.best, *row.notes) if text]
    return f"{row.name}, {row.score}: {'; '.join(words) or 'complete'}"


def settle_state(sheet: Sheet, saved: tuple[str, ...], *, named: bool = True) -> str:
    """Provisional or settled, and whether it is saved."""
    standing = "settled" if sheet.settled else "provisional"
    if not saved:
        return f"{standing}, not saved yet"
    return f"{standing}, saved as {Path(saved[0]).name}" if named else f"{standing}, saved"


def settle_hint(sheet: Sheet, asked: tuple[ScoreQuestion, ...]) -> str:
    """What to type now."""
    if sheet.settled:
        return "enter goes on; F9 corrects the selected score"
    if not asked:
        return "enter: settle and go on"
    first = asked[0]
    number = "82.5" if sheet.piece.counts_by == "load" else "12"
    answers = [f"{number} enter: {number} {first.number}"] if first.number else []
    if first.doubt == "not given":
        answers.append("enter: stays unknown" if first.intervals else "enter: none")
    else:
        answers += ["enter: it stands", "- enter: take it out"]
    if len(asked) > 1:
        answers.append("* enter: all stand")
    return "  ".join(answers)
