"""`resume`: rejoin a class that was cut off."""

import argparse
from pathlib import Path

from classclock.book.files.held_file import JournalInUseError
from classclock.book.files.journal import JournalUnreadableError
from classclock.book.files.unfinished import unfinished
from classclock.clock.source import local_now
from classclock.club.folder import journals
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import FindingsError
from classclock.commands.shared.options import add_club
from classclock.commands.shared.terminal import needs_a_terminal
from classclock.live.session_opening import rejoin_session, rejoined_words


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    parser.add_argument("journal", nargs="?", help="its journal; the latest unless named")


def do(asked: argparse.Namespace) -> int:
    needs_a_terminal()
    folder, club = asked_club(asked)
    path = Path(asked.journal) if asked.journal else _latest(folder)
    try:
        session, journal = rejoin_session(path, folder=folder, club=club)
    except (JournalUnreadableError, JournalInUseError, ValueError) as error:
        raise FindingsError(error) from None
    except OSError as error:
        raise FindingsError(f"{path}: this journal can't be read ({error.strerror})") from None
    from classclock.screens.start import show_class  # noqa: PLC0415  textual, once all is in order

    return show_class(session, notice=rejoined_words(journal, session.live.record))


def _latest(folder: Path) -> Path:
    cut_off = unfinished(journals(folder), local_now())
    if not cut_off:
        raise FindingsError(f"no class was cut off in {journals(folder)}: classclock starts one")
    return cut_off[0].path
