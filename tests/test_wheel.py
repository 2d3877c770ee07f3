"""What is installed, not what is checked out: the sounds and the sample plans are in the wheel."""

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    subprocess.run(
        [
            *(sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps"),
            *("--wheel-dir", str(folder), str(ROOT)),
        ],
        check=True,
        timeout=300,
    )
    (built,) = folder.glob("classclock-*.whl")
    return built


def test_the_wheel_carries_every_sound_and_sample_plan(wheel: Path) -> None:
    packed = set(zipfile.ZipFile(wheel).namelist())
    for folder, ending in (("sounds", "*.wav"), ("plans", "*.toml")):
        wanted = {
            f"classclock/bundled/{folder}/{path.name}" for path in (ROOT / folder).glob(ending)
        }
        assert wanted
        assert wanted <= packed


def test_the_wheel_carries_styles_movements_letters_and_type_marker_and_no_tests(
    wheel: Path,
) -> None:
    packed = set(zipfile.ZipFile(wheel).namelist())
    source = ROOT / "classclock"
    endings = ("*.tcss", "*.txt", "*.jinja", "*.css")
    kept = {path.relative_to(ROOT).as_posix() for one in endings for path in source.rglob(one)}
    assert "classclock/screens/live/class_screen.tcss" in kept
    assert kept | {"classclock/py.typed"} <= packed
    assert not {name for name in packed if name.startswith(("tests/", "benchmarks/", "readable/"))}


def test_an_installed_copy_rehearses_a_sample_plan_from_any_folder(
    wheel: Path, tmp_path: Path
) -> None:
    installed = tmp_path / "site"
    zipfile.ZipFile(wheel).extractall(installed)
    (tmp_path / "taps.csv").write_text("61,n\n", "utf-8")
    done = subprocess.run(
        [
            *(sys.executable, "-P", "-m", "classclock", "rehearse", "turntable"),
            *("--segment", "Turntable", "--athletes", "Noor", "--taps", "taps.csv"),
        ],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(installed)},
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    assert done.returncode == 0, done.stderr
    assert "1+0" in done.stdout
