"""How a plan that is being written is drawn: its parts, what can be set on one, what is wrong."""

from datetime import datetime
from textwrap import wrap

from msgspec import Struct

from classclock.plan.amounts import rep_words
from classclock.plan.editing.fields import typed_at
from classclock.plan.editing.parts import HEAD, Part
from classclock.plan.findings import Finding
from classclock.plan.model import FORMATS
from classclock.screens.canvas.cells import Drawing, above, beside
from classclock.screens.canvas.foot_keys import key_rows
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.page_heading import draw_heading, heading_rows
from classclock.screens.pages.editor.plan_editor_desk import PlanEditorDesk
from classclock.screens.pages.editor.plan_fields_drawing import draw_fields
from classclock.units.printable import printable
from classclock.units.times import show_time

_WIDE = 96
"""Columns from which the parts and the fields stand side by side."""
_KEYS = {
    "list": (
        "enter edits",
        "letters: a station",
        "+ segment",
        "- removes",
        "[ ] move",
        "= the same again",
        "backspace takes back",
        "ctrl+s saves",
        "ctrl+e own editor",
        "escape leaves",
    ),
    "fields": (
        "type, or enter, to change",
        "delete empties",
        "backspace takes back",
        "ctrl+s saves",
        "escape back to the list",
    ),
    "format": ("up, down", f"1 to {len(FORMATS)}, or enter, adds it", "escape doesn't"),
    "leave": ("enter leaves, the draft stays", "d drops it", "ctrl+s saves", "escape stays here"),
    "changed": ("o writes over it", "n saves a new file beside it", "escape doesn't save"),
    "draft": ("enter goes on with it", "d drops it", "escape leaves all as it is"),
}
_ENTRY = ("enter takes it", "escape leaves it as it was")
_CHOOSING = ("enter takes what is lit", "down chooses", "escape leaves it as it was")
_NAME_COLUMNS = max(map(len, FORMATS)) + 4
"""A format's number and name, and a space behind it."""


class EditorPage(Struct):
    """What the screen shows beside the desk."""

    desk: PlanEditorDesk
    file: str
    """What the plan's file is called; empty where it has none yet."""


def draw_editor(page: EditorPage, columns: int, rows: int, look: Look) -> Drawing:
    desk, inner = page.desk, columns - 2
    high = heading_rows(rows)
    title = printable(typed_at(desk.draft.reading.parts[0], "title") or "no title yet", 80)
    file = printable(page.file or "no file yet", 60)
    heading = draw_heading(title, (file,), inner, high, look)
    sums = look.text(_sums(desk), inner, bold=True)
    foot = _foot(desk, inner, look)
    left = max(1, rows - len(heading) - len(foot) - 3)
    gap = look.gap(inner)
    drawn = above(heading, sums, gap, _body(desk, inner, left, look), gap, foot)
    return look.box(drawn, columns, rows, across="middle")


def _sums(desk: PlanEditorDesk) -> str:
    """The whole class, the round in focus, what is wrong, and whether it is saved."""
    reading = desk.draft.reading
    least = "" if reading.whole else "at least "
    said = [f"{least}{show_time(reading.length)} with count-ins"]
    segment = desk.draft.place[0]
    told = reading.segments[segment] if 0 <= segment < len(reading.segments) else None
    if told is not None and told.total_reps:
        said.append(f"{rep_words(told.total_reps)} in all")
    if told is not None and told.round_reps:
        said.append(f"{rep_words(told.round_reps)} a round")
    errors = sum(finding.level == "error" for finding in reading.findings)
    hints = len(reading.findings) - errors
    if errors:
        said.append(_number(errors, "fault"))
    if hints:
        said.append(_number(hints, "hint"))
    said.append("not saved" if desk.unsaved or desk.saved is None else "saved")
    return " · ".join(said)


def _foot(desk: PlanEditorDesk, columns: int, look: Look) -> Drawing:
    keys: tuple[str, ...] = _KEYS.get(desk.mode, ())
    if desk.entry is not None and desk.mode == "entry":
        keys = _CHOOSING if desk.entry.proposals(desk.library) else _ENTRY
    drawn = [look.text(row, columns, ink=look.theme.quiet) for row in key_rows(keys, columns)]
    said = look.text(_said(desk), columns, ink=look.theme.doubtful, bold=True)
    return above(said, *drawn)


def _said(desk: PlanEditorDesk) -> str:
    if desk.mode == "draft" and desk.kept is not None:
        at = datetime.fromisoformat(desk.kept.at)
        return f"a draft from {at:%H:%M} on {at:%Y-%m-%d} is here, not saved then"
    if desk.mode == "leave":
        return "this isn't saved yet"
    if desk.mode == "changed":
        return "the file was changed by somebody else since it was opened here"
    return desk.notice


