"""Who is who after all changes: merges, names, marks, and whom nobody may bring back."""

import hashlib
from collections.abc import Iterable, Sequence

from msgspec import Struct, field

from classclock.book.files.changes import Change, Erasure, Import, MarkSet, Merge, Rename, Undo
from classclock.tally.lanes import Mark


class PeopleRules(Struct, frozen=True):
    """What the changes come to, those of all rooms together."""

    aliases: dict[str, str] = field(default_factory=dict)
    """By the id as recorded, the id that it was merged into."""
    names: dict[str, str] = field(default_factory=dict)
    marks: dict[str, tuple[Mark, ...]] = field(default_factory=dict)
    erasures: tuple[Erasure, ...] = ()

    def athlete(self, recorded: str) -> str:
        """The id that somebody goes by now."""
        return self.aliases.get(recorded, recorded)

    def recorded(self, athlete: str) -> tuple[str, ...]:
        """All ids under which an athlete was recorded."""
        merged = (gone for gone, kept in self.aliases.items() if kept == athlete)
        return (athlete, *sorted(merged))

    def forgotten_before(self, recorded: str) -> int:
        """What was recorded under this id before that moment is to be forgotten; 0: nothing."""
        meant = (
            erasure.before
            for erasure in self.erasures
            if digest(erasure.salt, recorded) in erasure.digests
        )
        return max(meant, default=0)

    def erased(self, recorded: str, moment: int) -> bool:
        return moment < self.forgotten_before(recorded)


def digest(salt: str, recorded: str) -> str:
    return hashlib.sha256(f"{salt}:{recorded}".encode()).hexdigest()


def standing_changes(changes: Sequence[Change]) -> tuple[Change, ...]:
    """Those that nobody has taken back; an erasure can't be."""
    taken_back = {line.of for line in changes if isinstance(line, Undo)}
    return tuple(
        line
        for line in changes
        if isinstance(line, Erasure) or (not isinstance(line, Undo) and line.n not in taken_back)
    )


def people_rules(rooms: Iterable[Sequence[Change]]) -> PeopleRules:
    """Fold each room's changes, in the order in which they were made."""
    standing = [line for room in rooms for line in standing_changes(room)]
    standing.sort(key=lambda line: line.at)
    merges: dict[str, str] = {}
    names: dict[str, str] = {}
    marked: dict[str, dict[Mark, bool]] = {}
    for line in standing:
        match line:
            case Merge() if _end(merges, line.kept) != line.gone:
                merges[line.gone] = line.kept
                if line.name:
                    names[line.kept] = line.name
            case Rename():
                names[line.athlete] = line.name
            case MarkSet():
                marked.setdefault(line.athlete, {})[line.mark] = line.on
            case _:
                pass
    aliases = {gone: _end(merges, gone) for gone in merges}
    return PeopleRules(
        aliases,
        names,
        _marks(marked, aliases),
        tuple(line for line in standing if isinstance(line, Erasure)),
    )


def _end(merges: dict[str, str], athlete: str) -> str:
    while athlete in merges:
        athlete = merges[athlete]
    return athlete


def _marks(
    marked: dict[str, dict[Mark, bool]], aliases: dict[str, str]
) -> dict[str, tuple[Mark, ...]]:
    """A mark on either of two merged entries stays: it is a reminder to take care."""
    found: dict[str, set[Mark]] = {}
    for athlete, marks in marked.items():
        on = {mark for mark, is_on in marks.items() if is_on}
        found.setdefault(aliases.get(athlete, athlete), set()).update(on)
    return {athlete: tuple(sorted(marks)) for athlete, marks in found.items() if marks}


def imports(changes: Sequence[Change]) -> tuple[Import, ...]:
    return tuple(line for line in standing_changes(changes) if isinstance(line, Import))
