"""Reading a plan: the plan, or everything that is wrong with it at once."""

from typing import TYPE_CHECKING, Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from classclock.plan.file_key import nearest
from classclock.plan.findings import Fault, Finding, LineFault, Path
from classclock.plan.model import FORMATS, Plan
from classclock.plan.reading.positions import Positions
from classclock.plan.reading.rules import broken_rules
from classclock.plan.reading.syntax import Toml, read_toml
from classclock.plan.written_values import tables
from classclock.units.loads import Unit
from classclock.units.printable import printable

if TYPE_CHECKING:
    from classclock.plan.movements.library import Library

LARGEST = 256 * 1024
"""Bytes: hundreds of segments. What is larger isn't a plan, and would take seconds to refuse."""
_MOST_FINDINGS = 200

Read = tuple[Plan | None, tuple[Finding, ...]]


def parse_plan(
    text: str | bytes, file: str, unit: Unit = "kg", library: "Library | None" = None
) -> Read:
    """Read a plan from its text; the plan is None if any finding is an error.

    `file` is only named in the findings. `unit` is what a load without one is in. With a library, a
    movement that neither it nor a standard in the plan explains is a hint. Never raises for what is
    in the text.
    """
    if len(text) > LARGEST:
        return refused(file, "this file is too large for a plan", "Name a file of 256 kB at most")
    faults: tuple[LineFault, ...] = ()
    if isinstance(text, bytes):
        if text.startswith((b"\xff\xfe", b"\xfe\xff")):
            return refused(file, "this file is saved as UTF-16", "Save it as UTF-8")
        text, faults = _decode(text)
    toml = read_toml(text)
    unread = {fault.line for fault in faults}
    faults += tuple(fault for fault in toml.faults if fault.line not in unread)
    return _judge(toml, faults, file, unit, library)


def refused(file: str, what: str, instead: str) -> Read:
    """No plan, and the one finding that says why the whole file can't be read."""
    return None, (Finding(file, 0, None, what, instead),)


def _decode(data: bytes) -> tuple[str, tuple[LineFault, ...]]:
    text = data.decode("utf-8", "replace")
    try:
        data.decode("utf-8")
    except UnicodeDecodeError:
        what, instead = "a character that is not UTF-8", "Save the file as UTF-8"
        lines = enumerate(data.split(b"\n"), start=1)
        bad = (number for number, line in lines if not _is_utf8(line))
        return text, tuple(LineFault(number, what, instead) for number in bad)
    return text, ()


def _is_utf8(line: bytes) -> bool:
    try:
        line.decode("utf-8")
    except UnicodeDecodeError:
        return False
    return True


def _judge(
    toml: Toml,
    line_faults: tuple[LineFault, ...],
    file: str,
    unit: Unit,
    library: "Library | None",
) -> Read:
    values, format_faults = _with_known_formats(toml.values)
    faults = [*format_faults, *broken_rules(values)]
    if library is not None:
        from classclock.plan.movements.hints import unknown_movements  # noqa: PLC0415  only here

        faults += unknown_movements(values, library)
    plan = None
    try:
        plan = Plan.model_validate(values, context={"unit": unit})
    except ValidationError as refused:
        from classclock.plan.reading.wording import fault_of  # noqa: PLC0415  faulty plans only

        details = [one for one in refused.errors(include_url=False) if not _is_echo(one)]
        faults += [fault_of(one, values) for one in details[:_MOST_FINDINGS]]
    faults = _once_each(faults, complete=not line_faults)
    if not faults and not line_faults:
        return plan, ()
    positions = Positions(toml.text)
    names = _Names(values, positions)
    found = [
        Finding(file, fault.line, names.on(fault.line), fault.what, fault.instead)
        for fault in line_faults
    ]
    for fault in faults:
        line = positions.line(fault.path)
        segment = names.of(fault.path)
        found.append(Finding(file, line, segment, fault.what, fault.instead, fault.level))
    found.sort(key=lambda finding: finding.line)
    wrong = any(finding.level == "error" for finding in found)
    return None if wrong else plan, tuple(found[:_MOST_FINDINGS])


def _is_echo(error: ErrorDetails) -> bool:
    """Whether a list is only called too short because an item in it is wrong."""
    return error["type"] == "too_short" and bool(error["input"])


def _with_known_formats(values: dict[str, Any]) -> tuple[dict[str, Any], list[Fault]]:
    """Guess the format where it is missing or unknown, so that the rest can be judged."""
    if not isinstance(values.get("segment"), list):
        return values, []
    faults = []
    segments = list(values["segment"])
    for number, segment in tables(segments):
        written = segment.get("format")
        if isinstance(written, str) and written in FORMATS:
            continue
        near = nearest(written, tuple(FORMATS)) if isinstance(written, str) else None
        guess = near or _likely_format(segment)
        segments[number] = {**segment, "format": guess}
        path: Path = ("segment", number)
        instead = f'Write format = "{guess}"'
        if written is None:
            faults.append(Fault(path, '"format" is missing', instead, missing=("format",)))
        else:
            from classclock.plan.reading.wording import show  # noqa: PLC0415  as above

            what = f"format = {show(written)} is not one of {', '.join(FORMATS)}"
            faults.append(Fault((*path, "format"), what, instead))
    return {**values, "segment": segments}, faults


def _likely_format(segment: dict[str, Any]) -> str:
    """The format of whose keys one stands there; else the first with rounds, or without any."""
    for name, form in FORMATS.items():
        if form.about.known_by & segment.keys():
            return name
    counted = "station" in segment
    return next(name for name, form in FORMATS.items() if form.about.has_rounds is counted)


def _once_each(faults: list[Fault], *, complete: bool) -> list[Fault]:
    """One fault for each place; and nothing is missing that was only written wrongly.

    Where lines couldn't be read, what seems to be missing may have stood in them.
    """
    meant = {(*fault.path[:-1], fault.meant) for fault in faults if fault.meant}
    kept: dict[tuple[Path, tuple[str, ...]], Fault] = {}
    for fault in faults:
        if fault.missing and not complete:
            continue
        if not any((*fault.path, key) in meant for key in fault.missing):
            kept.setdefault((fault.path, fault.missing), fault)
    return list(kept.values())


class _Names:
    """What to call the segment that a finding is about."""

    def __init__(self, values: dict[str, Any], positions: Positions) -> None:
        self._names: dict[Path, str] = {}
        self._starts: list[tuple[int, str]] = []
        for number, segment in tables(values.get("segment")):
            name = segment.get("name")
            named = isinstance(name, str) and name.strip()
            shown = printable(str(name).strip(), 40) if named else f"segment {number + 1}"
            self._names["segment", number] = shown
            self._starts.append((positions.line(("segment", number)), shown))

    def of(self, path: Path) -> str | None:
        return self._names.get(path[:2])

    def on(self, line: int) -> str | None:
        before = [shown for start, shown in self._starts if start <= line]
        return before[-1] if before else None