def _body(desk: PlanEditorDesk, columns: int, rows: int, look: Look) -> Drawing:
    if columns < _WIDE:
        if desk.mode in ("fields", "entry"):
            return draw_fields(desk, columns, rows, look)
        if desk.mode == "format":
            return _formats(desk, columns, rows, look)
        wrong = _findings(desk, columns, look)[: max(1, rows // 3)]
        listed = _parts(desk, columns, rows - len(wrong), look)
        return above(listed, *wrong) if wrong else listed
    left = columns * 4 // 9
    right = columns - left - 2
    wrong = _findings(desk, right, look)[: max(1, rows // 3)]
    draw = _formats if desk.mode == "format" else draw_fields
    beside_it = look.box(
        above(draw(desk, right, rows - len(wrong) - 1, look), look.gap(right), *wrong), right, rows
    )
    return beside(_parts(desk, left, rows, look), look.gap(2, rows), beside_it)


def _parts(desk: PlanEditorDesk, columns: int, rows: int, look: Look) -> Drawing:
    parts = desk.draft.reading.parts
    at = next((n for n, part in enumerate(parts) if part.place == desk.draft.place), 0)
    first = max(0, min(at - rows // 2, len(parts) - rows))
    drawn = [
        _part(desk, part, columns, look, lit=number == at)
        for number, part in enumerate(parts[first : first + rows], first)
    ]
    if len(parts) == 1 and rows > 2:
        drawn.append(look.text("   + adds the first segment", columns, ink=look.theme.quiet))
    return look.box(above(*drawn), columns, rows)


def _part(desk: PlanEditorDesk, part: Part, columns: int, look: Look, *, lit: bool) -> Drawing:
    theme = look.theme
    here = look.on(theme.bar) if lit else look
    found = desk.draft.reading.findings_at(part.place)
    wrong = any(finding.level == "error" for finding in found)
    sign = "!" if wrong else "?" if found else " "
    edge = beside(
        here.text("▌" if lit else "", 1), here.text(sign, 2, ink=theme.doubtful, bold=True)
    )
    words, length = _words(desk, part)
    ink = theme.quiet if part.kind == "plan" else theme.ink
    bold = part.kind == "segment"
    side = 8 if length else 0
    text = here.text(printable(words, 300), columns - 3 - side, ink=ink, bold=bold)
    return beside(edge, text, here.text(length.rjust(7), side, ink=theme.quiet))


def _words(desk: PlanEditorDesk, part: Part) -> tuple[str, str]:
    """A part in one line, and its length."""
    segment = part.place[0]
    if part.place == HEAD:
        date = typed_at(part, "date")
        return f"{typed_at(part, 'title') or 'no title yet'}{f', {date}' if date else ''}", ""
    if part.kind == "station":
        words = (typed_at(part, "amount"), typed_at(part, "movement") or "no movement yet")
        load = typed_at(part, "load")
        said = " ".join(one for one in words if one)
        return f"    {said}{f', {load}' if load else ''}", ""
    segments = desk.draft.reading.segments
    told = segments[segment] if segment < len(segments) else None
    name = typed_at(part, "name") or f"segment {segment + 1}"
    if told is None:
        return f"{name}   {typed_at(part, 'format')}", "?"
    return f"{name}   {told.words}", show_time(told.length)


def _findings(desk: PlanEditorDesk, columns: int, look: Look) -> list[Drawing]:
    """What is wrong with the part in focus, else the first thing that is wrong anywhere."""
    here = desk.draft.reading.findings_at(desk.draft.place)
    found = here or desk.draft.reading.findings[:1]
    lines = [line for one in found for line in wrap(_finding(one, here=bool(here)), columns)]
    return [look.text(line, columns, ink=look.theme.doubtful) for line in lines]


def _finding(finding: Finding, *, here: bool) -> str:
    where = "" if here or not finding.segment else f"{finding.segment}: "
    stop = "" if finding.what.endswith("?") else "."
    return printable(f"{where}{finding.what}{stop} {finding.instead}.", 400)


def _formats(desk: PlanEditorDesk, columns: int, rows: int, look: Look) -> Drawing:
    theme = look.theme
    drawn = [look.text("a new segment:", columns, bold=True), look.gap(columns)]
    for number, (written, form) in enumerate(FORMATS.items()):
        lit = number == desk.format_at
        here = look.on(theme.bar) if lit else look
        name = here.text(f"{'▌' if lit else ' '}{number + 1} {written}", _NAME_COLUMNS, bold=True)
        words = here.text(form.about.offered_as, columns - _NAME_COLUMNS, ink=theme.quiet)
        drawn.append(beside(name, words))
    return look.box(above(*drawn), columns, rows)


def _number(count: int, word: str) -> str:
    return f"{count} {word}" if count == 1 else f"{count} {word}s"
