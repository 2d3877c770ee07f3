"""Which column of a sheet is what: by headings of many names, by what the coach says, or asked."""

import re
from collections.abc import Mapping, Sequence
from itertools import zip_longest
from typing import Literal, get_args

from msgspec import Struct

from classclock.book.importing.questions import Asking, PossibleAnswer, WaitingError
from classclock.book.importing.sheet_table import SheetRow, UnreadableSheetError
from classclock.units.loads import Unit
from classclock.units.spelling import plain_words

SheetField = Literal["name", "benchmark", "score", "date", "modification", "load", "work"]
FIELDS: tuple[SheetField, ...] = get_args(SheetField)
NEEDED: tuple[SheetField, ...] = ("name", "benchmark", "score", "date")
NOT_TAKEN = "-"
"""What `--columns` says of a column that is to be left out."""
_CALLED: Mapping[SheetField, tuple[str, ...]] = {
    "name": ("names", "athlete", "athletes", "who", "person", "member", "full name", "lifter"),
    "benchmark": ("benchmarks", "piece", "lift", "exercise", "movement", "test", "event", "what"),
    "score": ("scores", "result", "results", "time", "reps", "rounds", "points", "weight"),
    "date": ("day", "when", "dates", "date done", "done on", "done", "on"),
    "modification": ("modified", "modifications", "option", "options", "variation", "easier"),
    "load": ("loads", "load used", "weight used"),
    "work": ("length", "duration", "cap", "time cap", "reps per set", "set"),
}
"""What a column is called too, the likelier first; without capitals, accents and signs."""
_MEANS: Mapping[SheetField, str] = {
    "name": "who it was",
    "benchmark": "which benchmark or lift",
    "score": "the score",
    "date": "the day",
    "modification": "the options used",
    "load": "the loads used",
    "work": "how long it was, or how many reps a set had",
}
_IN_BRACKETS = re.compile(r"\s*[(\[]([^)\]]*)[)\]]\s*")
_LONGEST = 60
"""Signs; what is longer is no heading."""
_FIRST_ROWS = 10
"""So many rows are looked at for headings: some sheets begin with a title."""


class SheetHeading(Struct, frozen=True):
    """One column of a sheet, and what it was taken for."""

    written: str
    place: int
    """From 0."""
    field: SheetField | None
    """None: it is left out."""
    unit: str = ""
    """What stands in brackets behind its name, in small letters: `kg`."""


class SheetHeadings(Struct, frozen=True):
    every: tuple[SheetHeading, ...]
    first: int
    """How many rows stand above the first score."""
    told: Mapping[str, str]
    """What was said by the coach alone, by heading: to be remembered for the next sheet."""

    def place(self, field: SheetField) -> int | None:
        return next((one.place for one in self.every if one.field == field), None)

    def unit(self, field: SheetField) -> str:
        return next((one.unit for one in self.every if one.field == field), "")


def unit_said(said: str, otherwise: Unit) -> Unit:
    """The unit of loads under a heading, by what stands in brackets behind it."""
    if said in ("lb", "lbs"):
        return "lb"
    return "kg" if said == "kg" else otherwise


def read_headings(
    rows: Sequence[SheetRow], said: Mapping[str, str], remembered: Mapping[str, str], asking: Asking
) -> SheetHeadings:
    """Find the headings among the first rows, and what each is.

    `said` and `remembered` say by heading which field it is, or that it is left out. Nothing is
    taken twice, and what is needed and can't be told is asked.

    Raises:
        UnreadableSheetError: a heading that was said isn't there.
        WaitingError: something is to be asked first.
    """
    at = max(
        range(min(len(rows), _FIRST_ROWS)), key=lambda row: (_known(rows[row]), -row), default=0
    )
    written = [cell[:_LONGEST] for cell in rows[at].cells] if rows else []
    folded = [_folded(cell) for cell in written]
    told = _told(said, written, folded)
    fields: dict[int, SheetField | None] = {}
    own: dict[str, str] = {name: name for name in FIELDS}
    for by_heading in (told, remembered, own):
        _take(by_heading, folded, fields)
    below = rows[at + 1].cells if at + 1 < len(rows) else ()
    told |= _fill(folded, list(zip_longest(written, below[: len(written)])), fields, asking)
    every = tuple(
        SheetHeading(cell, place, fields.get(place), _unit(cell))
        for place, cell in enumerate(written)
        if cell or fields.get(place)
    )
    return SheetHeadings(every, at + 1, told)


