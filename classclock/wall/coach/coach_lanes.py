"""Everybody in one view, a lane each: while a piece runs, at its settle."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from classclock.tally.record import ClassRecord, RunKey
from classclock.tally.scores.lane_score import LaneScore
from classclock.tally.scores.scores import scores
from classclock.tally.sheet import Sheet
from classclock.tally.signs import SIGNS, Doubt, Remark, signed
from classclock.units.printable import printable
from classclock.wall.best_words import RunStandings, best_hue, best_words
from classclock.wall.coach.about_people import AboutPeople
from classclock.wall.coach.coach_values import CoachLane, LaneWords
from classclock.wall.coach.to_ask import Asked
from classclock.wall.lane_content import LaneContent, ordinal
from classclock.wall.modification import AS_WRITTEN
from classclock.wall.settle_content import remarks_on

_ONLY_SAID: frozenset[Doubt | Remark] = frozenset(("turn", "option", "corrected", "stopped"))
"""What needs no look before a score is settled."""


def running_lanes(
    sheet: Sheet, contents: Sequence[LaneContent], asked: Iterable[Asked], people: AboutPeople
) -> Iterator[CoachLane]:
    """While it runs, in their places. `contents` are the lanes as they stand, of this sheet."""
    by_lane = _by_lane(asked)
    for lane, content in zip(sheet.lanes, contents, strict=True):
        own = by_lane.get(lane.id, ())
        flags = people.flags(lane.members)
        kinds: list[Doubt | Remark] = [one.kind for one in own]
        kinds += ["load"] if any(flags) else []
        kinds += ["turn"] if content.turn == "now" else []
        modified = content.modification not in ("", AS_WRITTEN)
        kinds += ["option"] if lane.modified or sheet.tallies[lane.id].modified else []
        kinds += ["stopped"] if content.on_for == "stopped" else []
        about = [*_asked(own), *flags]
        if content.turn == "now":
            about.append(LaneWords(signed("turn", SIGNS["turn"].word)))
        about += [LaneWords(words) for words in content.planned[:1]]
        about += [LaneWords(content.modification)] if modified else []
        about += [LaneWords(words) for words in (content.start, content.rung) if words]
        about += people.remarks(lane.members)
        about += _pace(content)
        yield CoachLane(
            key=content.key.upper(),
            name=content.name,
            score=content.tally,
            short_score=content.short_tally,
            rooms=(content.room.tallies[0], content.room.tallies[-1]),
            signs=_signs(kinds),
            about=tuple(about),
            selected=content.selected,
            out=content.out,
        )


def _pace(content: LaneContent) -> Iterator[LaneWords]:
    """How it goes: what is the first to be cut."""
    words = (content.rank, content.split, content.on_for, content.against)
    if said := ", ".join(filter(None, words)):
        yield LaneWords(said, "quiet")


def settle_lanes(
    record: ClassRecord,
    standings: RunStandings,
    asked: Iterable[Asked],
    people: AboutPeople,
    selected: str | None,
) -> Iterator[CoachLane]:
    """Once the piece is over, in the places that they had. `selected` is a lane's id."""
    sheet, run = record.sheet, record.chosen
    if sheet is None:
        return
    heats = record.heats(run)
    by_lane = _by_lane(asked)
    found = {one.lane.id: one for one in scores(heats, now=None, settled=sheet.settled)}
    every = [one.score for one in found.values()]
    rooms = max(every, key=len, default=""), max(map(_bare, every), key=len, default="")
    for lane in sheet.lanes:
        score, own = found[lane.id], by_lane.get(lane.id, ())
        corrected = sheet.tallies[lane.id].corrected
        absent = score.status == "absent"
        remarks = {} if absent else remarks_on(score, corrected, mirrored=False)
        flags = people.flags(lane.members)
        kinds: list[Doubt | Remark] = [*(one.kind for one in own), *remarks]
        kinds += ["load"] if any(flags) else []
        about = [*_asked(own), *_best(score, run, standings)]
        about += [LaneWords(signed(kind, words)) for kind, words in remarks.items()]
        about += [*flags, *people.remarks(lane.members)]
        about += [LaneWords(ordinal(score.rank), "quiet")] if score.rank is not None else []
        yield CoachLane(
            key=lane.key.upper(),
            name=printable(lane.name, 40),
            score="-" if absent else score.score,
            short_score="-" if absent else _bare(score.score),
            rooms=rooms,
            signs=_signs(kinds),
            about=tuple(about),
            selected=lane.id == selected,
            out=absent,
        )


def _bare(score: str) -> str:
    """`112 reps` without its unit."""
    return score.partition(" ")[0]


def _best(score: LaneScore, run: RunKey, standings: RunStandings) -> Iterator[LaneWords]:
    standing = standings.get((run._replace(heat=1), score.lane.id))
    if words := best_words(standing):
        yield LaneWords(words, "cheer" if best_hue(standing) == "ahead" else "plain")


def _by_lane(asked: Iterable[Asked]) -> Mapping[str, tuple[Asked, ...]]:
    found: dict[str, tuple[Asked, ...]] = {}
    for one in asked:
        found[one.lane] = (*found.get(one.lane, ()), one)
    return found


def _asked(own: Iterable[Asked]) -> Iterator[LaneWords]:
    """With what it comes from, where there is anything: that is the reason of the doubt."""
    for one in own:
        yield LaneWords(printable(one.said(one.detail or one.words)), "doubtful")


def _signs(kinds: Iterable[Doubt | Remark]) -> str:
    """Each once, those in doubt first."""
    once = dict.fromkeys(kinds)
    return "".join(SIGNS[kind].sign for kind in sorted(once, key=lambda one: one in _ONLY_SAID))
