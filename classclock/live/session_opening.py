"""Opening a class, and rejoining one that was cut off.

The one place where time source, journal and speaker are picked. The screens, the demo and the
tests all begin here.
"""

from collections.abc import Callable
from pathlib import Path

from classclock.book.asking.lift_reading import LiftReading, loads_reader
from classclock.book.files.journal import Anchor, Journal, read_journal
from classclock.book.files.journal_writer import JournalWriter
from classclock.book.files.results_files import ResultsFiles
from classclock.clock.class_clock import ClassClock
from classclock.clock.source import MS, TimeSource, raw_now, time_source
from classclock.club import folder as club_folder
from classclock.live.live_class import LiveClass
from classclock.live.replaying import replayed
from classclock.live.session import Session
from classclock.machine.boot import boot_id
from classclock.machine.file_names import file_safe
from classclock.plan.plan_file import PlanFile
from classclock.plan.settings.club import Club
from classclock.sound.loudspeaker import Loudspeaker, SilentLoudspeaker, Speaker
from classclock.tally import events as ev
from classclock.tally.lanes import Person
from classclock.tally.record import ClassRecord


def open_session(
    plan_file: PlanFile,
    people: tuple[Person, ...],
    *,
    folder: Path,
    club: Club,
    source: TimeSource,
    ends: str | None = None,
    speed: int = 1,
    sound: bool = True,
    lifts: LiftReading | None = None,
) -> Session:
    """Open a class and begin its journal.

    `lifts` is what reads earlier lifts, where somebody has begun to read them already.
    """
    # Read together: a disk that takes its time with the journal must not set the clock back.
    raw, opened, wall = raw_now(), source.now(), source.wall()
    started = wall.isoformat(timespec="milliseconds")
    anchor = Anchor(boot_id(), raw, 0, started, speed)
    journal = _new_journal(
        club_folder.journals(folder), f"{wall:%Y-%m-%d-%H%M}-{file_safe(plan_file.name)}", source
    )
    journal.open_new(anchor)
    reading = lifts or LiftReading(folder)
    live = LiveClass(
        ClassClock(source, opened),
        ClassRecord(plan_file.plan, club.unit),
        journal,
        read_loads=loads_reader(plan_file.plan, club, reading),
    )
    live.record_event(
        ev.ClassOpened(
            0, plan_file.name, plan_file.text, club.unit, people, ends, stop=club.care.stop
        )
    )
    return Session(
        live=live,
        journal=journal,
        results=ResultsFiles(club_folder.results(folder), started),
        club=club,
        speaker=_speaker(club, sound=sound),
    )


def rejoin_session(
    path: Path, *, folder: Path, club: Club, source: TimeSource | None = None, sound: bool = True
) -> tuple[Session, Journal]:
    """Go on with a class that was cut off: the same sheet, the right clock.

    Raises:
        OSError: the journal can't be read.
        JournalUnreadableError: a line of it can't be read, or a later version wrote it.
        JournalInUseError: it runs in another window.
    """
    journal = read_journal(path)
    speed = journal.anchors[-1].rate
    source = source if source is not None else time_source(speed)
    # Read together, as when the class was opened.
    raw, now, wall = raw_now(), source.now(), source.wall()
    at, check = journal.moment(boot=boot_id(), raw=raw, wall=wall)
    writer = JournalWriter(path, wall=_stamp(source), number=len(journal.events))
    anchor = Anchor(boot_id(), raw, at, wall.isoformat(timespec="milliseconds"), speed, check)
    writer.open_again(journal.whole, anchor)
    record = replayed(journal)
    live = LiveClass(
        ClassClock(source, now - at * MS),
        record,
        writer,
        read_loads=loads_reader(record.plan, club, LiftReading(folder)),
    )
    session = Session(
        live=live,
        journal=writer,
        results=ResultsFiles(club_folder.results(folder), journal.anchors[0].wall),
        club=club,
        speaker=_speaker(club, sound=sound),
        check_clock=check,
    )
    return session, journal


def rejoined_words(journal: Journal) -> str:
    """What is said of a class that goes on with this journal."""
    if journal.torn:
        return "rejoined; the last line was torn and is left out, all before it is here"
    return "rejoined"


def _new_journal(folder: Path, stem: str, source: TimeSource) -> JournalWriter:
    path = folder / f"{stem}.jsonl"
    count = 2
    while path.exists():
        path = folder / f"{stem}-{count}.jsonl"
        count += 1
    return JournalWriter(path, wall=_stamp(source))


def _stamp(source: TimeSource) -> Callable[[], str]:
    return lambda: source.wall().isoformat(timespec="milliseconds")


def _speaker(club: Club, *, sound: bool) -> Speaker:
    if not sound:
        return SilentLoudspeaker()
    return Loudspeaker(volume=club.sound.volume, offset_ms=club.sound.offset_ms)
