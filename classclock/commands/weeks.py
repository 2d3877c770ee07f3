"""The command `weeks`: what was done this week and in the four before, what is planned."""

import shutil
from pathlib import Path

from classclock.book.asking.weeks_reading import read_weeks
from classclock.clock.source import local_now
from classclock.commands.headless import OK, print_json
from classclock.plan.movements.library import Library
from classclock.planning.weeks import weeks_until
from classclock.report.weeks_text import weeks_lines, weeks_values
from classclock.units.loads import Unit


def show_weeks(folder: Path, library: Library, unit: Unit, *, as_json: bool) -> int:
    """Print them as bars, or as JSON."""
    today = local_now().date()
    read = read_weeks(folder, today, unit)
    weeks = weeks_until(today, read.held, read.planned, library)
    if as_json:
        print_json(weeks_values(weeks, read.without_plan))
    else:
        width = shutil.get_terminal_size((100, 24)).columns
        print("\n".join(weeks_lines(weeks, width, read.without_plan)))
    return OK
