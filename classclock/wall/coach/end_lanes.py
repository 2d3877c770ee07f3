"""Everybody at the end of a class: their scores in every piece, and how hard the hour was."""

from collections.abc import Iterator

from classclock.tally.record import ClassRecord
from classclock.tally.scores.scores import scores
from classclock.units.printable import printable
from classclock.wall.best_words import RunStandings, best_hue, best_words
from classclock.wall.coach.about_people import AboutPeople
from classclock.wall.coach.coach_values import CoachLane, LaneWords, WordTone
from classclock.wall.lane_content import ordinal


def end_lanes(
    record: ClassRecord, standings: RunStandings, people: AboutPeople
) -> Iterator[CoachLane]:
    """A row for whoever came, in the order in which they did."""
    done = _done(record, standings)
    for person in record.people:
        gone = person.id in record.left
        effort = record.efforts.get(person.id)
        about = [LaneWords("has left", "quiet")] if gone else []
        about += [LaneWords(f"effort {effort}")] if effort is not None else []
        about += done.get(person.id, [])
        yield CoachLane(
            key=person.key.upper(),
            name=printable(person.name, 40),
            about=(*about, *people.remarks((person.id,))),
            out=gone,
        )


def _done(record: ClassRecord, standings: RunStandings) -> dict[str, list[LaneWords]]:
    """By person, the latest piece first."""
    found: dict[str, list[LaneWords]] = {}
    for key in reversed(record.pieces()):
        heats = record.heats(key)
        settled = all(sheet.settled for sheet in heats)
        name = printable(heats[0].piece.segment.name, 24)
        for score in scores(heats, now=None, settled=settled):
            if score.status == "absent":
                continue
            rank = f", {ordinal(score.rank)}" if score.rank is not None else ""
            words = f"{name} {score.score}{rank}" + ("" if settled else ", provisional")
            standing = standings.get((key, score.lane.id)) if settled else None
            best = best_words(standing)
            tone: WordTone = "cheer" if best and best_hue(standing) == "ahead" else "plain"
            said = LaneWords(f"{words}, {best}" if best else words, tone)
            for member in score.members:
                found.setdefault(member, []).append(said)
    return found
