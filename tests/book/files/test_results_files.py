"""Results on a disk that refuses: what is on disk is known, whatever was tried."""

import errno
import json
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from classclock.book.files import results_files
from classclock.book.files.spare_room import SpareRoom
from classclock.clock.source import MS, WoundSource
from classclock.live.session import Session
from classclock.live.session_opening import open_session, rejoin_session
from classclock.machine.whole_file import write_whole
from classclock.plan.settings.club import Club
from classclock.tally import commands as cmd
from classclock.tally.lane_keys import people_named
from tests.yard_night import SANDBOX, yard_night

WRITES = "classclock.book.files.results_writing.write_whole"
FULL = OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def opened(folder: Path) -> tuple[Session, WoundSource]:
    source = WoundSource(0)
    session = open_session(
        yard_night(SANDBOX),
        people_named(("Ilse", "Bram")),
        folder=folder,
        club=Club(),
        source=source,
        sound=False,
    )
    return session, source


@pytest.fixture
def session(tmp_path: Path) -> Session:
    """At the cap: one round of Ilse's."""
    session, source = opened(tmp_path)
    session.live.do(cmd.Start())
    source.jump(20_000 * MS)
    session.key("i", 0.0)
    source.jump(130_000 * MS)
    return session


@pytest.fixture
def refuses(monkeypatch: pytest.MonkeyPatch) -> Callable[[str], None]:
    """From now on files of this ending are refused; empty: none is."""
    refused, real = [""], write_whole

    def write(path: Path, data: bytes) -> None:
        if refused[0] and path.name.endswith(refused[0]):
            raise FULL
        real(path, data)

    monkeypatch.setattr(WRITES, write)

    def refuse(ending: str) -> None:
        refused[0] = ending

    return refuse


def run_of(session: Session) -> Any:
    (run,) = session.live.record.pieces()
    return run


def give_odd_reps(session: Session) -> None:
    for sign in "4i":
        session.key(sign, 0.0)


def test_a_run_is_held_as_it_was_written_and_not_as_it_was_tried(
    session: Session, refuses: Callable[[str], None]
) -> None:
    results, live = session.results, session.live
    assert not results.holds(live.record, run_of(session))
    assert session.save()
    assert results.holds(live.record, run_of(session))
    give_odd_reps(session)
    assert not results.holds(live.record, run_of(session))
    refuses(".json")
    assert not session.save()
    assert results.fault == "the disk is full"
    assert not results.holds(live.record, run_of(session))
    assert json.loads(results.saved[0].read_bytes())["pieces"][0]["lanes"][0]["score"] == "1+?"
    refuses("")
    assert session.save()
    assert (results.fault, results.holds(live.record, run_of(session))) == ("", True)


def test_a_table_that_is_refused_is_lacking_though_the_document_is_there(
    session: Session, refuses: Callable[[str], None]
) -> None:
    refuses(".csv")
    assert not session.save()
    assert session.results.holds(session.live.record, run_of(session))
    assert session.results.lacks_tables
    assert [path.suffix for path in session.results.saved] == [".json"]
    assert session.on_disk.saved == ()
    session.journal.settle(5)
    refused = session.on_disk.refused
    assert refused is not None
    assert (refused.entries, refused.results, refused.why) == (0, True, "the disk is full")
    refuses("")
    session.try_again()
    assert [saved.suffix for saved in session.results.saved] == [".json", ".csv"]
    assert session.on_disk.saved == session.results.saved
    assert session.on_disk.refused is None


def test_files_that_are_taken_away_are_not_on_disk_any_more_and_are_written_again(
    session: Session,
) -> None:
    assert session.save()
    session.results.saved[0].unlink()
    assert session.results.unsaved
    assert session.on_disk.saved == ()
    session.try_again()
    assert [saved.exists() for saved in session.results.saved] == [True, True]
    assert session.on_disk.saved == session.results.saved


def test_a_full_disk_is_given_the_spare_room_and_asked_again(
    session: Session, refuses: Callable[[str], None], monkeypatch: pytest.MonkeyPatch
) -> None:
    session.spare.keep()
    refuses(".json")
    give = SpareRoom.give_up

    def gives(spare: SpareRoom) -> bool:
        refuses("")
        return give(spare)

    monkeypatch.setattr(SpareRoom, "give_up", gives)
    assert session.save()
    assert (session.results.fault, session.spare.given_up) == ("", True)


def test_a_disk_that_does_not_answer_is_a_fault_in_the_end(
    session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[str] = []
    monkeypatch.setattr(WRITES, lambda *_: seen.append(session.results.fault))
    assert session.save()
    monkeypatch.setattr(results_files, "HANGS", -1.0)
    assert session.save()
    assert seen == ["", "", "the disk doesn't answer", "the disk doesn't answer"]
    assert session.results.fault == ""


def test_settled_results_are_not_written_over_by_a_journal_that_ends_before(
    session: Session, tmp_path: Path
) -> None:
    """A disk may have taken them and not the end of the journal."""
    journal = session.journal.path
    session.journal.settle(5)
    before = journal.read_bytes()
    for sign in ("4", "i", "0", "b", "<enter>"):
        session.key(sign, 0.0)
    assert session.save()
    settled = session.results.saved[0].read_bytes()
    session.close()
    journal.write_bytes(before)

    source = WoundSource(0)
    rejoined, _ = rejoin_session(journal, folder=tmp_path, club=Club(), source=source, sound=False)
    source.jump(150_000 * MS)
    assert not rejoined.save()
    assert rejoined.results.fault == (
        "Sandbox is settled in those on disk: settle it here to replace them"
    )
    assert session.results.saved[0].read_bytes() == settled
    for sign in ("5", "i", "0", "b", "<enter>"):
        rejoined.key(sign, 0.0)
    assert rejoined.save()
    assert json.loads(session.results.saved[0].read_bytes())["pieces"][0]["lanes"][0]["score"] == (
        "1+5"
    )
    rejoined.close()
