"""The club's settings: their defaults, what they may say, and what is said of a fault."""

from collections.abc import Callable
from pathlib import Path

import pytest

from classclock.club.settings import read_club
from classclock.plan.care import STOP
from classclock.plan.findings import Finding
from classclock.plan.settings.club import Club
from classclock.plan.settings.club_text import default_club_text
from classclock.strength.bar_loading import load_any_bar
from classclock.units.loads import parse_load

Read = Callable[[str], Club]
FindingsIn = Callable[[str], tuple[Finding, ...]]


@pytest.fixture
def club_in(tmp_path: Path) -> Read:
    def read(text: str) -> Club:
        path = tmp_path / "club.toml"
        path.write_text(text, encoding="utf-8")
        club, findings = read_club(path)
        assert club is not None, findings
        return club

    return read


@pytest.fixture
def club_findings(tmp_path: Path) -> FindingsIn:
    def read(text: str) -> tuple[Finding, ...]:
        path = tmp_path / "club.toml"
        path.write_text(text, encoding="utf-8")
        return read_club(path)[1]

    return read


def test_a_club_that_set_nothing_up_has_bars_and_plates(tmp_path: Path) -> None:
    club, findings = read_club(tmp_path / "club.toml")
    assert findings == ()
    assert club == Club()
    assert [str(bar.weight) for bar in Club().equipment.bars] == ["20 kg", "15 kg"]


@pytest.mark.parametrize("unit", ["kg", "lb"])
def test_the_usual_bars_make_the_usual_loads(unit: str, club_in: Read) -> None:
    equipment = club_in(f'unit = "{unit}"').equipment
    target = parse_load({"kg": "82.5 kg", "lb": "185 lb"}[unit], "kg")
    assert load_any_bar(target, equipment).exact is not None


def test_the_first_settings_file_says_what_holds_without_one(club_in: Read) -> None:
    assert club_in(default_club_text()) == Club()


def test_the_first_settings_file_can_be_in_pounds_with_a_keyboard_map(club_in: Read) -> None:
    keys = {"&": "1", '"': "3", "\\": "4", "é": "2"}
    club = club_in(default_club_text("lb", keys))
    assert club.keyboard.map == keys
    assert club.equipment == Club(unit="lb").equipment
    assert club.unit == "lb"


def test_every_setting_stands_in_the_first_settings_file() -> None:
    written = {line.split("=")[0].strip(" []#") for line in default_club_text().splitlines()}
    assert {field.alias or name for name, field in Club.model_fields.items()} <= written


def test_a_bare_load_is_in_the_clubs_unit(club_in: Read) -> None:
    club = club_in(
        'unit = "lb"\nkettlebells = [35, "16 kg"]\n'
        '[[bar]]\nname = "Long"\nweight = 45\ncount = 3\n'
        '[plates]\npairs = { "45" = 2, "20 kg" = 1 }\ncollar = 5\n'
    )
    assert [str(bell) for bell in club.equipment.kettlebells] == ["35 lb", "16 kg"]
    assert [(str(bar.weight), bar.count) for bar in club.equipment.bars] == [("45 lb", 3)]
    assert [(str(plate), n) for plate, n in club.equipment.pairs] == [("45 lb", 2), ("20 kg", 1)]
    assert str(club.equipment.collar) == "5 lb"


def test_collars_can_be_counted_with_the_usual_plates(club_in: Read) -> None:
    club = club_in('[plates]\ncollar = "2.5 kg"\n')
    assert club.plates.pairs == Club().plates.pairs
    assert str(club.equipment.collar) == "2.5 kg"


def test_equipment_is_counted_whatever_its_name_is_spelled_like(club_in: Read) -> None:
    club = club_in('[equipment]\nBoxes = 4\n"pull-up bars" = 0\ndumbbells = 12\n')
    assert club.inventory == {"box": 4, "pull up bar": 0, "dumbbell": 12}


def test_a_club_can_word_itself_when_to_stop(club_in: Read) -> None:
    assert club_in('name = "Depot"').care.stop == STOP
    assert club_in('[care]\nstop = "Dizzy: stop, sit down."').care.stop == "Dizzy: stop, sit down."


