"""Five sheets as a club may have them, each messy in its own way: made here, of invented people.

`python -m tests.book.importing.messy_sheets DIR` writes them, to be tried by hand.
"""

import sys
from collections.abc import Mapping
from datetime import date, timedelta
from pathlib import Path

from tests.book.importing.made_workbooks import Rows, ods, xlsx

_TWELVE_THREE = timedelta(hours=12, minutes=3)
"""What a sheet makes of twelve minutes three seconds, typed as 12:03."""


def messy_sheets() -> Mapping[str, bytes]:
    """By their file names."""
    return {
        "notebook.csv": _notebook(),
        "board.xlsx": _board(),
        "ledger.ods": _ledger(),
        "phone.txt": _phone(),
        "slips.csv": _slips(),
    }


def _notebook() -> bytes:
    """Latin-1, semicolons said on a line of their own, decimal commas, days of two orders."""
    lines = (
        "sep=;",
        "Who;What;Result;When;Remark",
        "Zo\u00eb;Turntable;7+12 reps;03/04/2024;rain",
        "Ilse;Turntable;7 rounds + 3 reps;03/04/2024;",
        "Zo\u00eb;Front squat;82,5 kg;05/04/2024;",
        "Ilse;Front Squat;60 kilos;05/04/2024;",
    )
    return "\r\n".join(lines).encode("latin-1")


def _board() -> bytes:
    """A title above the headings, times that became times of day, and a second sheet."""
    scores: Rows = [
        ["The Depot, records"],
        [],
        ["Athlete", "Piece", "Result", "Date"],
        ["Ilse", "Third Rail", _TWELVE_THREE, date(2024, 3, 1)],
        ["Bram", "Third Rail", timedelta(hours=31, minutes=20), date(2024, 3, 1)],
        ["Ilse", "Front squat", 62.5, date(2024, 3, 8)],
    ]
    return xlsx({"Records": scores, "Phone numbers": [["Ilse", "none"]]})


def _ledger() -> bytes:
    """Headings of its own, whole numbers on a new benchmark, a length in bare numbers."""
    return ods(
        {
            "Ledger": [
                ["Lid", "Onderdeel", "Uitslag", "Datum", "cap"],
                ["Ilse", "Switchback", 112, date(2024, 5, 2), 12],
                ["Odell", "Switchback", 98, date(2024, 5, 2), 12],
            ]
        }
    )


def _phone() -> bytes:
    """UTF-16 with tabs, times and days in words."""
    lines = (
        "name\tbenchmark\tscore\tdate\tload",
        "Ilse\tThird Rail\t12'03\t4 March 2024\t22,5",
        "Bram\tThird Rail\t723 s\tMarch 4, 2024\t22.5kg",
        "Odell\tThird Rail\t13m20s\tMon 4 Mar 2024\t22.5 kg",
    )
    return "\n".join(lines).encode("utf-16")


def _slips() -> bytes:
    """Slips of the fingers: names, loads and scores that nobody has, times of twelve hours."""
    lines = (
        "Name,Benchmark,Score,Date",
        "Ilsee,Turntable,8+2,2024-06-01",
        "Bram,Turntable,999+9999,2024-06-01",
        "Bram,Front squat,9999 kg,2024-06-08",
        "Ilse,Third Rail,723,2024-06-15",
        "Bram,Third Rail,12:03:00,2024-06-15",
        "Ilse,Turn table,8+1,2024-06-20",
    )
    return "\n".join(lines).encode()


if __name__ == "__main__":
    into = Path(sys.argv[1])
    into.mkdir(parents=True, exist_ok=True)
    for name, raw in messy_sheets().items():
        (into / name).write_bytes(raw)
