"""How a plan that is being written is drawn: its parts, what can be set on one, what is wrong."""

from datetime import datetime
from textwrap import wrap

from classclock.plan.amounts import rep_words
from classclock.plan.findings import Finding
from classclock.plan.model import FORMATS
from classclock.screens.canvas.cells import Drawing, above, beside
from classclock.screens.canvas.foot_keys import key_rows
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.page_heading import draw_heading, heading_rows
from classclock.screens.pages.editor.plan_editor_desk import PlanEditorDesk
from classclock.screens.pages.editor.plan_fields_drawing import draw_fields
from classclock.screens.pages.editor.plan_formats_drawing import draw_formats
from classclock.screens.pages.editor.plan_parts_drawing import draw_parts
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


def draw_editor(desk: PlanEditorDesk, columns: int, rows: int, look: Look) -> Drawing:
    """The page in a box of this size."""
    inner = columns - 2
    high = heading_rows(rows)
    title = printable(desk.title or "no title yet", 80)
    file = printable(desk.file or "no file yet", 60)
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
    said = [f"{least}{show_time(reading.length_ms)} with count-ins"]
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
            return draw_formats(desk, columns, rows, look)
        wrong = _findings(desk, columns, look)[: max(1, rows // 3)]
        listed = draw_parts(desk, columns, rows - len(wrong), look)
        return above(listed, *wrong) if wrong else listed
    left = columns * 4 // 9
    right = columns - left - 2
    wrong = _findings(desk, right, look)[: max(1, rows // 3)]
    draw = draw_formats if desk.mode == "format" else draw_fields
    beside_it = look.box(
        above(draw(desk, right, rows - len(wrong) - 1, look), look.gap(right), *wrong), right, rows
    )
    return beside(draw_parts(desk, left, rows, look), look.gap(2, rows), beside_it)


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


def _number(count: int, word: str) -> str:
    return f"{count} {word}" if count == 1 else f"{count} {word}s"
