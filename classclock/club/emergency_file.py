"""The emergency card written to the club's settings, whether they are there yet or not."""

from pathlib import Path

from classclock.club.settings_file import settings_text
from classclock.machine.whole_file import write_whole
from classclock.plan.findings import Finding
from classclock.plan.settings.club import Emergency
from classclock.plan.settings.club_card import with_card
from classclock.plan.settings.club_reading import LARGEST, club_in
from classclock.plan.settings.club_text import default_club_text
from classclock.units.printable import printable


def write_card(path: Path, card: Emergency) -> None:
    """Put the card into the settings at this path, or write the first settings with it.

    Raises:
        OSError: the file can't be written.
        ValueError: what stands there is faulty; in words, the first thing to put right.
    """
    text = settings_text(path, LARGEST)
    if text is None:
        text = default_club_text()
    if isinstance(text, Finding):
        raise _refusal(text)
    _, findings = club_in(text, str(path))
    if findings:
        raise _refusal(findings[0])
    write_whole(path, with_card(text, card).encode())


def _refusal(fault: Finding) -> ValueError:
    where = f", line {fault.line}" if fault.line else ""
    return ValueError(printable(f"put club.toml right first{where}: {fault.what}", 200))
