"""What a running class holds together: the live class, its keys, its sound and its files."""

from datetime import datetime
from functools import cached_property
from pathlib import Path
from secrets import randbelow
from typing import TYPE_CHECKING

from classclock.book.asking.people_reading import (
    in_files,
    known_for,
    remember_marks,
    remember_same,
    remembered,
)
from classclock.book.files.journal_writer import JournalWriter
from classclock.book.files.results_files import ResultsFiles
from classclock.book.files.spare_room import SpareRoom
from classclock.clock.source import TimeSource
from classclock.club import folder as club_folder
from classclock.live.live_class import LiveClass
from classclock.live.on_disk import OnDisk
from classclock.plan.settings.club import Club, Emergency
from classclock.sound.loudspeaker import Speaker
from classclock.tally.lanes import Mark

if TYPE_CHECKING:
    from classclock.book.asking.known_people import KnownPerson
    from classclock.live.desk import Answer, Desk
    from classclock.planning.cap_fit import Basis
    from classclock.planning.equipment_offers import EquipmentOffers, Offer
    from classclock.records.own_bests import OwnBests


_SEEDS = 1_000_000
"""What a lot is drawn with: short enough to be written down."""


class Session:
    """One class in one window."""

    def __init__(
        self,
        *,
        live: LiveClass,
        journal: JournalWriter,
        results: ResultsFiles,
        spare: SpareRoom,
        club: Club,
        speaker: Speaker,
        check_clock: bool = False,
    ) -> None:
        self.live = live
        self.journal = journal
        self.results = results
        self.spare = spare
        self.on_disk = OnDisk(live, journal, results)
        """What may be called saved, kept or to be rejoined."""
        self.club = club
        self.speaker = speaker
        self.check_clock = check_clock
        """After the machine was started anew: the reading is to be checked by the coach."""
        self.known: tuple[KnownPerson, ...] = ()
        """Whom the club knows, once `remember` has read it."""
        self.all_known = False
        """Whether that is everybody: `learn_names` or `remember` has asked the book."""
        self.basis: Basis | None = None
        """What the cap fit rests on, once `remember` has read it."""
        self.readings = 0
        """How often `remember` has asked the book."""
        self.left_out = ""
        """What is wrong with the club's movements, in words; said on the board."""
        self.sample = False
        """Whether it is for show: its folder goes with it."""
        self._offers: EquipmentOffers | None = None
        self._same: list[tuple[str, KnownPerson]] = []
        """Ids of this class, and whose they are: to be written down."""
        self._to_mark: dict[tuple[str, Mark], bool] = {}
        self._folder = results.folder.parent

    @property
    def settings(self) -> Path:
        """The file of the club's settings."""
        return club_folder.settings(self._folder)

    def fill_in(self, card: Emergency) -> None:
        """From now on the emergency card says this."""
        self.club = self.club.model_copy(update={"emergency": card})

    @property
    def source(self) -> TimeSource:
        return self.live.clock.source

    @property
    def own_bests(self) -> "OwnBests":
        return self.results.own_bests

    @property
    def started(self) -> str:
        """When the class was opened, RFC 3339."""
        return self.results.started

    @cached_property
    def desk(self) -> "Desk":
        """Where keys are typed. What they mean isn't loaded before the first paint."""
        from classclock.live.desk import Desk  # noqa: PLC0415

        return Desk(self.live, self.club.keyboard.map)

    def key(self, sign: str, stamp: float) -> "Answer":
        """One key, as the terminal gave it, with its message's stamp (CLOCK_MONOTONIC, s)."""
        at, real = self.live.clock.arrived(stamp), self.source.stroke_ms(stamp)
        return self.desk.sign(sign, real, at)

    def save(self) -> bool:
        """Write the results as they stand; whether that worked. `on_disk` says what didn't."""
        if not self.live.record.pieces():
            return True
        return self.results.write(self.live.record, self.journal.path)

    def same_person(self, person_id: str, known: "KnownPerson") -> None:
        """Somebody here is one whom the club knows: written down when it is next asked."""
        self._same.append((person_id, known))

    def remember(self) -> str:
        """Find out who the club knows and their own bests; what is wrong, in words.

        In a thread, as `read_bests`. The book is asked only if something in the plan comes back,
        or has a cap that may fit or not.
        """
        from classclock.planning.cap_fit import results_tell  # noqa: PLC0415  after the first paint

        while self._same:
            remember_same(self._folder, *self._same.pop(0))
        segments = self.live.record.plan.segment
        if not any(one.benchmark or one.lift or results_tell(one) for one in segments):
            if not self.all_known:
                self.known = in_files(self._folder)
            return ""
        self.learn_names()
        trouble = self.read_bests()
        self.read_basis()
        self.readings += 1
        return trouble

    def learn_names(self) -> None:
        """Ask the book for everybody whom the club knows; in a thread, as `read_bests`."""
        self.known = remembered(self._folder)
        self.all_known = True

    def remember_mark(self, person_id: str, mark: Mark, *, on: bool) -> None:
        """This is to be kept for later classes too: `write_marks` does."""
        self._to_mark[person_id, mark] = on

    def write_marks(self) -> bool:
        """Keep the marks that were set here; whether that worked. Takes a moment: in a thread.

        A visitor's wait until the visitor has a name: before that nobody keeps anything of them.
        """
        nameless = {person.id for person in self.live.record.people if person.visitor}
        all_of_them, self._to_mark = self._to_mark, {}
        marked = {of: on for of, on in all_of_them.items() if of[0] not in nameless}
        self._to_mark |= {of: on for of, on in all_of_them.items() if of not in marked}
        return not marked or remember_marks(self._folder, marked)

    def known_for(self, name: str) -> "tuple[KnownPerson, ...]":
        """Everybody whom the club may mean by this name, read now if that hasn't been done."""
        return self.known or known_for(self._folder, [name])

    def read_basis(self) -> None:
        """Ask the book for what the cap fit rests on; in a thread, as `read_bests`."""
        from classclock.book.asking.fit_reading import FitQuestion, basis_for  # noqa: PLC0415  as there

        record = self.live.record
        people = [person.id for person in record.people]
        began = int(datetime.fromisoformat(self.results.started).timestamp() * 1000)
        self.basis = basis_for(self._folder, FitQuestion(people, record.plan, began))

    def read_bests(self) -> str:
        """Ask the book for the people's own bests; what is wrong if it can't be asked, in words.

        May be called from any thread, and takes its time: sqlalchemy is loaded, so not before
        the wall has been painted. Until then, and without a book, nobody has a best.
        """
        from classclock.book.asking.reading_bests import bests_for  # noqa: PLC0415  see above

        record = self.live.record
        bests, trouble = bests_for(self._folder, record, self.results.started)
        self.results.own_bests = bests
        return trouble

    def learn_equipment(self) -> None:
        """Read what the movements need, where the club has counted what it has. Takes a moment."""
        if self.club.inventory and self._offers is None:
            from classclock.live.counted_equipment import offers_of  # noqa: PLC0415  few count

            self._offers = offers_of(self.club, self._folder)

    def offer(self) -> "Offer | None":
        """What is short in the segment on the board, and the ways to share it.

        None: nothing, it has begun already, or `learn_equipment` has yet to come.
        """
        return None if self._offers is None else self._offers.on_the_board(self.live.record)

    def ways_to_share(self) -> "Offer | None":
        """Every way to share in the segment on the board: equipment that is short, bars, tallies.

        None: there is none, or it has begun. Takes a moment where there are many.
        """
        from classclock.planning.cap_fit import Basis  # noqa: PLC0415  only where people share
        from classclock.planning.share_ways import Known, ways_on_the_board  # noqa: PLC0415  the same

        basis, seed = self.basis or Basis(), randbelow(_SEEDS)
        known = Known(self.club.equipment, self.live.loads, basis, seed)
        return ways_on_the_board(self.live.record, known, self.offer())

    def try_again(self) -> None:
        """Write what couldn't be written before, journal and results."""
        self.journal.try_again()
        if self.results.unsaved:
            self.save()

    def save_elsewhere(self, folder: Path) -> None:
        """Keep this class's journal and results in another folder from now on.

        Raises:
            OSError: that place can't be written to either. The class goes on where it was.
        """
        path = club_folder.journals(folder) / self.journal.path.name
        if path != self.journal.path:
            self.journal.move_to(path)
        self.results.folder = club_folder.results(folder)
        self.spare.move_to(folder)
        self.save()

    def close(self) -> None:
        self.speaker.close()
        self.journal.close()
