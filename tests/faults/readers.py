"""Everything that reads a file somebody else may have written, each with a good one to spoil."""

import json
from collections.abc import Callable
from contextlib import suppress
from datetime import date
from pathlib import Path

from msgspec import Struct

from classclock.book.asking.lift_records import read_lifts
from classclock.book.files.changes_file import ChangesDamagedError
from classclock.book.files.event_lines import event_line
from classclock.book.files.journal import Anchor, JournalUnreadableError, read_journal
from classclock.book.files.saved_results import ResultsError, read_results
from classclock.book.files.whole_changes_file import read_changes
from classclock.book.importing.book_known import BookKnown
from classclock.book.importing.spreadsheet import read_spreadsheet
from classclock.club.movements import read_library
from classclock.club.plan_files import read_plan
from classclock.club.settings import read_club
from classclock.live.replaying import replayed
from classclock.machine.bundled import bundled
from classclock.records.class_entries import read_class
from classclock.records.differences import differences
from classclock.records.document import VERSION
from classclock.report.class_report import class_report
from classclock.tally import events as ev
from classclock.tally.keys.key_language import press
from classclock.tally.keys.key_state import KeyContext, KeyState
from classclock.tally.keys.strokes import Stroke
from classclock.tally.keys.taps_file import read_taps
from classclock.tally.lane_keys import people_named
from tests.blank_results import LANE, PIECE

WALL = "2026-11-24T18:30:00.000+01:00"
PLAN = (bundled("plans") / "turntable.toml").read_bytes()


class Reader(Struct, frozen=True):
    """`read` raises nothing for what is in the file."""

    file: str
    good: bytes
    read: Callable[[Path], object]


def _journal(path: Path) -> None:
    with suppress(JournalUnreadableError, ValueError):  # both are said to the coach in one line
        replayed(read_journal(path))


def _changes(path: Path) -> None:
    with suppress(ChangesDamagedError):
        read_changes(path.parent)


def _results(path: Path) -> None:
    """What can be read can be used for everything that results are."""
    with suppress(ResultsError):
        document = read_results(path)
        worths = (entry.result.worth or 0 for entry in read_class(document).entries)
        assert all(-(2**63) <= worth < 2**63 for worth in worths)  # as databases keep them
        class_report(document)
        assert not differences(document, document)
        read_lifts(path.parent)


def _keys(path: Path) -> None:
    """Every byte a key; a letter of a lane every time it may be one."""
    context = KeyContext(
        keys={"n": "Noor", "i": "Ilse", "b": "Bram"},
        phase="running",
        counts_by="rounds",
        can_change_time=False,
        all_in=False,
    )
    state = KeyState()
    for at, sign in enumerate(path.read_bytes().decode("latin-1")):
        state = press(state, Stroke(sign, at * 40, at * 40), context).state


def _journal_lines() -> bytes:
    people = people_named(("Ilse", "Bram", "Noor"))
    events: list[ev.Event] = [
        ev.ClassOpened(0, "turntable", PLAN.decode(), "kg", people, WALL),
        ev.SegmentChosen(900, 3),
        ev.SegmentStarted(1_000, 3, 1, 11_000, ()),
        ev.Held(30_000),
        ev.Resumed(40_000),
        ev.EmergencyNoted(41_000, "Ilse, ankle, ice, 18:40"),
    ]
    lines = [event_line(event, number, WALL) for number, event in enumerate(events)]
    return Anchor("b1", 5, 0, WALL).line() + b"".join(lines)


_ATTEMPT = {"set": 1, "load": "60 kg", "load_kg": 60, "made": True}
_LANE = {**LANE, "splits": [61, None], "attempts": [_ATTEMPT], "load_kg": 60, "members": ["noor"]}
_RESULTS = json.dumps(
    {
        "version": VERSION,
        "title": "Depot Tuesday",
        "started": WALL,
        "journal": "2026-11-24-1830-turntable.jsonl",
        "people": [{"id": "noor", "name": "Noor", "key": "n"}],
        "pieces": [{**PIECE, "sets": [3], "lift": "front squat", "lanes": [_LANE]}],
    }
).encode()

READERS = (
    Reader("plan.toml", PLAN, read_plan),
    Reader(
        "club.toml",
        b'name = "Line 0 Depot"\nunit = "kg"\n[tv]\ninches = 55\nmetres = 10\n[[bar]]\n'
        b'name = "20 kg bar"\nweight = "20 kg"\n[plates]\npairs = { "20" = 2, "10" = 3 }\n',
        read_club,
    ),
    Reader(
        "movements.toml",
        b'[[movement]]\nname = "sled push"\nstandard = "both lines crossed"\n',
        read_library,
    ),
    Reader("class.jsonl", _journal_lines(), _journal),
    Reader(
        "changes.jsonl",
        b'{"room":"a1b2c3"}\n{"change":"rename","n":1,"at":"2026-11-24T18:30:00+01:00","athlete":"a","name":"Noor"}\n',
        _changes,
    ),
    Reader(
        "taps.csv",
        b"seconds,keys\n12,n\n83.5,12n\n90,<space>\n",
        lambda path: read_taps(path.read_bytes(), path.name),
    ),
    Reader(
        "old.csv",
        b"name,benchmark,score,date\nNoor,Turntable,7+12,2025-03-04\n"
        b"Ilse,Third Rail,8:31,4.3.2025\n",
        lambda path: read_spreadsheet(
            path.read_bytes(), path.name, unit="kg", known=BookKnown(), today=date(2026, 1, 1)
        ),
    ),
    Reader("results.json", _RESULTS, _results),
    Reader("keys", b"n12n7+n7+12n*n/n-n>nb:n1.n\x7f", _keys),
)
