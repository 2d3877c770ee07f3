"""The club's settings, read from `club.toml` in its folder."""

from pathlib import Path

from classclock.club.settings_file import settings_text
from classclock.plan.findings import Finding
from classclock.plan.settings.club import Club
from classclock.plan.settings.club_reading import LARGEST, club_in


def read_club(path: Path) -> tuple[Club | None, tuple[Finding, ...]]:
    """Read the club's settings; without a file every setting has its default.

    The club is None if there is any finding. Never raises for what is in the file.
    """
    text = settings_text(path, LARGEST)
    if text is None:
        return Club(), ()
    if isinstance(text, Finding):
        return None, (text,)
    return club_in(text, str(path))
