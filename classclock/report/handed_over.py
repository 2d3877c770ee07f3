"""Everything kept about one person as files that they can read: a letter, tables, their page."""

import json
from datetime import date
from typing import Any

from msgspec import convert, to_builtins

from classclock.book.handing_over.everything import Kept
from classclock.records.bests import long_day
from classclock.report.athlete_html import athlete_html
from classclock.report.athlete_page import AthletePage
from classclock.units.csv_cells import csv_bytes
from classclock.units.printable import escaped_json, printable

PAGE, LETTER = "page.html", "README.txt"
_TABLES = {
    "attendance": "the classes you came to",
    "results": "your scores; counts is 1 where a score can be a best",
    "lifts": "the loads you tried, as they were put right; made is 1 where you made them",
    "goals": "what you work towards, or did: asked for since when, by when, and when it ended",
    "notes": "what was noted about you in classes, on the emergency card too",
    "changes": "what was put right or marked by hand, with what was taken back again",
    "imported": "your rows in lists that the club brought in",
    "plans": "lines of plans and settings in which your name stands",
    "copies": "pages and tables with your name that were written elsewhere",
}
"""By table, what it holds."""


def handed_over(kept: Kept, page: AthletePage, club: str, made: date) -> dict[str, bytes]:
    """By file name what it holds. No name is made of anything that somebody wrote."""
    names = kept.names
    about = names.left_in(club)
    files = {
        "person.json": _json(kept.person),
        **{
            f"{name}.csv": csv_bytes(tuple(rows[0]), [tuple(row.values()) for row in rows])
            for name, rows in kept.tables.items()
        },
        PAGE: athlete_html(_without_others(kept, page), about, made),
    }
    who = {"name": kept.athlete.name}
    if kept.classes:
        files["classes.json"] = _json({**who, "classes": kept.classes})
    if kept.journals:
        files["journals.json"] = _json({**who, "journals": kept.journals})
    return {LETTER: _letter(kept, about, made, files).encode(), **files}


def _json(values: Any) -> bytes:
    return escaped_json(json.dumps(values, ensure_ascii=False, indent=1)).encode() + b"\n"


def _without_others(kept: Kept, page: AthletePage) -> AthletePage:
    """The page, with nobody else's name in a piece, an option, a lift or a goal."""
    values = to_builtins(page)
    return convert(
        {
            **values,
            "modifications": kept.names.values(values["modifications"]),
            "bests": kept.names.values(values["bests"]),
            "lifts": kept.names.values(values["lifts"]),
            "goals": kept.names.values(values["goals"]),
            "shown": kept.names.left_in(page.shown),
            "history": kept.names.values(values["history"]),
        },
        AthletePage,
    )


def _letter(kept: Kept, club: str, made: date, files: dict[str, bytes]) -> str:
    where = f" at {printable(club)}" if club else ""
    held = {
        "person.json": "your name, your key, the marks that remind the coach",
        PAGE: "your page: how often you come, your bests, your history; open it in a browser",
        **{f"{name}.csv": words for name, words in _TABLES.items()},
        "classes.json": "your part of each class's results, with every split and set",
        "journals.json": "each call that was counted for you, with its time",
    }
    lines = [
        f"{printable(kept.athlete.name)}",
        "",
        f"This is everything that is kept about you{where}, as of {long_day(made.isoformat())}.",
        "",
        *(f"  {name:<16}{words}" for name, words in held.items() if name in files),
        "",
        "A .csv opens in any spreadsheet, a .json in any text editor. Where somebody else's name",
        "stood in a text, [another name] stands. Scores of a team are yours as much as theirs; the",
        "others aren't named.",
    ]
    if kept.unread:
        number = len(kept.unread)
        files_are = "1 file that may tell" if number == 1 else f"{number} files that may tell"
        lines += ["", f"Not in here: {files_are} of you, and can't be read. Ask the coach."]
    if kept.elsewhere:
        lines += ["", "Another room of the club keeps journals of its own: ask there too."]
    lines += [
        "",
        "You may ask for anything in it to be put right, and for all of it to be erased.",
    ]
    return "\n".join(lines) + "\n"
