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


PURE = ("units", "plan", "clock", "strength", "tally", "records", "planning")


@pytest.mark.parametrize("room", PURE)
def test_a_pure_room_loads_nothing_that_waits_draws_or_stores(room: str) -> None:
    code = (
        "import importlib, pkgutil\n"
        f"import classclock.{room} as room\n"
        "for one in pkgutil.walk_packages(room.__path__, room.__name__ + '.'):\n"
        "    if one.name != 'classclock.clock.engine':  # the one place in them that waits\n"
        "        importlib.import_module(one.name)"
    )
    assert not loaded_by(code) & {"textual", "rich", "sqlalchemy", "PIL", "asyncio"}


@pytest.mark.parametrize(
    "module", ["plan.reading.plan_reading", "tally.decide", "tally.keys.key_language"]
)
def test_what_every_class_needs_is_light(module: str) -> None:
    assert not loaded_by(f"import classclock.{module}") & {*HEAVY, "asyncio"}


def test_a_load_is_lighter_still() -> None:
    assert not loaded_by("import classclock.units.loads") & {*HEAVY, "asyncio", "pydantic"}


@pytest.mark.parametrize(
    "line", [["check", "turntable", "--json"], ["bar", "82.5"], ["load", "100"], ["schema"]]
)
def test_a_question_that_needs_no_screen_and_no_book_loads_neither(line: list[str]) -> None:
    code = f"from classclock.commands.command_line import main\nmain({line})"
    assert not loaded_by(code) & set(HEAVY)


def test_a_rehearsal_loads_no_screen_and_no_sound() -> None:
    code = (
        "from classclock.club.plan_files import plan_path, read_plan\n"
        "from classclock.live.rehearsal import rehearse, piece_called\n"
        "plan, _ = read_plan(plan_path('turntable'))\n"
        "index = piece_called(plan, 'Turntable')\n"
        "rehearse(plan, ('Ilse',), (), segment=index, unit='kg')"
    )
    assert not loaded_by(code) & set(HEAVY)


def test_a_session_loads_no_database() -> None:
    assert "sqlalchemy" not in loaded_by("import classclock.live.session_opening")


@pytest.mark.parametrize(
    "screen",
    [
        *("start", "live.class_screen", "following.following_screen"),
        *("pages.who.who_screen", "pages.home.home_screen"),
    ],
)
def test_no_screen_before_or_in_a_class_loads_a_database_by_itself(screen: str) -> None:
    assert "sqlalchemy" not in loaded_by(f"import classclock.screens.{screen}")


def test_a_class_is_followed_without_a_terminal() -> None:
    code = "import classclock.following.follower, classclock.wall.seen.started_content"
    assert not loaded_by(code) & set(HEAVY)


def test_people_are_known_again_without_a_database() -> None:
    code = (
        "from pathlib import Path\n"
        "from classclock.book.asking.people_reading import in_files, people_called\n"
        "people_called(('Ilse',), in_files(Path('no such club')))"
    )
    assert "sqlalchemy" not in loaded_by(code)


def test_no_page_is_loaded_before_it_is_opened() -> None:
    script = "import classclock.screens.flows, sys\nprint(' '.join(sys.modules))"
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True, timeout=60
    )
    loaded = done.stdout.split()
    assert "classclock.screens.ways" in loaded
    assert not [name for name in loaded if name.startswith("classclock.screens.pages")]
