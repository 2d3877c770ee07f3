"""What a club's athletes have lifted: its results files, with what its changes say of them.

Everybody under the id and the name that they go by now; loads from imported older records too.
Whoever was erased isn't there.
"""

import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path

from classclock.book.asking.lift_records import ClassLifts, Lifted, read_lifts
from classclock.book.files.changes import Import, ImportedScore, changes_if_any
from classclock.book.files.saved_results import ResultsError
from classclock.book.people_rules import PeopleRules, imports, people_rules
from classclock.club.folder import results
from classclock.records.result import day_moment
from classclock.units.loads import parse_load

_REPS = re.compile(r"(\d{1,3}) reps?")


def club_lifts(folder: Path) -> tuple[tuple[ClassLifts, ...], tuple[ResultsError, ...]]:
    """The lifts of every class and import, and why some results files can't be read."""
    changes = changes_if_any(folder)
    rules = people_rules([changes])
    classes, unread = read_lifts(results(folder))
    old = (_imported(one, rules) for one in imports(changes))
    return (*old, *(_as_now(one, rules) for one in classes)), unread


def _as_now(one: ClassLifts, rules: PeopleRules) -> ClassLifts:
    people = {
        rules.athlete(recorded): rules.names.get(rules.athlete(recorded), name)
        for recorded, name in one.people.items()
    }
    lifted = (
        Lifted(rules.athlete(made.person_id), made.lift, made.load, made.reps, made.on)
        for made in one.lifted
    )
    return ClassLifts(people, tuple(lifted))


def _imported(one: Import, rules: PeopleRules) -> ClassLifts:
    kept = [score for score in one.scores if not rules.erased(score.athlete, day_moment(score.day))]
    people = {
        rules.athlete(score.athlete): rules.names.get(rules.athlete(score.athlete), score.name)
        for score in kept
    }
    return ClassLifts(people, tuple(_lifted(kept, rules)))


def _lifted(scores: list[ImportedScore], rules: PeopleRules) -> Iterator[Lifted]:
    for score in scores:
        if score.kind == "load" and not score.modification:
            # Where nobody said for how many reps, it was made for one at least.
            reps = _REPS.fullmatch(score.work)
            yield Lifted(
                rules.athlete(score.athlete),
                score.benchmark,
                parse_load(score.score, "kg"),
                int(reps[1]) if reps else 1,
                date.fromisoformat(score.day),
            )
