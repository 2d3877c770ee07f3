"""What a club's athletes have lifted: its results files, with what its changes say of them.

Everybody under the id and the name that they go by now; loads from imported older records too.
Whoever was erased isn't there.
"""

from collections.abc import Iterator
from datetime import date, datetime
from pathlib import Path

from msgspec import UNSET, Struct

from classclock.book.asking.lift_records import ClassLifts, LoadMade, read_lifts
from classclock.book.files.import_lines import Import, ImportedScore, score_moment
from classclock.book.files.saved_results import ResultsError
from classclock.book.files.whole_changes_file import changes_if_any
from classclock.book.people_ids import entry_said
from classclock.book.people_rules import PeopleRules, imports, people_rules
from classclock.club.folder import results
from classclock.records.written_terms import set_reps
from classclock.units.loads import parse_load


def club_lifts(
    folder: Path, before: datetime | None = None
) -> tuple[tuple[ClassLifts, ...], tuple[ResultsError, ...]]:
    """The lifts of every class and import, and why some results files can't be read.

    `before`: of classes only that were opened before that.
    """
    changes = changes_if_any(folder)
    people = _People(changes.room, people_rules([changes]))
    classes, unread = read_lifts(results(folder), before)
    old = (_imported(one, people) for one in imports(changes.lines))
    return (*old, *(_as_now(one, people) for one in classes)), unread


class _People(Struct, frozen=True):
    """Who the people of this club are now."""

    room: str
    rules: PeopleRules

    def now(self, said: str) -> str:
        """The id that somebody of an id, as a file says it, goes by now."""
        athlete = self.rules.athlete(entry_said(self.room, said))
        return self.rules.known_in(self.room, athlete)

    def name(self, said: str, name: str) -> str:
        return self.rules.names.get(self.rules.athlete(entry_said(self.room, said)), name)

    def erased(self, score: ImportedScore) -> bool:
        return self.rules.erased(entry_said(self.room, score.athlete), score_moment(score))


def _as_now(one: ClassLifts, people: _People) -> ClassLifts:
    lifted = (
        LoadMade(people.now(made.person_id), made.lift, made.load, made.reps, made.on)
        for made in one.lifted
    )
    named = {people.now(said): people.name(said, name) for said, name in one.people.items()}
    return ClassLifts(named, tuple(lifted))


def _imported(one: Import, people: _People) -> ClassLifts:
    kept = [score for score in one.scores if not people.erased(score)]
    named = {people.now(one.athlete): people.name(one.athlete, one.name) for one in kept}
    return ClassLifts(named, tuple(_lifted(kept, people)))


def _lifted(scores: list[ImportedScore], people: _People) -> Iterator[LoadMade]:
    for score in scores:
        alone = score.team is UNSET and not score.modification
        made = score.kind == "load" and score.worth is not None and score.why_not is UNSET
        if made and alone and score.benchmark:
            # Where nobody said for how many reps, it was made for one at least.
            yield LoadMade(
                people.now(score.athlete),
                score.benchmark,
                parse_load(score.score, "kg"),
                set_reps(score.work) or 1,
                date.fromisoformat(score.day),
            )
