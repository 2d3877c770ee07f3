"""What a module's name says, as DEVELOPERS.md lists it, is what is in it."""

import ast
import importlib
import inspect
import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType

import pytest
from textual.screen import Screen
from textual.widget import Widget

import classclock

ROOT = Path(classclock.__file__).parent
MODULES = sorted(path for path in ROOT.rglob("*.py") if not path.stem.startswith("__"))
ROOMS = sorted(path for path in ROOT.rglob("__init__.py") if path.parent != ROOT)
SECTION = "## What a module's name says"
MOST_IN_A_FOLDER = 25


def ending(path: Path) -> str:
    """The last word of a name that has several; empty where it has one."""
    return path.stem.rpartition("_")[2] if "_" in path.stem else ""


def ending_in(*words: str) -> list[Path]:
    return [path for path in MODULES if ending(path) in words]


def short(path: Path) -> str:
    return str(path.relative_to(ROOT))


def imported(path: Path) -> Iterator[str]:
    """All that a module names in its imports, those inside functions too."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (name.name for name in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module is not None:
            yield node.module


def known(path: Path, *packages: str) -> list[str]:
    return [
        name
        for name in imported(path)
        if any(name == one or name.startswith(f"{one}.") for one in packages)
    ]


def classes_of(path: Path, kind: type) -> list[str]:
    """The classes of this kind that a module makes itself."""
    name = ".".join(path.relative_to(ROOT.parent).with_suffix("").parts)
    module: ModuleType = importlib.import_module(name)
    made = (one for _, one in inspect.getmembers(module, inspect.isclass))
    return [one.__name__ for one in made if one.__module__ == name and issubclass(one, kind)]


def listed() -> set[str]:
    text = (ROOT.parent / "DEVELOPERS.md").read_text("utf-8")
    section = text.partition(SECTION)[2].partition("\n## ")[0]
    return set(re.findall(r"`_([a-z]+)`", section))


def test_every_ending_that_two_modules_share_is_listed_and_every_one_listed_is_used() -> None:
    used = Counter(map(ending, MODULES))
    shared = {word for word, times in used.items() if word and times > 1}
    assert shared - listed() == set(), f"say in DEVELOPERS.md, {SECTION!r}, what these mean"
    assert listed() - set(used) == set(), f"no module ends so: take it out of {SECTION!r}"


@pytest.mark.parametrize("path", ending_in("desk", "list", "words", "reading"), ids=short)
def test_what_is_decided_or_said_knows_no_widget_and_no_cell(path: Path) -> None:
    assert known(path, "textual", "rich", "classclock.screens.canvas") == []


@pytest.mark.parametrize("path", ending_in("content"), ids=short)
def test_what_is_shown_is_plain_values(path: Path) -> None:
    assert known(path, "textual", "classclock.screens") == []


@pytest.mark.parametrize("path", ending_in("drawing", "layout", "lines"), ids=short)
def test_what_is_drawn_knows_no_widget(path: Path) -> None:
    assert known(path, "textual", "classclock.screens.canvas.painted") == []


@pytest.mark.parametrize("path", ending_in("drawing"), ids=short)
def test_a_drawing_draws(path: Path) -> None:
    tree = ast.parse(path.read_text("utf-8"))
    names = [node.name for node in tree.body if isinstance(node, ast.FunctionDef)]
    assert [name for name in names if name.startswith("draw_")]


@pytest.mark.parametrize("path", ending_in("desk"), ids=short)
def test_a_desk_takes_signs(path: Path) -> None:
    tree = ast.parse(path.read_text("utf-8"))
    desks = [node for node in ast.walk(tree) if isinstance(node, ast.ClassDef)]
    takers = {
        desk.name
        for desk in desks
        for node in desk.body
        if isinstance(node, ast.FunctionDef) and node.name == "sign"
    }
    assert [name for name in takers if name.endswith("Desk")]


@pytest.mark.parametrize("path", ending_in("view", "overlay"), ids=short)
def test_a_view_is_a_widget(path: Path) -> None:
    assert classes_of(path, Widget)


@pytest.mark.parametrize("path", ending_in("screen"), ids=short)
def test_a_screen_is_one(path: Path) -> None:
    assert classes_of(path, Screen)


def test_no_page_hides_its_screen_in_a_module_of_another_name() -> None:
    pages = [path for path in MODULES if path.is_relative_to(ROOT / "screens" / "pages")]
    assert [short(path) for path in pages if classes_of(path, Screen)] == [
        short(path) for path in pages if ending(path) == "screen"
    ]


def public_types(path: Path) -> Iterator[str]:
    """The classes that a module makes, and the names that it gives to other types."""
    for node in ast.parse(path.read_text("utf-8")).body:
        match node:
            case ast.ClassDef(name=name):
                yield name
            case ast.Assign(targets=[ast.Name(id=name)], value=value) if (
                not name.isupper() and name[0].isupper() and "TypeVar" not in ast.dump(value)
            ):
                yield name


def test_one_name_means_one_type() -> None:
    made = Counter(
        name for path in MODULES for name in public_types(path) if not name.startswith("_")
    )
    assert "LineEntry" in made
    assert "CellRow" in made
    assert [name for name, times in made.items() if times > 1] == []


def test_no_folder_holds_more_than_a_newcomer_can_look_through() -> None:
    held = Counter(path.parent for path in MODULES)
    assert {short(path): n for path, n in held.items() if n > MOST_IN_A_FOLDER} == {}


@pytest.mark.parametrize("path", ROOMS, ids=short)
def test_every_room_says_what_it_holds_what_comes_in_and_whom_it_knows(path: Path) -> None:
    said = ast.get_docstring(ast.parse(path.read_text("utf-8"))) or ""
    about, comes_in, knows = filter(None, said.splitlines())
    assert about.endswith(".")
    assert comes_in.startswith("Comes in: ")
    assert " Goes out: " in comes_in
    assert knows.startswith(("Knows ", "May know "))
