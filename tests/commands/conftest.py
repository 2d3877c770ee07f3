"""Command lines as a coach types them, and clubs to type them in."""

from pathlib import Path
from typing import Any

import pytest

from classclock.commands.command_line import main
from tests.commands.typed import CommandSays, Said, Typed


@pytest.fixture
def typed(capsys: pytest.CaptureFixture[str]) -> Typed:
    def run(*words: str) -> Said:
        try:
            status = main(words)
        except SystemExit as ended:
            status = int(str(ended.code))
        return Said(status, *capsys.readouterr())

    return run


@pytest.fixture
def command_says(typed: Typed) -> CommandSays:
    def run(*words: str) -> str:
        said = typed(*words)
        assert said.status == 0, said.err
        return said.out

    return run


@pytest.fixture
def club_with_plates(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The club of the worked examples; its folder."""
    (tmp_path / "club.toml").write_text(
        "kettlebells = [8, 12]\ndumbbells = [5]\n"
        '[[bar]]\nname = "Long bar"\nweight = 20\ncount = 4\n'
        "[plates]\n"
        'pairs = { "20" = 1, "15" = 2, "10" = 1, "5" = 1, "2.5" = 1, "1.25" = 2 }\n',
        encoding="utf-8",
    )
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(tmp_path))
    return tmp_path


@pytest.fixture
def club_with_classes(depot: Any, storage: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Two classes were held, and the book is on each kind of storage."""
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(depot.folder))
    monkeypatch.setenv("COLUMNS", "100")
    depot.held(
        "2020-01-07",
        depot.turntable(
            depot.rounds("Ilse", 7, 12),
            depot.rounds("Bram", 6, 3, modification="step-up"),
        ),
        depot.squats(depot.lifted("Ilse", "60 kg", "70 kg")),
    )
    depot.held("2020-01-14", depot.turntable(depot.rounds("Ilse", 8, 3)))


@pytest.fixture
def old_scores(tmp_path: Path) -> Path:
    """A club's old spreadsheet."""
    path = tmp_path / "old.csv"
    path.write_text(
        "name,benchmark,score,date\n"
        "Ilse,Turntable,9+1,2020-02-01\n"
        "Odell,Turntable,8+0,2020-02-01\n"
        "Odell,Front squat,185 lb,2020-03-01\n",
        "utf-8",
    )
    return path
