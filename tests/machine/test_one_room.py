"""Which system it is is asked in one room alone, so that there is one place to put it right."""

import ast
from pathlib import Path

import classclock

PROGRAM = Path(classclock.__file__).parent
ASKING = {("sys", "platform"), ("os", "name"), ("platform", "system"), ("os", "uname")}
NOT_EVERYWHERE = {"fcntl", "msvcrt", "winreg", "termios", "tty", "pty", "pwd", "resource", "ctypes"}


def asked_in(path: Path) -> list[str]:
    """What in that module goes by the system it runs on."""
    found = []
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        match node:
            case ast.Attribute(value=ast.Name(id=module), attr=name) if (module, name) in ASKING:
                found.append(f"{path.name}:{node.lineno}: {module}.{name}")
            case ast.Import(names=names):
                modules = {alias.name.partition(".")[0] for alias in names}
                found += [f"{path.name}: {name}" for name in modules & NOT_EVERYWHERE]
            case ast.ImportFrom(module=str(module)) if module.partition(".")[0] in NOT_EVERYWHERE:
                found.append(f"{path.name}: {module}")
    return found


def test_the_systems_are_told_apart_in_the_machine_s_room_alone() -> None:
    elsewhere = [path for path in PROGRAM.rglob("*.py") if path.parent.name != "machine"]
    assert len(elsewhere) > 300
    assert [said for path in elsewhere for said in asked_in(path)] == []


def test_they_are_told_apart_there() -> None:
    here = [said for path in (PROGRAM / "machine").glob("*.py") for said in asked_in(path)]
    assert len(here) > 5, "or the test above looks for nothing"
