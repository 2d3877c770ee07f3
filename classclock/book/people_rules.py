"""Who is who after all changes: merges, names, marks, and whom nobody may bring back."""

import hashlib
from collections.abc import Iterable, Sequence

from msgspec import UNSET, Struct, field

from classclock.book.files.changes import (
    Carried,
    Change,
    Changes,
    Erasure,
    MarkSet,
    Merge,
    Rename,
    Undo,
)
from classclock.book.files.import_lines import Import
from classclock.book.people_ids import entry_said, is_of, said_in
from classclock.tally.lanes import Mark


class PeopleRules(Struct, frozen=True):
    """What the changes come to, those of all rooms together. People are entries, `ROOM/ID`."""

    aliases: dict[str, str] = field(default_factory=dict)
    """By the entry as recorded, the one that it was merged into."""
    names: dict[str, str] = field(default_factory=dict)
    marks: dict[str, tuple[Mark, ...]] = field(default_factory=dict)
    erasures: tuple[Erasure, ...] = ()

    def athlete(self, recorded: str) -> str:
        """The entry that somebody goes by now."""
        return self.aliases.get(recorded, recorded)

    def known_in(self, room: str, athlete: str) -> str:
        """What a room's classes call an athlete: an id of the room's own, wherever there is one.

        Somebody who is known in two rooms, and merged, is recorded in each under its own.
        """
        if is_of(room, athlete):
            return said_in(room, athlete)
        merged = (gone for gone, kept in self.aliases.items() if kept == athlete)
        return said_in(room, min((one for one in merged if is_of(room, one)), default=athlete))

    def forgotten_before(self, recorded: str) -> int:
        """What was recorded of this entry before that moment is to be forgotten; 0: nothing."""
        # Erasures of before meant the id, in whatever room: it was one athlete then.
        ident = recorded.partition("/")[2]
        meant = (
            erasure.before
            for erasure in self.erasures
            if {digest(erasure.salt, recorded), digest(erasure.salt, ident)} & {*erasure.digests}
        )
        return max(meant, default=0)

    def erased(self, recorded: str, moment: int) -> bool:
        return moment < self.forgotten_before(recorded)


def digest(salt: str, recorded: str) -> str:
    return hashlib.sha256(f"{salt}:{recorded}".encode()).hexdigest()


def for_good(line: Change) -> bool:
    """Whether it can't be taken back: what an erasure forgot is gone."""
    return isinstance(line, Erasure | Carried)


def standing_changes(changes: Sequence[Change]) -> tuple[Change, ...]:
    """Those that nobody has taken back."""
    taken_back = {line.of for line in changes if isinstance(line, Undo)}
    return tuple(
        line
        for line in changes
        if for_good(line) or (not isinstance(line, Undo) and line.n not in taken_back)
    )


def people_rules(rooms: Iterable[Changes]) -> PeopleRules:
    """Fold each room's changes, in the order in which they were made."""
    standing = [(room.room, line) for room in rooms for line in standing_changes(room.lines)]
    standing.sort(key=lambda said: said[1].at)
    merges: dict[str, str] = {}
    names: dict[str, str] = {}
    marked: dict[str, dict[Mark, bool]] = {}
    for room, line in standing:
        match line:
            case Merge():
                gone, kept = entry_said(room, line.gone), entry_said(room, line.kept)
                if _end(merges, kept) != gone:
                    merges[gone] = kept
                    if line.name:
                        names[kept] = line.name
            case Rename():
                names[entry_said(room, line.athlete)] = line.name
            case MarkSet():
                marked.setdefault(entry_said(room, line.athlete), {})[line.mark] = line.on
            case Import():
                for one in () if line.marks is UNSET else line.marks:
                    marked.setdefault(entry_said(room, one.athlete), {})[one.mark] = True
            case _:
                pass
    aliases = {gone: _end(merges, gone) for gone in merges}
    return PeopleRules(
        aliases,
        names,
        _marks(marked, aliases),
        tuple(line for _, line in standing if isinstance(line, Erasure)),
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


def people_named(lines: Iterable[Change]) -> set[str]:
    """The ids of all people that these changes are about."""
    ids: set[str] = set()
    for line in lines:
        if isinstance(line, Import):
            ids |= {record.athlete for record in line.records}
        elif isinstance(line, Merge):
            ids |= {line.gone, line.kept}
        elif athlete := getattr(line, "athlete", None):
            ids.add(athlete)
    return ids
