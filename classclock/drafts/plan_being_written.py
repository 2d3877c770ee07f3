"""The file behind a plan that is being written: opened, kept safe at every key, saved."""

import hashlib
from contextlib import suppress
from pathlib import Path

import msgspec
from msgspec import Struct

from classclock.machine.bundled import bundled
from classclock.machine.file_names import file_safe, whole_name
from classclock.machine.plain_file import open_file, read_file
from classclock.machine.replacing import take_away
from classclock.machine.whole_file import write_whole
from classclock.plan.reading.plan_reading import LARGEST

_NEW = "new"


class PlanOnDisk(Struct, frozen=True):
    """A plan to be edited, and the file that it is saved in; no file yet is None."""

    text: str
    path: Path | None = None
    data: bytes | None = None
    """As the file stood when it was read."""
    note: str = ""
    """What the coach should know as it opens."""


class KeptDraft(Struct):
    """What was being written, as far as the last key."""

    text: str
    at: str
    """The time of day, RFC 3339."""
    data: bytes | None = None
    """As the plan's file stood when it was opened."""
    place: tuple[int, int] = (-1, -1)
    key: str = ""
    typed: str = ""
    """What stood in the field that was being typed; with no key, nothing was."""


class DraftFile:
    """Where the draft of a plan is kept until it is saved, private to the account."""

    def __init__(self, folder: Path, plan: Path | None, number: int = 1) -> None:
        """`folder` is the club's; `plan` is the plan's own file, None for one that has none.

        Several editors may be open at once; `number` tells their drafts apart.
        """
        name = _NEW
        if plan is not None:
            whole = hashlib.sha256(str(plan.resolve()).encode("utf-8", "replace")).hexdigest()
            name = f"{file_safe(plan.stem)}-{whole[:12]}"
        self.path = folder / "drafts" / f"{name if number == 1 else f'{name}-{number}'}.json"

    def read(self) -> KeptDraft | None:
        """What is kept; a file that can't be read keeps nothing."""
        try:
            return msgspec.json.decode(read_file(self.path), type=KeptDraft)
        except (OSError, msgspec.DecodeError):
            return None

    def keep(self, draft: KeptDraft) -> None:
        """Raises OSError, and then leaves what was kept before."""
        write_whole(self.path, msgspec.json.encode(draft))

    def drop(self) -> None:
        with suppress(OSError):
            take_away(self.path)


def open_plan(path: Path) -> PlanOnDisk:
    """The plan in a file; one of the samples is opened as a copy, which has no file yet.

    Raises ValueError in a sentence for the coach.
    """
    try:
        with open_file(path) as opened:
            data = opened.read(LARGEST + 1)
    except FileNotFoundError:
        raise ValueError("there is no such file: check the name and the folder") from None
    except IsADirectoryError:
        raise ValueError("this is a folder: name a plan file in it, ending in .toml") from None
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "check the name"
        raise ValueError(f"this file can't be read: {why}") from None
    if len(data) > LARGEST:
        raise ValueError("this file is too large for a plan: 256 kB at most")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise ValueError("this file is not UTF-8: save it as UTF-8 in your own editor") from None
    if _all_crlf(data):
        text = text.replace("\r\n", "\n")
    if is_sample(path):
        return PlanOnDisk(text, note="a copy of the sample plan: saved among the club's own")
    return PlanOnDisk(text, path, data)


def is_sample(path: Path) -> bool:
    with suppress(FileNotFoundError):
        return path.resolve().is_relative_to(bundled("plans").resolve())
    return False


def changed_meanwhile(plan: PlanOnDisk) -> bool:
    """Whether somebody else wrote the plan's file since it was opened."""
    if plan.path is None:
        return False
    try:
        return read_file(plan.path) != plan.data
    except OSError:
        return True


def save_plan(plan: PlanOnDisk, text: str, title: str, folder: Path) -> PlanOnDisk:
    """Write it into its file, a new one into the club's plans under its title.

    Line ends and who may read it stay as the file had them. Raises OSError.
    """
    data = text.encode()
    if plan.data is not None and _all_crlf(plan.data):
        data = data.replace(b"\n", b"\r\n")
    if plan.path is None:
        path = free_path(folder / "plans", title)
        write_whole(path, data)
        return PlanOnDisk(text, path, data)
    path = plan.path.resolve()
    mode = path.stat().st_mode & 0o777 if path.exists() else 0o600
    write_whole(path, data)
    path.chmod(mode)
    return PlanOnDisk(text, plan.path, data)


def free_path(folder: Path, title: str) -> Path:
    """A file of that folder that isn't there yet, named after the title."""
    stem = whole_name(title, "plan")
    path, number = folder / f"{stem}.toml", 2
    while path.exists() or path.is_symlink():
        path, number = folder / f"{stem}-{number}.toml", number + 1
    return path


def plan_of_result(path: Path) -> str:
    """The plan that a class of a results file was run by: its journal has it.

    Raises ValueError in a sentence for the coach.
    """
    from classclock.book.files.journal import JournalUnreadableError, read_journal  # noqa: PLC0415  rarely
    from classclock.book.files.saved_results import journal_of  # noqa: PLC0415  the same

    name = Path(journal_of(path)).name
    if not name:
        raise ValueError("this is no results file: name one from the club's results")
    try:
        return read_journal(path.parent.parent / "journals" / name).opened.plan_text
    except (JournalUnreadableError, OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or str(error)
        raise ValueError(f"the journal of this class can't be read ({why})") from None


def _all_crlf(data: bytes) -> bool:
    return b"\r\n" in data and data.count(b"\n") == data.count(b"\r\n")
