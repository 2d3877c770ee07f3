"""A text in the coach's own editor, while this app stands aside."""

import os
import shlex
import subprocess
import tempfile
from collections.abc import Mapping
from pathlib import Path

from textual.app import App, SuspendNotSupported


class NoEditorError(Exception):
    """The coach's own editor can't be used; the message says what to do."""


def editor_of(environment: Mapping[str, str]) -> list[str]:
    """The command that $VISUAL, or else $EDITOR, names. Raises NoEditorError."""
    named = environment.get("VISUAL") or environment.get("EDITOR") or ""
    try:
        command = shlex.split(named)
    except ValueError:
        command = []
    if not command:
        raise NoEditorError("set VISUAL or EDITOR to the name of your editor, then try again")
    return command


def edited_outside(app: App[str], text: str, name: str) -> str:
    """The text as the coach's editor leaves it. Raises NoEditorError."""
    command = editor_of(os.environ)
    with tempfile.TemporaryDirectory(prefix="classclock-") as folder:
        path = Path(folder) / name
        path.write_text(text, "utf-8")
        try:
            with app.suspend():
                done = subprocess.run([*command, str(path)], check=False)
        except SuspendNotSupported:
            raise NoEditorError("another editor can't be opened from this terminal") from None
        except OSError as error:
            raise NoEditorError(f"{command[0]} can't be started ({error.strerror})") from None
        if done.returncode:
            raise NoEditorError(f"{command[0]} ended with a fault: the plan stays as it was")
        try:
            return path.read_text("utf-8-sig")
        except (OSError, UnicodeDecodeError):
            raise NoEditorError("what was saved there is not UTF-8: the plan stays") from None
