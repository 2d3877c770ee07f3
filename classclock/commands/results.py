"""`results`: the scores of the latest class."""

import argparse

from classclock.book.files.saved_results import DamagedResultsError, ResultsError, newest
from classclock.club import folder
from classclock.commands.shared.book import meet_other_rooms
from classclock.commands.shared.exit_status import OK, FindingsError
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.results import print_results
from classclock.units.printable import printable


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)


def do(asked: argparse.Namespace) -> int:
    club = folder.club_folder(asked.club)
    meet_other_rooms(club)
    results = folder.results(club)
    try:
        found = newest(results)
    except DamagedResultsError as error:
        raise FindingsError(
            f"the newest results file in {results} is damaged: `classclock replay` works the"
            f" scores out again from its journal, {printable(error.journal)}"
        ) from None
    except ResultsError as error:
        raise FindingsError(error) from None
    if found is None:
        raise FindingsError(
            f"no results in {results} yet: they are saved there when a class's cap ends"
        )
    print_results(found, as_json=asked.json)
    return OK
