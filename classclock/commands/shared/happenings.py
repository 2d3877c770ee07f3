"""What happened in a class beside what was counted, for the command that asks for it."""

from pathlib import Path

from classclock.book.files.journal import JournalUnreadableError, read_journal
from classclock.commands.shared.exit_status import FindingsError
from classclock.commands.shared.printing import say_wrong
from classclock.live.replaying import before_it_opened
from classclock.plan.settings.club import Club
from classclock.report.happenings import Happenings, happenings


def told_of(path: Path, club: Club) -> Happenings:
    """From the journal with this path. Raises FindingsError: it can't be read."""
    try:
        journal = read_journal(path)
        told = happenings(journal, before_it_opened(journal), club.name, club.emergency.address)
    except JournalUnreadableError as error:
        raise FindingsError(error) from None
    except (LookupError, ArithmeticError, TypeError, ValueError) as error:
        raise FindingsError(f"{path}: its events can't be told: {error}") from None
    except OSError as error:
        raise FindingsError(f"{path}: this journal can't be read ({error.strerror})") from None
    if journal.moved is not None:
        say_wrong(f"{path}: this class went on in {journal.moved.to}")
    return told
