"""`weeks`: what was done this week and in the four before, and what is planned."""

import argparse
import shutil

from classclock.book.asking.weeks_reading import read_weeks
from classclock.clock.source import local_now
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import OK
from classclock.commands.shared.movements import known_movements
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.printing import print_json
from classclock.machine.standard_streams import say
from classclock.planning.weeks import weeks_until
from classclock.report.weeks_text import weeks_lines, weeks_values


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)


def do(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    library = known_movements(folder)
    today = local_now().date()
    read = read_weeks(folder, today, club.unit)
    weeks = weeks_until(today, read.held, read.planned, library)
    if asked.json:
        print_json(weeks_values(weeks, read.without_plan))
    else:
        width = shutil.get_terminal_size((100, 24)).columns
        say(*weeks_lines(weeks, width, read.without_plan))
    return OK
