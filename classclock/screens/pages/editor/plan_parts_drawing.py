"""How the parts of a plan that is being written are drawn: a row each, the one in focus lit."""

from classclock.plan.editing.fields import typed_at
from classclock.plan.editing.parts import HEAD, Part
from classclock.screens.canvas.cells import Drawing, above, beside
from classclock.screens.canvas.look import Look
from classclock.screens.controls.cursor import Cursor
from classclock.screens.pages.editor.plan_editor_desk import PlanEditorDesk
from classclock.units.printable import printable
from classclock.units.times import show_time


def draw_parts(desk: PlanEditorDesk, columns: int, rows: int, look: Look) -> Drawing:
    parts = desk.draft.reading.parts
    at = next((n for n, part in enumerate(parts) if part.place == desk.draft.place), 0)
    first = Cursor(at).first_in_view(rows, len(parts))
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
    return f"{name}   {told.words}", show_time(told.length_ms)
