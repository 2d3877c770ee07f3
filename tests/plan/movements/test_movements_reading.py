"""Reading the club's movements: all faults at once, each with its line and what to write."""

from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from classclock.club.movements import read_library
from classclock.plan.findings import Finding
from classclock.plan.movements.library import LARGEST, Library
from classclock.plan.movements.starter_library import starter_library
from classclock.plan.reading.plan_reading import parse_plan
from classclock.units.printable import can_be_shown

Reader = Callable[[str | bytes], tuple[Library | None, tuple[Finding, ...]]]


@pytest.fixture
def read(tmp_path: Path) -> Reader:
    def reading(text: str | bytes) -> tuple[Library | None, tuple[Finding, ...]]:
        path = tmp_path / "movements.toml"
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return read_library(path)

    return reading


TURN = '[[movement]]\nname = "points turn"\npattern = "carry"\n'
FAULTS = {
    "an unknown key": (f'{TURN}patern = "squat"', 4, 'key "patern"', 'Write "pattern"'),
    "a key like no other": (f"{TURN}xyzzy = 5", 4, '"xyzzy"', "what goes here: name"),
    "an unknown key of the file": ("startr = false\n", 1, '"startr"', 'Write "starter"'),
    "an unknown key of an option": (
        f'{TURN}options = [{{ name = "half", lod = 5 }}]',
        4,
        '"lod"',
        "what goes here: name, standard",
    ),
    "no pattern": ('[[movement]]\nname = "points turn"', 1, '"pattern" is missing', "Write patt"),
    "no name": ('[[movement]]\npattern = "carry"', 1, '"name" is missing', "Write name"),
    "an unknown pattern": (
        '[[movement]]\nname = "a"\npattern = "sqat"',
        3,
        'pattern = "sqat", which is not one of squat, hinge',
        'Write pattern = "squat"',
    ),
    "an unknown unit": (f'{TURN}counted_in = ["meters"]', 4, '"meters"', '["metres"]'),
    "a unit without brackets": (f'{TURN}counted_in = "reps"', 4, '"reps"', 'in = ["reps"]'),
    "no unit": (f"{TURN}counted_in = []", 4, '"counted_in" is empty', "or take it out"),
    "a piece without its number": (f'{TURN}equipment = ["bar"]', 4, "equipment", "dumbbells = 2"),
    "no piece of a kind": (f"{TURN}equipment = {{ bar = 0 }}", 4, "holds 0", "dumbbells = 2"),
    "one piece under two names": (
        f"{TURN}equipment = {{ box = 1, boxes = 1 }}",
        4,
        "equipment: each piece of equipment once, by its name",
        "dumbbells = 2",
    ),
    "four points": (f'{TURN}points = ["a", "b", "c", "d"]', 4, "three texts at most", "points ="),
    "an empty standard": (f'{TURN}standard = ""', 4, '"standard" is empty', "or take it out"),
    "an option that is a number": (f"{TURN}options = [5]", 4, "holds 5", "Write options"),
    "a name twice": (
        f'{TURN}[[movement]]\nname = "Points Turns"\npattern = "pull"',
        5,
        "is the name of a movement above",
        "Take one of the two out",
    ),
    "an alias that is taken": (
        f'{TURN}[[movement]]\nname = "bell"\npattern = "pull"\naliases = ["points-turn"]',
        7,
        "is the name of a movement above",
        "Take one of the two out",
    ),
    "two that are each other's option": (
        (
            f'{TURN}options = ["bell"]\n[[movement]]\nname = "bell"\npattern = "pull"\n'
            'options = [{ name = "Points turns" }]'
        ),
        8,
        '"Points turns" is an option of it, and it is an option of that one',
        "take it out of the options of the easier",
    ),
    "one that is its own option's option by another name": (
        (
            f'{TURN}aliases = ["turner"]\noptions = ["bell"]\n[[movement]]\nname = "bells"\n'
            'pattern = "pull"\noptions = ["turner"]'
        ),
        9,
        '"turner" is an option of it, and it is an option of that one',
        "take it out of the options of the easier",
    ),
    "the easier of two that come with classclock, turned round": (
        '[[movement]]\nname = "ring row"\npattern = "pull"\noptions = ["pull-up"]',
        4,
        '"pull-up" is an option of it, and it is an option of that one',
        "take it out of the options of the easier",
    ),
    "movements that are a number": ("movement = 5", 1, "movement = 5", "Write [[movement]]"),
    "pieces without quotes": (
        f"{TURN}equipment = pull up bars",
        4,
        "pull up bars is not pieces and how many one person needs",
        'Write equipment = { "pull up bars" = 1 }',
    ),
    "a piece of two words without quotes": (
        f"{TURN}equipment = {{ pull up bars = 1 }}",
        4,
        "pull up bars has spaces and no quotes",
        'Write equipment = { "pull up bars" = 1 }',
    ),
    "a line that isn't TOML": (f"{TURN}standard = all the way", 4, "no quotes", 'standard = "all'),
}


