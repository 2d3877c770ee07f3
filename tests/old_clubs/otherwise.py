"""What is said otherwise than in version 1, on purpose: the files of `said/` stay as they are."""

from fnmatch import fnmatch
from typing import NamedTuple


class Otherwise(NamedTuple):
    files: str
    """Which files of `said/`, as a pattern."""
    lines: tuple[str, ...]
    """The differences that are meant, each as it is reported."""
    why: str


OTHERWISE = (
    Otherwise(
        "*/said/*report*.txt",
        (
            "+ ",
            "+ Chest pain, fainting, dark urine after very hard work: an emergency, get help at once.",  # noqa: E501
            "+ Pain, dizziness, illness: rest, and ask your doctor or therapist before the next hard piece.",  # noqa: E501
            "- Bests are compared between equal options and loads only. Pain, dizziness or illness: rest, and ask your doctor or therapist before the next hard piece.",  # noqa: E501
            "+ Bests are compared between equal options and loads only.",
            "- Step down from the box, don't jump.",
        ),
        "a report ends with what is an emergency, and says a caution of several pieces once",
    ),
    Otherwise(
        "west-hall/said/33-report-html.txt",
        (
            *("- Noor + Bram", "- Ilse + Ilsa", "- Zoë + Мария"),
            *("+ Noor +", "+ Bram", "+ Ilse +", "+ Ilsa", "+ Zoë +", "+ Мария"),
        ),
        "a page breaks a team's names into lines behind its plus signs alone",
    ),
    Otherwise(
        "east-shed/said/3?-load-1*.txt",
        (
            "-    95 %  81 lb  10 + 10 + 2.5 a side, then the collar  (1.99 lb short)",
            "-   100 %  86 lb  25 a side, then the collar  (1.35 lb short)",
            "+ ",
            "+ above 90 %: only of a load that was lifted once",
            "stdout.lifts[0].sets has 9 entries, then 11",
        ),
        "the list of an estimated maximum ends at 90 %: nobody has lifted the rest yet",
    ),
    Otherwise(
        "night-yard/said/*-replay-*-siding.txt",
        (
            "+ The class wasn't closed: its journal ends at 20:06:20.",
            "+ The class wasn't closed: its journal ends at 20:05:21.",
        ),
        "what came after the end of a journal that nobody closed is not known, and that is said",
    ),
    Otherwise(
        "night-yard/said/*-replay-2026-01-29-2000-siding.txt",
        ('+ " Bram: round 5 in 0:14 is very short',),
        "of scores that nobody settled it is said what was to be looked at",
    ),
    Otherwise(
        "night-yard/said/after-erasing/0[23]-*.txt",
        (
            "+   would be removed: {club}/book-v2.sqlite",
            "+   removed: {club}/book-v2.sqlite",
        ),
        "the book's tables have another version: the one of then was kept beside, and goes",
    ),
    Otherwise(
        "*/said/1?-replay-2026-0*-json.txt",
        ("stdout.people has 7 entries, then 6",),
        "who left is named among the people, with the piece after which they did",
    ),
)


def meant(difference: str) -> bool:
    """Whether a difference, reported as `file: line`, is one of these."""
    file, _, line = difference.partition(": ")
    return any(fnmatch(file, one.files) and line in one.lines for one in OTHERWISE)