BAR = '[[bar]]\nname = "Long"\nweight = 20\n'
FAULTS = {
    "letters of no such dots": (
        '[tv]\nletters = "eighths"',
        2,
        'letters = "eighths", which is not one of auto, sextants, quadrants, halves',
        'Write letters = "auto"',
    ),
    "an unknown key": ("dumbells = [5]", 1, 'unknown key "dumbells"', 'Write "dumbbells"'),
    "an unknown key of a bar": (f"{BAR}wieght = 5", 4, 'bar: unknown key "wieght"', '"weight"'),
    "an unknown key of the plates": ('[plates]\ncollars = "1"', 2, '"collars"', 'Write "collar"'),
    "no bar at all": ("bar = []", 1, "not a list of one bar or more", "Write [[bar]]"),
    "a bar without a weight": ('[[bar]]\nname = "Long"', 1, '"weight" is missing', "weight ="),
    "a bar without a name": ("[[bar]]\nweight = 20", 1, '"name" is missing', '"20 kg bar"'),
    "a bar of no weight": ('[[bar]]\nname = "Long"\nweight = 0', 3, "weight = 0", '"20 kg"'),
    "a count of none": (f"{BAR}count = 0", 4, "count = 0", "Write count = 2"),
    "a bar that is a number": ("bar = 3", 1, "bar = 3", "Write [[bar]]"),
    "a dumbbell that is no load": ('dumbbells = [5, "x"]', 1, 'holds "x"', "Write dumbbells"),
    "dumbbells that are a number": ("dumbbells = 3", 1, "a list of loads", "Write dumbbells"),
    "plates that are a number": ("plates = 3", 1, "not a table", "Write [plates]"),
    "pairs that are a number": ("[plates]\npairs = 3", 2, "pairs = 3", 'Write pairs = { "20"'),
    "a plate that is no load": ('[plates]\npairs = { "x" = 1 }', 2, '"x" is not a load', "pairs"),
    "no pair of a plate": ('[plates]\npairs = { "20" = 0 }', 2, "pairs holds 0", "Write pairs"),
    "half a pair": ('[plates]\npairs = { "20" = 1.5 }', 2, "holds 1.5", "Write pairs"),
    "a plate listed twice": (
        '[plates]\npairs = { "20" = 1, "20 kg" = 2 }',
        2,
        "the 20 kg plates stand in it twice",
        "Write pairs",
    ),
    "no words for when to stop": ('[care]\nstop = ""', 2, "not text of 80 letters", "Write stop ="),
    "too many words for when to stop": (
        f'[care]\nstop = "{"Dizzy: stop. " * 7}"',
        2,
        "not text of 80 letters at most",
        'Write stop = "Dizzy, chest pain',
    ),
    "when to stop misspelt": ('[care]\nstopp = "Dizzy: stop."', 2, '"stopp"', 'Write "stop"'),
    "half a box": ("[equipment]\nboxes = 1.5", 2, "equipment holds 1.5", "{ boxes = 4, rowers"),
    "dumbbells by weight": (
        '[equipment]\ndumbbells = "x"',
        2,
        'equipment holds "x", which is not pieces and how many',
        "Write equipment = { boxes = 4",
    ),
    "a box under two names": (
        "[equipment]\nbox = 1\nboxes = 2",
        1,
        '"boxes" stands in it twice',
        "Write equipment = {",
    ),
    "more equipment than a gym holds": (
        "[equipment]\n" + "".join(f"sled{'x' * n} = 1\n" for n in range(61)),
        1,
        "equipment has 61 entries, 60 is the most",
        "Leave 60 of them",
    ),
    "equipment misspelt": ("[equipmnt]\nboxes = 1", 1, 'unknown key "equipmnt"', '"equipment"'),
    "an unknown unit": ('unit = "st"', 1, "not one of kg, lb", 'Write unit = "kg"'),
    "a unit that is a number": ("unit = 3\ndumbbells = [5]", 1, "unit = 3", 'Write unit = "kg"'),
}


@pytest.mark.parametrize(("text", "line", "what", "instead"), FAULTS.values(), ids=FAULTS)
def test_a_fault_is_named_with_its_line_and_what_to_write(
    club_findings: FindingsIn, text: str, line: int, what: str, instead: str
) -> None:
    (finding,) = club_findings(text)
    assert finding.line == line
    assert what in str(finding)
    assert instead in finding.instead


def test_all_faults_are_named_at_once(club_findings: FindingsIn) -> None:
    found = club_findings(f'unit = "st"\n{BAR}count = 0\nlength = 3\n[tv]\ninches = "x"')
    assert [finding.line for finding in found] == [1, 5, 6, 8]


@pytest.mark.parametrize(
    ("text", "instead"),
    [
        ("[emergency]\ncall = 911", 'Write call = "911"'),
        ("[emergency]\ncall = true", 'Write call = "the number you call here"'),
        ("[equipment]\npull up bars = 4", 'Write "pull up bars" = 4'),
        ("equipment = { pull up bars = 4 }", 'Write equipment = { "pull up bars" = 4 }'),
        ("[plates]\npairs = { 20 kg = 2 }", 'Write pairs = { "20 kg" = 2 }'),
        ("[tv]\nmirrored = no", "Write mirrored = false"),
        ("[care]\nstop = Dizzy? Stop.", 'Write stop = "Dizzy? Stop."'),
    ],
)
def test_what_a_message_says_can_be_copied_into_the_settings(
    club_findings: FindingsIn, club_in: Read, text: str, instead: str
) -> None:
    (finding,) = club_findings(text)
    assert finding.instead == instead
    heading = text.rpartition("\n")[0]
    club_in(f"{heading}\n{instead.removeprefix('Write ')}")


def test_no_countrys_number_is_given_as_the_one_to_call(club_findings: FindingsIn) -> None:
    for value in ("[]", "true", "1.5", '"\\u001b"'):
        assert all("112" not in str(one) for one in club_findings(f"[emergency]\ncall = {value}"))
