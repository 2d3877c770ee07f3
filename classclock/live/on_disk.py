"""What of a class is on disk: whatever is called saved, kept or to be rejoined asks this.

The journal knows how many events are written and synced, the results which version of each run is
in the document on disk. Neither what was tried nor what is in memory counts.
"""

from functools import lru_cache
from pathlib import Path

from msgspec import Struct

from classclock.book.files.journal_writer import JournalWriter
from classclock.book.files.results_files import ResultsFiles
from classclock.live.live_class import LiveClass
from classclock.live.loss import Loss, loss
from classclock.tally.record import ClassRecord
from classclock.units.kept import Same


class Lacking(Struct, frozen=True):
    """What isn't on disk now."""

    entries: int
    """How many events the journal lacks, the last ones; 0 where only the next would be refused."""
    all_of_it: bool
    """Whether those are all."""
    results: bool
    """Whether the results on disk aren't as the scores stand now."""
    where: Path
    """The club's folder that lacks it."""
    why: str
    """Why it does; empty while it is being written."""


class OnDisk:
    def __init__(self, live: LiveClass, journal: JournalWriter, results: ResultsFiles) -> None:
        self._live, self._journal, self._results = live, journal, results
        self._worked_out = lru_cache(maxsize=1)(self._work_out)

    @property
    def lacking(self) -> Lacking | None:
        """What isn't on disk; None where all is."""
        refused = self.refused
        entries = self._journal.number - self._journal.on_disk
        behind = self._results_are_behind
        if refused is not None or entries or behind:
            why = refused.why if refused is not None else ""
            return self._lacking(entries, why, results=behind)
        return None

    @property
    def refused(self) -> Lacking | None:
        """What the disk refused when it was tried; None where it takes all."""
        in_journal = self._journal.fault
        in_results = self._results.fault if self._results_are_behind else ""
        if not in_journal and not in_results:
            return None
        entries = self._journal.number - self._journal.on_disk if in_journal else 0
        return self._lacking(entries, in_journal or in_results, results=bool(in_results))

    def _lacking(self, entries: int, why: str, *, results: bool) -> Lacking:
        only_results = results and not entries
        folder = self._results.folder if only_results else self._journal.path.parent
        return Lacking(entries, entries == self._journal.number, results, folder.parent, why)

    @property
    def slow(self) -> bool:
        """Whether the disk takes long to confirm what it was given."""
        return self._journal.slow

    @property
    def saved(self) -> tuple[Path, ...]:
        """The results files, where they tell every piece that is over as it stands now."""
        return () if self._results_are_behind else self._results.saved

    @property
    def older(self) -> tuple[Path, ...]:
        """The results files that are there, and tell less."""
        return self._results.saved if self._results_are_behind else ()

    @property
    def journal(self) -> Path | None:
        """What the class can be rejoined with, as far as that goes; None if nothing is there."""
        return self._journal.path if self._journal.on_disk else None

    @property
    def loss(self) -> Loss:
        """What leaving would lose for good. Where that is anything it takes a moment to tell."""
        journal = self._journal
        if journal.on_disk == journal.number:
            return Loss()
        record, saved = Same(self._live.record), Same(self._results.record)
        return self._worked_out(record, journal.on_disk, saved)

    def _work_out(
        self, now: Same[ClassRecord], on_disk: int, saved: Same[ClassRecord | None]
    ) -> Loss:
        events, record = self._journal.events, now.it
        kept = ClassRecord(record.plan, record.unit)
        for number, event in enumerate(events[:on_disk]):
            kept = kept.apply(number, event)
        return loss(record, kept, saved.it, events[on_disk:])

    @property
    def _results_are_behind(self) -> bool:
        """Whether they lack something of a piece that is over, or one of their tables."""
        record = self._live.record
        runs = record.pieces()
        if self._live.phase in ("count-in", "running", "held"):
            runs = tuple(run for run in runs if run != record.chosen._replace(heat=1))
        held = all(self._results.holds(record, run) for run in runs)
        if runs and self._results.record is not None:
            held = held and self._results.record.efforts == record.efforts
        return not held or self._results.lacks_tables