def _known(row: SheetRow) -> int:
    """How many headings of a row are known."""
    every = {name for field in FIELDS for name in (field, *_CALLED[field])}
    return sum(_folded(cell[:_LONGEST]) in every for cell in row.cells)


def _folded(cell: str) -> str:
    return plain_words(_IN_BRACKETS.sub(" ", cell)) or plain_words(cell)


def _told(said: Mapping[str, str], written: Sequence[str], folded: Sequence[str]) -> dict[str, str]:
    for heading in said:
        if plain_words(heading) not in folded:
            there = ", ".join(f'"{cell}"' for cell in written if cell)
            raise UnreadableSheetError(
                f'no column is called "{heading}"', f"It has {there or 'no headings'}"
            )
    return {plain_words(heading): field for heading, field in said.items()}


def _take(
    by_heading: Mapping[str, str], folded: Sequence[str], fields: dict[int, SheetField | None]
) -> None:
    for place, heading in enumerate(folded):
        meant = by_heading.get(heading)
        if place in fields or meant is None:
            continue
        if meant == NOT_TAKEN:
            fields[place] = None
            continue
        for field in FIELDS:
            if field == meant and field not in fields.values():
                fields[place] = field


def _fill(
    folded: Sequence[str],
    written: Sequence[tuple[str, str | None]],
    fields: dict[int, SheetField | None],
    asking: Asking,
) -> dict[str, str]:
    """Take what is called otherwise, and ask for what is needed; what was answered, by heading.

    `written` has each heading with the cell below it.
    """
    for field in FIELDS:
        found = _called_so(field, folded, fields)
        if len(found) == 1 and field not in fields.values():
            fields[found[0]] = field
    answered: dict[str, str] = {}
    waiting = False
    for field in NEEDED:
        if field not in fields.values():
            found = _called_so(field, folded, fields)
            free = [at for at, (cell, _) in enumerate(written) if cell and at not in fields]
            _look_for(field, free, fields)
            try:
                place = _asked(field, found or free, written, asking)
            except WaitingError:
                waiting = True
            else:
                fields[place] = field
                answered[folded[place]] = field
    if waiting:
        raise WaitingError
    return answered


def _called_so(
    field: SheetField, folded: Sequence[str], fields: Mapping[int, SheetField | None]
) -> list[int]:
    return [
        place
        for place, heading in enumerate(folded)
        if place not in fields and heading in _CALLED[field]
    ]


def _look_for(
    field: SheetField, free: Sequence[int], fields: Mapping[int, SheetField | None]
) -> None:
    """Nothing is asked where there are fewer columns than it takes."""
    missing = [one for one in NEEDED if one not in fields.values()]
    if len(free) < len(missing):
        rest = ", ".join(name for name in FIELDS if name not in NEEDED)
        raise UnreadableSheetError(
            f"no column says {_MEANS[field]}",
            f"Write {','.join(NEEDED)} as the first line ({rest} may follow), or say which is "
            'which, as in --columns "Who=name, Did=score"',
        )


def _asked(
    field: SheetField,
    among: Sequence[int],
    written: Sequence[tuple[str, str | None]],
    asking: Asking,
) -> int:
    choices = []
    for place in among:
        heading, below = written[place]
        as_in = f", as in {below}" if below else ""
        choices.append(PossibleAnswer(str(place + 1), f'"{heading}"{as_in}'))
    question = f"which column says {_MEANS[field]}?"
    return int(asking.answer(f"column:{field}", question, choices, "", leave=False)) - 1


def _unit(written: str) -> str:
    found = _IN_BRACKETS.search(written)
    return found[1].strip().casefold() if found else ""
