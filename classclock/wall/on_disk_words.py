"""What is said of a class and the disk: while it runs, when it is left, and once it is."""

from collections.abc import Iterable
from pathlib import Path

from msgspec import Struct

from classclock.live.loss import Loss, LostScore
from classclock.live.on_disk import Lacking
from classclock.live.session import Session
from classclock.tally.lanes import Person
from classclock.units.printable import printable
from classclock.wall.kept_off import off_the_wall

_NO_ANSWER = "the disk hasn't confirmed it"


class LeaveWords(Struct, frozen=True):
    """What is asked before a class is left."""

    says: str
    lost: tuple[str, ...]
    """Who would lose what; each with a few words."""
    asks: str
    keys: str
    warns: bool = True
    """Whether something isn't on disk."""


class LastWords(Struct, frozen=True):
    """What stands in the terminal once the window is closed."""

    lines: tuple[str, ...]
    all_on_disk: bool


def unsaved_words(lacking: Lacking) -> tuple[str, ...]:
    """What to do, what isn't on disk, where and why; then the same in fewer words."""
    what, brief = _what(lacking)
    elsewhere, where = f"F8 saves elsewhere: {what}", printable(_from_home(lacking.where), 200)
    return (
        f"{elsewhere} in {where} ({lacking.why}); it is tried again",
        f"{elsewhere} in {where} ({lacking.why})",
        f"{elsewhere} in {where}",
        f"{elsewhere} ({lacking.why})",
        elsewhere,
        f"F8: {what}",
        f"F8: {brief}",
    )


def leave_words(session: Session) -> LeaveWords:
    """As things stand now."""
    on_disk, live = session.on_disk, session.live
    lacking, keys = on_disk.lacking, "enter leaves, escape stays; taps still count"
    if session.sample:
        says = "This is the sample class: nothing of it is kept."
        return LeaveWords(says, (), "Leave this class?", keys, warns=False)
    runs = live.phase in ("count-in", "running", "held")
    if lacking is None:
        kept = "The clock runs on" if runs else "All is kept"
        how = "classclock resume rejoins this class"
        return LeaveWords(f"{kept}: {how}.", (), "Leave this class?", keys, warns=False)
    lost = lost_words(on_disk.loss, live.record.people)
    if not lacking.why:
        return LeaveWords("Not yet on disk, one moment:", lost, "Leave this class?", keys)
    keys = "F8 saves elsewhere, escape stays, enter leaves"
    if not lost:
        says = f"Not on disk: the results ({lacking.why}). classclock resume saves them later."
        return LeaveWords(says, (), "Leave all the same?", keys)
    return LeaveWords(f"Lost if you leave ({lacking.why}):", lost, "Leave and lose this?", keys)


def last_words(session: Session) -> LastWords:
    """Of a class whose window is closed, and its files with it."""
    on_disk, record = session.on_disk, session.live.record
    lacking, loss = on_disk.lacking, on_disk.loss
    lines: list[str] = []
    if lacking is not None and loss.entries:
        lines.append(f"lost, it was never on disk ({_where(lacking)}):")
        lines += [f"  {words}" for words in lost_words(loss, record.people)]
    if lacking is not None and lacking.results:
        older = on_disk.older
        what = f"older than the scores: {older[0]}" if older else "no results are on disk"
        lines.append(f"{what} ({lacking.why or _NO_ANSWER})")
    if record.closed:
        lines += [f"saved: {path}" for path in on_disk.saved]
        if on_disk.journal is not None and loss.entries:
            lines.append(f"classclock resume {on_disk.journal} takes it up where the disk stopped")
        elif lacking is not None and lacking.results:
            lines.append(f"classclock resume {on_disk.journal} saves them")
    elif on_disk.journal is None:
        lines.append("left before its end, and it can't be rejoined: nothing of it is on disk")
    else:
        kept = "what is on disk" if loss.entries else "it"
        lines.append(
            f"left before its end: classclock resume {on_disk.journal} goes on with {kept}"
        )
    return LastWords(tuple(lines), lacking is None)


def lost_words(loss: Loss, people: Iterable[Person]) -> tuple[str, ...]:
    """Who would lose what; of those who keep theirs off the wall, only who."""
    here = tuple(people)
    several = len({score.piece for score in loss.scores}) > 1
    lost = [_score(score, here, several=several) for score in loss.scores]
    lost += [f"{printable(piece)} settled (on disk provisional)" for piece in loss.settled]
    lost += ["the note on the emergency"] if loss.notes else []
    if loss.ended and not lost:
        return ("that the class is over",)
    if loss.entries and not lost:
        return (f"{_entries(loss.entries)} of the class",)
    return tuple(lost)


def _score(lost: LostScore, people: tuple[Person, ...], *, several: bool) -> str:
    whose = printable(lost.lane.name, 40)
    piece = f" in {printable(lost.piece)}" if several else ""
    if off_the_wall(lost.lane, people):
        return f"{whose}'s score{piece}"
    kept = f"on disk {lost.kept}" if lost.kept else "nothing on disk"
    return f"{whose} {lost.score}{piece} ({kept})"


def _what(lacking: Lacking) -> tuple[str, str]:
    if lacking.all_of_it:
        return "nothing of this class is on disk", "class isn't on disk"
    if number := lacking.entries:
        isnt = "isn't" if number == 1 else "aren't"
        entries = "1 entry" if number == 1 else f"{number} entries"
        brief = f"{entries} {isnt} on disk"
        return f"{entries} and the results aren't on disk" if lacking.results else brief, brief
    if lacking.results:
        return "the results aren't on disk", "results aren't on disk"
    return "what comes now can't be saved", "class can't be saved"


def _entries(number: int) -> str:
    return "the last entry" if number == 1 else f"the last {number} entries"


def _where(lacking: Lacking) -> str:
    return f"{lacking.where}: {lacking.why or _NO_ANSWER}"


def _from_home(folder: Path) -> str:
    """As people write it."""
    try:
        return str("~" / folder.relative_to(Path.home()))
    except (RuntimeError, ValueError):  # no home, or not in it
        return str(folder)
