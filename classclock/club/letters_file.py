"""Of which dots letters are: what the coach says, what is known, what was said of the terminal."""

from collections.abc import Mapping
from pathlib import Path

from msgspec import DecodeError
from msgspec.json import decode, encode

from classclock.club.folder import letters
from classclock.machine.terminal_kinds import TerminalKind
from classclock.machine.whole_file import write_whole
from classclock.plan.settings.club import Club
from classclock.units.cell_dots import CellDots


def dots_for(club: Club, folder: Path, kind: TerminalKind) -> CellDots:
    """What letters are made of in this kind of terminal."""
    return _settled(club, folder, kind) or "halves"


def is_settled(club: Club, folder: Path, kind: TerminalKind) -> bool:
    """Whether nobody has to be asked."""
    return _settled(club, folder, kind) is not None


def _settled(club: Club, folder: Path, kind: TerminalKind) -> CellDots | None:
    if club.tv.letters != "auto":
        return club.tv.letters
    return kind.dots or read_letters(folder).get(kind.name)


def read_letters(folder: Path) -> Mapping[str, CellDots]:
    """By the kind's name; what can't be read was never said, and is asked again."""
    try:
        return decode(letters(folder).read_bytes(), type=dict[str, CellDots])
    except (OSError, DecodeError):
        return {}


def remember_letters(folder: Path, kind: str, dots: CellDots) -> None:
    """Keep it for this kind of terminal, beside what was said of others.

    Raises:
        OSError: it can't be written.
    """
    said = {**read_letters(folder), kind: dots}
    write_whole(letters(folder), encode(said, order="sorted") + b"\n")
