"""Results files, read: the newest of a club, and the one that belongs to a journal."""

from pathlib import Path
from typing import Any

from classclock.units.plain_json import read_json


def newest(folder: Path) -> dict[str, Any] | None:
    """The results of the latest class in the folder; None where there are none."""
    for path in sorted(folder.glob("*.json"), reverse=True):
        if (document := read_results(path)) is not None:
            return document
    return None


def saved_for(journal: Path) -> tuple[Path, dict[str, Any]] | None:
    """The results file of the class with this journal, from the folder beside the journals."""
    for path in sorted(journal.parent.parent.glob("results/*.json"), reverse=True):
        document = read_results(path)
        if document is not None and document["journal"] == journal.name:
            return path, document
    return None


def read_results(path: Path) -> dict[str, Any] | None:
    """A results file's content; None if it isn't one or can't be read."""
    try:
        document = read_json(path.read_bytes())
    except (OSError, ValueError):
        return None
    if not isinstance(document, dict) or not isinstance(document.get("pieces"), list):
        return None
    known = all(isinstance(document.get(key), str) for key in ("title", "started", "journal"))
    return document if known else None


def differences(worked_out: dict[str, Any], saved: dict[str, Any]) -> tuple[str, ...]:
    """Where two documents of one class differ, a line each, in words.

    Earlier bests are left out: no journal knows them.
    """
    try:
        return tuple(_differences(worked_out, saved))
    except (AttributeError, KeyError, TypeError):
        return ("the saved results are damaged",)


def _differences(worked_out: dict[str, Any], saved: dict[str, Any]) -> list[str]:
    lines: list[str] = []
    again = {(piece["name"], piece["attempt"]): piece for piece in worked_out["pieces"]}
    before = {(piece["name"], piece["attempt"]): piece for piece in saved["pieces"]}
    for key in [*again, *(key for key in before if key not in again)]:
        if key not in again or key not in before:
            lines.append(f"{key[0]}: only {'saved' if key in before else 'in the journal'}")
            continue
        lines += _lane_differences(key[0], again[key]["lanes"], before[key]["lanes"])
    return lines


def _lane_differences(piece: str, again: list[Any], before: list[Any]) -> list[str]:
    saved = {(lane["athlete"], lane["key"], lane["heat"]): lane for lane in before}
    lines = []
    for lane in again:
        other = saved.pop((lane["athlete"], lane["key"], lane["heat"]), None)
        if other is None:
            lines.append(f"{piece}, {lane['athlete']}: not in the saved results")
        else:
            lines += [
                f"{piece}, {lane['athlete']}: {field} {value!r}, saved was {other.get(field)!r}"
                for field, value in lane.items()
                if field != "best_before" and other.get(field) != value
            ]
    lines += [f"{piece}, {name}: not in the journal" for name, *_ in saved]
    return lines