@pytest.mark.parametrize(("text", "line", "what", "instead"), FAULTS.values(), ids=FAULTS)
def test_a_fault_is_named_with_its_line_and_what_to_write(
    read: Reader, text: str, line: int, what: str, instead: str
) -> None:
    library, (finding,) = read(text)
    assert library is None
    assert finding.line == line
    assert what in str(finding)
    assert instead in finding.instead


def test_all_faults_are_named_at_once_with_their_movement(read: Reader) -> None:
    library, found = read(f'{TURN}points = 5\n[[movement]]\npattern = "x"\nstarter = true')
    assert library is None
    assert [(one.line, one.segment) for one in found] == [
        (4, "points turn"),
        (5, "movement 2"),
        (6, "movement 2"),
        (7, "movement 2"),
    ]


def test_without_a_file_the_starter_is_the_library(tmp_path: Path) -> None:
    library, findings = read_library(tmp_path / "movements.toml")
    assert findings == ()
    assert library is starter_library()


def test_a_clubs_movement_can_be_as_short_as_a_name_and_a_pattern(read: Reader) -> None:
    library, findings = read(TURN)
    assert findings == ()
    assert library is not None
    turn, row = library.find("points turns"), library.find("row")
    assert turn is not None
    assert turn.counted_in == ("reps",)
    assert row is not None


def test_a_club_can_do_without_the_starter(read: Reader) -> None:
    library, findings = read(f"starter = false\n{TURN}")
    assert findings == ()
    assert library is not None
    assert [one.name for one in library.movements] == ["points turn"]


def test_a_file_that_cant_be_read_is_said(read: Reader, tmp_path: Path) -> None:
    assert "not UTF-8" in str(read(b"\xff\xfe")[1][0])
    assert "too large" in str(read("#" * (LARGEST + 1))[1][0])
    assert "can't be read" in str(read_library(tmp_path)[1][0])


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=60)
@given(st.text() | st.binary() | st.sampled_from([text for text, *_ in FAULTS.values()]))
def test_whatever_the_file_holds_there_is_a_library_or_a_finding(
    read: Reader, text: str | bytes
) -> None:
    library, findings = (
        read(text) if isinstance(text, bytes) else read(text.encode("utf-8", "replace"))
    )
    assert (library is None) == bool(findings)
    assert all(can_be_shown(str(one)) and one.instead for one in findings)


STATION = (
    'title = "Depot"\n[[segment]]\nname = "Turntable"\nformat = "rounds-in-time"\ntime = "9:00"\n'
    "[[segment.station]]\nreps = 5\nmovement = "
)


def test_an_unknown_movement_is_a_hint_with_the_nearest_name() -> None:
    plan, (hint,) = parse_plan(f'{STATION}"goblet sqat"', "d.toml", "kg", starter_library())
    assert plan is not None
    assert (hint.level, hint.line, hint.segment) == ("hint", 8, "Turntable")
    assert hint.instead.startswith('Write "goblet squat"')
    plan, (hint,) = parse_plan(f'{STATION}"xyzzy"', "d.toml", "kg", starter_library())
    assert plan is not None
    assert 'standard = "…"' in hint.instead


def test_a_known_movement_or_one_with_its_own_standard_is_no_matter_for_a_hint() -> None:
    for movement in ('"Goblet Squats"', '"xyzzy"\nstandard = "to the points and back"'):
        assert parse_plan(STATION + movement, "d.toml", "kg", starter_library())[1] == ()
    assert parse_plan(f'{STATION}"xyzzy"', "d.toml")[1] == (), "without a library nobody knows"
