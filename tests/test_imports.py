"""What a command really loads: a contract on paper misses what is imported inside a function."""

import subprocess
import sys
from pathlib import Path

import pytest

from benchmarks.programs import PLAN

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


NOT_BEFORE_THE_FIRST_PAINT = (
    "classclock.book.changing",
    "classclock.book.files.changes",
    "classclock.book.files.results_writing",
    "classclock.book.files.saved_results",
    "classclock.book.tables",
    "classclock.drafts",
    "classclock.live.desk",
    "classclock.planning.cap_fit",
    "classclock.records.document",
    "classclock.report",
    "classclock.screens.flows",
    "classclock.screens.following",
    "classclock.screens.pages",
    "classclock.strength.class_loads",
    "classclock.tally.keys",
    *("miniaudio", "sqlalchemy", "tree_sitter", "wakepy"),
)
"""What the board of a plan without lifts does without, in a club that remembers nobody yet."""


def test_a_board_waits_for_nothing_that_it_does_without(tmp_path: Path) -> None:
    plan = tmp_path / "measured.toml"
    plan.write_text(PLAN, "utf-8")
    script = (
        "import sys\n"
        "from pathlib import Path\n"
        "from classclock.commands import run\n"
        "from classclock.commands.shared.plan import asked_plan\n"
        "from classclock.plan.settings.club import Club\n"
        "from classclock.screens import start\n"
        "from classclock.screens.app import ClassclockApp\n"
        "from classclock.screens.class_flow import run_class\n"
        f"folder = Path({str(tmp_path)!r})\n"
        f"read, _ = run.filled_in(asked_plan({str(plan)!r}, 'kg'), folder)\n"
        "session = run.open_for(read, ['Ilse', 'Bram'], folder=folder, club=Club())\n"
        "print(' '.join(sys.modules))\n"
        "session.close()"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True, timeout=60
    )
    loaded = done.stdout.split()
    assert "classclock.screens.live.board.board_view" in loaded
    within = tuple(f"{room}." for room in NOT_BEFORE_THE_FIRST_PAINT)
    assert not [name for name in loaded if f"{name}.".startswith(within)], (
        "load it where it is asked for"
    )
