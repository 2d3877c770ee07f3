"""How the fields of one part of a plan are drawn, and what is being typed into one."""

from classclock.plan.editing.fields import Field, typed_at
from classclock.plan.editing.parts import HEAD
from classclock.screens.canvas.cells import Drawing, above, beside
from classclock.screens.canvas.look import Look
from classclock.screens.controls.cursor import Cursor
from classclock.screens.controls.typed_drawing import draw_typed
from classclock.screens.pages.editor.plan_editor_desk import PlanEditorDesk
from classclock.screens.pages.editor.plan_entry import PlanEntry
from classclock.units.printable import printable

_KEY = 16
"""Columns of a field's name."""
_HINTS = {
    "station": "its first letters, or words of your own",
    "amount": "12, 400 m, 15 cal, 0:30, or from round to round 4, 8, 12",
}


def draw_fields(desk: PlanEditorDesk, columns: int, rows: int, look: Look) -> Drawing:
    entry = desk.entry
    if entry is not None and entry.purpose != "field":
        return look.box(_new_station(desk, entry, columns, look), columns, rows)
    head = look.text(_heading(desk), columns, bold=True)
    fields = desk.fields
    cursor = desk.field_at
    if entry is not None:
        typed = next((n for n, field in enumerate(fields) if field.key == entry.key), cursor.at)
        cursor = Cursor(typed)
    at = cursor.within(len(fields))
    lit = desk.mode in ("fields", "entry")
    under = _under(desk, fields[at], columns, look) if lit else []
    fitting = max(1, rows - 1 - len(under))
    first = cursor.first_in_view(fitting, len(fields))
    drawn = [head]
    for number, field in enumerate(fields[first : first + fitting], first):
        here = lit and number == at
        drawn.append(_field(field, entry if here else None, columns, look, lit=here))
        if here:
            drawn += under
    return look.box(above(*drawn), columns, rows)


def _heading(desk: PlanEditorDesk) -> str:
    part = desk.part
    if part.place == HEAD:
        return "the plan"
    key = "name" if part.kind == "segment" else "movement"
    return printable(f"{part.kind}: {typed_at(part, key) or 'without a name'}", 120)


def _field(
    field: Field, entry: PlanEntry | None, columns: int, look: Look, *, lit: bool
) -> Drawing:
    theme = look.theme
    here = look.on(theme.bar) if lit else look
    name = here.text(f"{'▌' if lit else ' '} {field.key.replace('_', ' ')}", _KEY, ink=theme.quiet)
    if entry is not None:
        return beside(name, draw_typed(entry.line, columns - _KEY, here))
    shown = field.typed or "-"
    ink = theme.ink if field.typed else theme.quiet
    return beside(name, here.text(printable(shown, 400), columns - _KEY, ink=ink))


def _under(desk: PlanEditorDesk, field: Field, columns: int, look: Look) -> list[Drawing]:
    """The hint under the field in focus, or what the typed letters may mean."""
    proposed = [] if desk.entry is None else _proposals(desk, desk.entry, columns, look)
    if proposed or not field.hint:
        return proposed
    return [look.text(" " * _KEY + field.hint, columns, ink=look.theme.quiet)]


def _proposals(desk: PlanEditorDesk, entry: PlanEntry, columns: int, look: Look) -> list[Drawing]:
    theme, drawn = look.theme, []
    proposals = entry.proposals(desk.library)
    for number, proposal in enumerate(proposals):
        lit = number == entry.cursor.within(len(proposals))
        here = look.on(theme.bar) if lit else look
        as_typed = number == len(proposals) - 1 and number and proposal == entry.line.text.strip()
        said = printable(proposal, 200) + ("   (as typed)" if as_typed else "")
        edge = look.text("", _KEY - 2)
        drawn.append(beside(edge, here.text(f"{'▌' if lit else ' '} {said}", columns - _KEY + 2)))
    return drawn


def _new_station(desk: PlanEditorDesk, entry: PlanEntry, columns: int, look: Look) -> Drawing:
    reading = desk.draft.reading
    segment = reading.part((entry.place[0], -1))
    name = typed_at(segment, "name") or "this segment"
    if entry.purpose == "station":
        said = f"a new station in {name}"
    else:
        said = f"how much of {typed_at(desk.part, 'movement')}"
    bar = look.on(look.theme.bar)
    label = bar.text("▌ movement" if entry.purpose == "station" else "▌ amount", _KEY)
    return above(
        look.text(printable(said, 160), columns, bold=True),
        beside(label, draw_typed(entry.line, columns - _KEY, bar)),
        *_proposals(desk, entry, columns, look),
        look.text(" " * _KEY + _HINTS[entry.purpose], columns, ink=look.theme.quiet),
    )
