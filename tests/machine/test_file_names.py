"""Names that become files: as they always were, and possible on every system.

Microsoft's "Naming Files, Paths, and Namespaces": CON, PRN, AUX, NUL, COM0 to COM9, LPT0 to LPT9
are no file's name, whatever the ending; nor may one hold <>:"/\\|?* or end in a dot or a space.
"""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.machine.file_names import file_safe, whole_name

RESERVED = re.compile(r"(con|prn|aux|nul|com[0-9]|lpt[0-9])(\..*)?", re.IGNORECASE)
FORBIDDEN = re.compile(r'[<>:"/\\|?*\x00-\x1f]|[. ]$')


@pytest.mark.parametrize(
    ("name", "file"),
    [
        ("Week 9, Tuesday", "week-9-tuesday"),
        ("../Week 9", "week-9"),
        ("Überblick: 7:30", "uberblick-7-30"),
        ("", "class"),
        ("Con", "con"),
        ("x" * 80, "x" * 60),
    ],
)
def test_a_part_of_a_file_s_name_is_as_it_always_was(name: str, file: str) -> None:
    assert file_safe(name) == file


@pytest.mark.parametrize(
    ("title", "file"),
    [
        ("CON", "plan-con"),
        ("nul", "plan-nul"),
        ("Com 1", "com-1"),
        ("COM¹", "plan-com1"),
        ("LPT9", "plan-lpt9"),
        ("Console", "console"),
        ("Turntable", "turntable"),
    ],
)
def test_no_plan_is_called_as_a_device_of_windows(title: str, file: str) -> None:
    assert whole_name(title, "plan") == file


@given(st.text())
def test_every_title_makes_a_file_that_is_possible_everywhere(title: str) -> None:
    name = f"{whole_name(title, 'plan')}.toml"
    assert not RESERVED.fullmatch(name)
    assert not FORBIDDEN.search(name)
    assert len(name.encode()) <= 255
