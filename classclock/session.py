"""What a running class holds together: the live class, its keys, its sound and its files.

The one place where time source, journal and speaker are picked. The screens, the demo and the
tests all begin here.
"""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from classclock import club_folder
from classclock.book.file_names import file_safe
from classclock.book.journal import Anchor, Journal, read_journal
from classclock.book.journal_writer import JournalWriter
from classclock.book.known_people import KnownPerson
from classclock.book.results_files import ResultsFiles
from classclock.clock.class_clock import ClassClock
from classclock.clock.engine import EngineView
from classclock.clock.source import MS, TimeSource, boot_id, raw_now, time_source
from classclock.desk import Answer, Desk
from classclock.lift_reading import LiftReading, loads_reader
from classclock.live import LiveClass
from classclock.people_reading import in_files, remembered
from classclock.plan.club import Club
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading import parse_plan
from classclock.sound.loudspeaker import Loudspeaker, SilentLoudspeaker, Speaker
from classclock.strength.loads import Unit
from classclock.tally import events as ev
from classclock.tally.keys import Stroke
from classclock.tally.lanes import Person
from classclock.tally.record import ClassRecord
from classclock.tally.sheet import ALL_IN_STAYS
from classclock.tally.strokes import translate

if TYPE_CHECKING:
    from classclock.book.cap_fit import Basis
    from classclock.equipment_offer import EquipmentOffers, Offer


class Session:
    """One class in one window."""

    def __init__(
        self,
        *,
        live: LiveClass,
        journal: JournalWriter,
        results: ResultsFiles,
        club: Club,
        speaker: Speaker,
        check_clock: bool = False,
    ) -> None:
        self.live = live
        self.desk = Desk(live)
        self.journal = journal
        self.results = results
        self.club = club
        self.speaker = speaker
        self.check_clock = check_clock
        """After the machine was started anew: the reading is to be checked by the coach."""
        self.known: tuple[KnownPerson, ...] = ()
        """Everybody the club knows, once `remember` has read it."""
        self.basis: Basis | None = None
        """What the cap fit rests on, once `remember` has read it."""
        self.left_out = ""
        """What is wrong with the club's movements, in words; said on the board."""
        self._offers: EquipmentOffers | None = None
        self._folder = results.folder.parent

    @property
    def source(self) -> TimeSource:
        return self.live.clock.source

    def view(self) -> EngineView | None:
        """The segment on the board as the engine needs it; None until it is started."""
        sheet = self.live.record.sheet
        if sheet is None or self.live.record.closed:
            return None
        ends = sheet.ended(self.live.clock.now())
        if ends is None and sheet.everybody_in is not None:
            ends = sheet.clock.elapsed(sheet.everybody_in) + ALL_IN_STAYS
        return EngineView(sheet.clock, sheet.timeline, ends)

    def key(self, sign: str, stamp: float) -> Answer:
        """One key, as the terminal gave it, with its message's stamp (CLOCK_MONOTONIC, s)."""
        at, real = self.live.clock.arrived(stamp), self.source.stroke_ms(stamp)
        return self.desk.stroke(Stroke(translate(sign, self.club.keyboard.map), real, at))

    def save(self) -> bool:
        """Write the results as they stand; whether that worked. `troubles` says what didn't."""
        if not self.live.record.pieces():
            return True
        return self.results.write(self.live.record, self.journal.path)

    def remember(self) -> str:
        """Find out who the club knows and their own bests; what is wrong, in words.

        In a thread, as `read_bests`. The book is asked only if something in the plan comes back,
        or has a cap that may fit or not.
        """
        from classclock.book.cap_fit import can_be_told  # noqa: PLC0415  after the first paint

        segments = self.live.record.plan.segment
        if not any(one.benchmark or one.lift or can_be_told(one) for one in segments):
            self.known = in_files(self._folder)
            return ""
        self.known = remembered(self._folder)
        trouble = self.read_bests()
        self.read_basis()
        return trouble

    def read_basis(self) -> None:
        """Ask the book for what the cap fit rests on; in a thread, as `read_bests`."""
        from classclock.book.fit_reading import Asked, basis_for  # noqa: PLC0415  as there

        record = self.live.record
        people = [person.id for person in record.people]
        began = int(datetime.fromisoformat(self.results.started).timestamp() * 1000)
        self.basis = basis_for(self._folder, Asked(people, record.plan, began))

    def read_bests(self) -> str:
        """Ask the book for the people's own bests; what is wrong if it can't be asked, in words.

        May be called from any thread, and takes its time: sqlalchemy is loaded, so not before
        the wall has been painted. Until then, and without a book, nobody has a best.
        """
        from classclock.book.reading_bests import bests_for  # noqa: PLC0415  see above

        record = self.live.record
        bests, trouble = bests_for(self._folder, record, self.results.started)
        self.results.own_bests = bests
        return trouble

    def learn_equipment(self) -> None:
        """Read what the movements need, where the club has counted what it has. Takes a moment."""
        if self.club.inventory and self._offers is None:
            from classclock.equipment_offer import EquipmentOffers  # noqa: PLC0415  few count

            self._offers = EquipmentOffers(self.club, self._folder)

    def offer(self) -> "Offer | None":
        """What is short in the segment on the board, and the ways to share it.

        None: nothing, it has begun already, or `learn_equipment` has yet to come.
        """
        record = self.live.record
        index = record.chosen.segment
        if self._offers is None or record.closed or record.heats(record.chosen):
            return None
        choices = {person.id: record.choice(person.id, index) for person in record.people}
        return self._offers.of(record.plan, index, record.people, choices)

    def try_again(self) -> None:
        """Write what couldn't be written before, journal and results."""
        self.journal.try_again()
        if self.results.unsaved:
            self.save()

    def troubles(self) -> tuple[str, ...]:
        """What the coach must know about the files, in words; empty when all is well."""
        return tuple(said for said in (self.journal.trouble, self.results.trouble) if said)

    def save_elsewhere(self, folder: Path) -> None:
        """Keep this class's journal and results in another folder from now on.

        Raises:
            OSError: that place can't be written to either.
        """
        self.journal.move_to(club_folder.journals(folder) / self.journal.path.name)
        self.results.folder = club_folder.results(folder)
        self.save()

    def close(self) -> None:
        self.speaker.close()
        self.journal.close()


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
    live.record_event(ev.ClassOpened(0, plan_file.name, plan_file.text, club.unit, people, ends))
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
        JournalDamagedError: a line within it can't be read.
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


def replayed(journal: Journal) -> ClassRecord:
    """The record that a journal's events fold to.

    Raises:
        ValueError: the plan in it can't be read by this version, or an event makes no sense.
    """
    opened = journal.opened
    unit: Unit = "lb" if opened.unit == "lb" else "kg"
    plan, findings = parse_plan(opened.plan_text, str(journal.path), unit)
    if plan is None:
        raise ValueError(f"{journal.path}: its plan can't be read: {findings[0]}")
    record = ClassRecord(plan, unit)
    for number, event in enumerate(journal.events):
        try:
            record = record.apply(number, event)
        except (LookupError, ArithmeticError, TypeError, ValueError) as error:
            why = f"event {number}, {type(event).__name__}, doesn't fit what came before it"
            raise ValueError(f"{journal.path}: {why}") from error
    return record


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
