"""What a command really loads: a contract on paper misses what is imported inside a function."""

import subprocess
import sys

import pytest

HEAVY = ("textual", "rich", "sqlalchemy", "PIL", "tree_sitter", "miniaudio", "scipy")


def loaded_by(code: str) -> set[str]:
    script = f"{code}\nimport sys\nprint(' '.join(sys.modules))"
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True, timeout=60
    )
    return {name.partition(".")[0] for name in done.stdout.splitlines()[-1].split()}


@pytest.mark.parametrize("room", ["plan.reading", "clock.formats", "tally.decide", "tally.keys"])
def test_a_pure_room_loads_nothing_that_waits_draws_or_stores(room: str) -> None:
    loaded = loaded_by(f"import classclock.{room}")
    assert not loaded & {*HEAVY, "asyncio"}


def test_strength_is_pure() -> None:
    assert not loaded_by("import classclock.strength.loads") & {*HEAVY, "asyncio", "pydantic"}


def test_checking_a_plan_that_has_no_faults_loads_no_screen() -> None:
    code = "from classclock.cli import main\nmain(['check', 'turntable', '--json'])"
    assert not loaded_by(code) & set(HEAVY)


def test_a_rehearsal_loads_no_screen_and_no_sound() -> None:
    code = (
        "from classclock.plan.reading import read_plan\n"
        "from classclock.headless import plan_path\n"
        "from classclock.rehearsal import rehearse, piece_called\n"
        "plan, _ = read_plan(plan_path('turntable'))\n"
        "index = piece_called(plan, 'Turntable')\n"
        "rehearse(plan, ('Ilse',), (), segment=index, unit='kg')"
    )
    assert not loaded_by(code) & set(HEAVY)


def test_a_session_loads_no_database() -> None:
    assert "sqlalchemy" not in loaded_by("import classclock.session_opening")


@pytest.mark.parametrize("screen", ["start", "class_screen", "who_screen", "home_screen"])
def test_no_screen_before_or_in_a_class_loads_a_database_by_itself(screen: str) -> None:
    assert "sqlalchemy" not in loaded_by(f"import classclock.screens.{screen}")


def test_people_are_known_again_without_a_database() -> None:
    code = (
        "from pathlib import Path\n"
        "from classclock.people_reading import in_files, people_called\n"
        "people_called(('Ilse',), in_files(Path('no such club')))"
    )
    assert "sqlalchemy" not in loaded_by(code)
