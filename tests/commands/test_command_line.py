"""The table of commands, and what holds for all of them."""

import argparse
import re
import subprocess
import sys
from collections.abc import Sequence
from importlib import import_module
from pathlib import Path

import pytest

import classclock.commands
from classclock.commands.book.actions import ACTIONS
from classclock.commands.command_line import COMMANDS, WITHOUT_A_COMMAND
from classclock.commands.shared.command_table import Subcommand
from tests.commands.typed import CommandSays, Typed

ROOM = Path(classclock.commands.__file__).parent
LINES = [
    *((command.name,) for command in COMMANDS),
    *(("book", action.name) for action in ACTIONS),
]


def files(folder: Path) -> set[str]:
    """The modules in this folder, by their names in the room."""
    paths = (path for path in folder.glob("*.py") if path.name != "__init__.py")
    return {".".join(path.relative_to(ROOM).with_suffix("").parts) for path in paths}


def modules(table: Sequence[Subcommand]) -> list[str]:
    return [command.module for command in table]


def test_every_command_has_a_file_and_every_file_a_command() -> None:
    others = {"command_line", WITHOUT_A_COMMAND}
    assert files(ROOM) - others == set(modules(COMMANDS)) - {"book.actions"}
    assert files(ROOM / "book") - {"book.actions"} == set(modules(ACTIONS))


@pytest.mark.parametrize("table", [COMMANDS, ACTIONS])
def test_a_command_is_called_as_its_file(table: Sequence[Subcommand]) -> None:
    for command in table:
        if command.module != "book.actions":
            assert command.module.split(".")[-1].removesuffix("_") == command.name


def test_every_command_says_what_it_does_without_a_full_stop() -> None:
    for command in (*COMMANDS, *ACTIONS):
        assert command.help
        assert not command.help.endswith(".")


def test_every_module_can_be_done() -> None:
    done = {*modules(COMMANDS), *modules(ACTIONS), WITHOUT_A_COMMAND} - {"book.actions"}
    for module in done:
        assert callable(import_module(f"classclock.commands.{module}").do), module


def test_the_list_of_all_has_every_command(command_says: CommandSays) -> None:
    listed = re.findall(r"^    ([a-z]+) ", command_says("--help"), re.MULTILINE)
    assert listed == [command.name for command in COMMANDS]
    listed = re.findall(r"^    ([a-z]+) ", command_says("book", "--help"), re.MULTILINE)
    assert listed == [action.name for action in ACTIONS]


@pytest.mark.parametrize("line", LINES, ids=" ".join)
def test_a_command_says_first_how_it_is_typed_and_what_it_does(
    line: tuple[str, ...], command_says: CommandSays
) -> None:
    usage, does, *_ = command_says(*line, "--help").split("\n\n")
    assert usage.startswith(f"usage: classclock {' '.join(line)} [-h]")
    table = COMMANDS if len(line) == 1 else ACTIONS
    words = next(command.help for command in table if command.name == line[-1])
    if line == ("rehearse",):  # it has more to say
        words = "Play a file of keys through one piece of a plan: at once, with no screen, no sound"
        assert " ".join(does.split()).startswith(words)
    else:
        assert " ".join(does.split()) == f"{words[0].upper()}{words[1:]}."


def test_no_command_knows_another_and_what_they_share_knows_none() -> None:
    known = re.compile(r"^ *from classclock\.commands\.(\w+)", re.MULTILINE)
    for path in ROOM.rglob("*.py"):
        assert set(known.findall(path.read_text("utf-8"))) <= {"shared"}, path


def test_only_the_command_that_is_asked_for_is_loaded() -> None:
    for line, loaded in (
        (["bar", "60"], {"bar"}),
        (["--club", "nowhere", "bar", "60"], {"bar"}),
        (["book", "--help"], {"book.actions"}),
        (["--help"], set()),
    ):
        asked = (
            "import sys, contextlib\n"
            "from classclock.commands.command_line import main\n"
            f"with contextlib.suppress(SystemExit): main({line})\n"
            "print(' '.join(sys.modules))"
        )
        done = subprocess.run(
            [sys.executable, "-c", asked], capture_output=True, text=True, check=True, timeout=60
        )
        names = done.stdout.splitlines()[-1].split()
        commands = {name.removeprefix("classclock.commands.") for name in names}
        assert commands & {*modules(COMMANDS), *modules(ACTIONS), WITHOUT_A_COMMAND} == loaded


@pytest.mark.parametrize(
    "line",
    [
        ["--club", "{club}", "check", "turntable"],
        ["check", "turntable", "--club", "{club}"],
        ["--club", "elsewhere", "check", "turntable", "--club", "{club}"],
        ["--club", "{club}", "run", "turntable"],
        ["resume", "--club", "{club}"],
        ["--club", "{club}"],
        ["--club", "{club}", "book", "undo"],
    ],
)
def test_the_clubs_folder_can_be_named_before_the_command_or_behind_it(
    line: list[str], typed: Typed, tmp_path: Path
) -> None:
    (tmp_path / "club.toml").write_text('unit = "stone"\nvolum = 3\n', "utf-8")
    said = typed(*(word.format(club=tmp_path) for word in line))
    assert said.status == 1
    assert f"{tmp_path}/club.toml:1" in said.err
    assert f"{tmp_path}/club.toml:2" in said.err
    assert said.out == ""


@pytest.mark.parametrize(
    "module", sorted({*modules(COMMANDS), *modules(ACTIONS)} - {"book.actions", "demo"})
)
def test_the_club_can_be_named_behind_every_command(module: str) -> None:
    # The sample class has a folder of its own.
    parser = argparse.ArgumentParser()
    import_module(f"classclock.commands.{module}").add_arguments(parser)
    assert "[--club DIR]" in parser.format_usage()


def test_without_a_folder_named_the_usual_one_serves(
    typed: Typed, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(tmp_path))
    said = typed("results")
    assert said.status == 1
    assert said.err.startswith(f"no results in {tmp_path}/results yet")


@pytest.mark.parametrize(
    "line",
    [["--speed"], ["load"], ["run", "turntable", "--speed", "0"], ["dance"], ["check"], ["book"]],
)
def test_bad_use_ends_with_status_2(line: list[str], typed: Typed) -> None:
    said = typed(*line)
    assert said.status == 2
    assert "usage: classclock" in said.err
    assert "Traceback" not in said.err


def test_joined_picture_signs_stay_joined_in_what_is_refused(typed: Typed) -> None:
    sign = "\U0001f469\u200d\U0001f692"
    said = typed("book", "mark", "Ilse", sign)
    assert said.status == 2
    assert f"'{sign}'" in said.err
