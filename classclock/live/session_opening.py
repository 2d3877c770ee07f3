"""Opening a class, and rejoining one that was cut off.

The one place where time source, journal and speaker are picked. The screens, the demo and the
tests all begin here.
"""

from collections.abc import Callable, Sequence
from contextlib import ExitStack
from datetime import timedelta
from pathlib import Path

from classclock.book.asking.lift_reading import LiftReading, loads_reader
from classclock.book.asking.people_reading import known_for, people_called
from classclock.book.files.held_file import held_again
from classclock.book.files.journal import Anchor, Journal, read_journal
from classclock.book.files.journal_writer import JournalWriter
from classclock.book.files.results_files import ResultsFiles
from classclock.book.files.spare_room import SpareRoom
from classclock.clock.class_clock import ClassClock
from classclock.clock.source import MS, TimeSource, raw_now, time_source
from classclock.club import folder as club_folder
from classclock.live.live_class import LiveClass
from classclock.live.replaying import lost_words, replayed
from classclock.live.session import Session
from classclock.machine.boot import boot_id
from classclock.machine.file_names import file_safe
from classclock.plan.plan_file import PlanFile
from classclock.plan.settings.club import Club
from classclock.sound.loudspeaker import Loudspeaker, SilentLoudspeaker, Speaker
from classclock.tally import events as ev
from classclock.tally.lanes import Person
from classclock.tally.record import ClassRecord


class ClassMovedError(ValueError):
    """A journal isn't the one that its class goes on in; `str` says which is."""


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
    spare = SpareRoom(folder)
    path = club_folder.journals(folder) / f"{wall:%Y-%m-%d-%H%M}-{file_safe(plan_file.name)}.jsonl"
    journal = _new_journal(path, anchor, source, spare)
    reading = lifts or LiftReading(folder)
    live = LiveClass(
        ClassClock(source, opened),
        ClassRecord(plan_file.plan, club.unit),
        journal,
        read_loads=loads_reader(plan_file.plan, club, reading),
    )
    live.record_event(
        ev.ClassOpened(
            0,
            plan_file.name,
            plan_file.text,
            club.unit,
            people,
            ends,
            stop=club.care.stop,
            ask_effort=club.in_class.ask_effort,
        )
    )
    return Session(
        live=live,
        journal=journal,
        results=ResultsFiles(club_folder.results(folder), started, spare=spare),
        spare=spare,
        club=club,
        speaker=_speaker(club, sound=sound),
    )


def open_for(
    plan_file: PlanFile, names: Sequence[str], *, folder: Path, club: Club, speed: int = 1
) -> Session:
    """Open a class of the people with these names, in the real time of its source, from now on."""
    source = time_source(speed)
    ends = source.wall() + timedelta(milliseconds=club.class_length)
    return open_session(
        plan_file,
        people_called(names, known_for(folder, names)),
        folder=folder,
        club=club,
        source=source,
        ends=ends.isoformat(timespec="seconds"),
        speed=speed,
    )


def rejoin_session(
    path: Path, *, folder: Path, club: Club, source: TimeSource | None = None, sound: bool = True
) -> tuple[Session, Journal]:
    """Go on with a class that was cut off: the same sheet, the right clock.

    Raises:
        OSError: the journal can't be read.
        JournalUnreadableError: a line of it can't be read, or a later version wrote it.
        JournalInUseError: it runs in another window.
        ClassMovedError: it went on in another file.
    """
    with ExitStack() as undone:
        held = held_again(path)  # before it is read: nobody else adds to it any more
        if held is not None:
            undone.callback(held.close)
        journal = read_journal(path)
        if journal.moved is not None:
            raise ClassMovedError(
                f"this class went on in another place: classclock resume {journal.moved.to}"
            )
        record = replayed(journal)
        speed = journal.anchors[-1].rate
        source = source if source is not None else time_source(speed)
        # Read together, as when the class was opened.
        raw, now, wall = raw_now(), source.now(), source.wall()
        at, check = journal.moment(boot=boot_id(), raw=raw, wall=wall)
        anchor = Anchor(boot_id(), raw, at, wall.isoformat(timespec="milliseconds"), speed, check)
        spare = SpareRoom(folder)
        writer = JournalWriter(path, wall=_stamp(source), spare=spare)
        writer.go_on(held, journal, anchor)
        undone.callback(writer.close)
        live = LiveClass(
            ClassClock(source, now - at * MS),
            record,
            writer,
            read_loads=loads_reader(
                record.plan, club, LiftReading(folder, journal.anchors[0].wall)
            ),
        )
        results = club_folder.results(folder)
        session = Session(
            live=live,
            journal=writer,
            results=ResultsFiles(results, journal.anchors[0].wall, spare=spare),
            spare=spare,
            club=club,
            speaker=_speaker(club, sound=sound),
            check_clock=check,
        )
        undone.pop_all()
    return session, journal


def rejoined_words(journal: Journal, record: ClassRecord) -> str:
    """What is said of a class that goes on with this journal."""
    if lost := lost_words(journal, record):
        return f"rejoined; {lost}"
    if journal.torn:
        return "rejoined; the last line was torn and is left out, all before it is here"
    return "rejoined"


def _new_journal(path: Path, anchor: Anchor, source: TimeSource, spare: SpareRoom) -> JournalWriter:
    """A journal that is begun: of this name, or with a number behind it where there is one."""
    stem, count = path.stem, 1
    while True:
        journal = JournalWriter(path, wall=_stamp(source), spare=spare)
        try:
            journal.open_new(anchor)
        except FileExistsError:
            count += 1
            path = path.with_stem(f"{stem}-{count}")
        else:
            return journal


def _stamp(source: TimeSource) -> Callable[[], str]:
    return lambda: source.wall().isoformat(timespec="milliseconds")


def _speaker(club: Club, *, sound: bool) -> Speaker:
    if not sound:
        return SilentLoudspeaker()
    return Loudspeaker(volume=club.sound.volume, offset_ms=club.sound.offset_ms)
