import json
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from classclock.book.asking.known_people import known_people, piece_name
from classclock.plan.reading.plan_reading import parse_plan
from tests.blank_results import LANE, PIECE


def person(name: str, key: str) -> dict[str, str]:
    return {"id": name.lower(), "name": name, "key": key}


def lane(*members: str, options: list[str | None]) -> dict[str, Any]:
    return {**LANE, "members": list(members), "options": options}


@pytest.fixture
def save(tmp_path: Path) -> Any:
    def write(day: str, people: list[dict[str, str]], lanes: list[dict[str, Any]]) -> None:
        piece = {**PIECE, "name": "Turntable", "benchmark": "turntable", "lanes": lanes}
        document = {
            "title": "Turntable Tuesday",
            "started": f"{day}T18:30:00+01:00",
            "journal": f"{day}.jsonl",
            "people": people,
            "pieces": [piece],
        }
        (tmp_path / f"{day}-1830-turntable.json").write_text(json.dumps(document))

    return write


def test_who_came_last_stands_first_with_how_often_and_when(save: Any, tmp_path: Path) -> None:
    save("2026-02-10", [person("Ilse", "i"), person("Bram", "b")], [])
    save("2026-03-03", [person("Noor", "n"), person("Ilse", "i")], [])
    known = known_people(tmp_path)
    assert [one.name for one in known] == ["Noor", "Ilse", "Bram"]
    assert [one.classes for one in known] == [1, 2, 1]
    assert [one.last for one in known] == [date(2026, 3, 3), date(2026, 3, 3), date(2026, 2, 10)]


def test_what_somebody_used_last_in_a_piece_is_remembered(save: Any, tmp_path: Path) -> None:
    save("2026-02-10", [person("Ilse", "i")], [lane("ilse", options=["lower box", None])])
    save("2026-03-03", [person("Ilse", "i")], [lane("ilse", options=["step-up", None])])
    (ilse,) = known_people(tmp_path)
    assert ilse.modifications == {"turntable": ("step-up", None)}


def test_a_team_s_options_are_remembered_for_each_of_them(save: Any, tmp_path: Path) -> None:
    both = [person("Ilse", "i"), person("Bram", "b")]
    save("2026-03-03", both, [lane("ilse", "bram", options=["step-up"])])
    assert all(one.modifications["turntable"] == ("step-up",) for one in known_people(tmp_path))


def test_the_latest_name_and_key_hold(save: Any, tmp_path: Path) -> None:
    save("2026-02-10", [{"id": "1", "name": "Noor", "key": "n"}], [])
    save("2026-03-03", [{"id": "1", "name": "Noor B", "key": "o"}], [])
    (noor,) = known_people(tmp_path)
    assert (noor.name, noor.key) == ("Noor B", "o")


@pytest.mark.parametrize(
    "text",
    [
        "",
        "{",
        "[]",
        '{"title": "x"}',
        '{"title": "x", "started": "yesterday", "journal": "j", "pieces": [], "people": []}',
        (
            '{"title": "x", "started": "2026-03-03", "journal": "j", "pieces": [3, {"name": 4}],'
            ' "people": [null, {"id": 7}, {"id": "a", "name": " ", "key": "a"}]}'
        ),
    ],
)
def test_a_file_that_is_no_results_file_is_passed_over(
    text: str, save: Any, tmp_path: Path
) -> None:
    save("2026-03-03", [person("Ilse", "i")], [])
    (tmp_path / "2026-09-09-odd.json").write_text(text)
    assert [one.name for one in known_people(tmp_path)] == ["Ilse"]


def test_a_key_that_is_no_letter_is_forgotten(save: Any, tmp_path: Path) -> None:
    save("2026-03-03", [person("Ilse", "1")], [])
    assert known_people(tmp_path)[0].key == ""


def test_without_a_folder_nobody_is_known(tmp_path: Path) -> None:
    assert known_people(tmp_path / "none") == ()


def test_a_piece_is_remembered_by_its_benchmark_or_else_its_name() -> None:
    text = 'title = "T"\n' + "".join(
        f'[[segment]]\nname = "{name}"\nformat = "rounds-in-time"\ntime = "8:00"\n{more}'
        '[[segment.station]]\nmovement = "row"\nreps = 5\n'
        for name, more in (("Headway", 'benchmark = "headway-8"\n'), ("Sandbox", ""))
    )
    plan, _ = parse_plan(text, "t.toml")
    assert plan is not None
    assert [piece_name(segment) for segment in plan.segment] == ["headway-8", "sandbox"]
