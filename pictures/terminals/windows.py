"""A terminal's window on a screen of its own (Xvfb), and a picture of it."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from shutil import which
from tempfile import TemporaryDirectory

import msgspec
from msgspec import Struct
from PIL import Image, ImageChops, ImageColor, ImageGrab

from pictures.terminals.wall import Facts

ROOT = Path(__file__).parents[2]
_SCREEN = (1700, 1000)
"""The pointer is in its middle, and so over every window: whose that is has the keyboard."""
_NOTHING = "#ff00ff"
"""The colour of the screen where no window is; no wall has it."""
_SAME = 2
"""By so little may a colour be another, of 255."""
_FONT = "DejaVu Sans Mono"
"""In nearly every Debian, and it has no sextants."""
_PATIENCE = 60
"""Seconds until the wall must stand there."""


class Emulator(Struct, frozen=True):
    """How a terminal is started; `{points}`, `{columns}`, `{rows}` and `{font}` are filled in."""

    program: str
    package: str
    arguments: tuple[str, ...]
    files: dict[str, str] = {}
    """What is to stand in its home, by path."""


EMULATORS = {
    "xterm": Emulator(
        "xterm",
        "xterm",
        (
            *("-fa", "{font}", "-fs", "{points}", "-geometry", "{columns}x{rows}+40+40"),
            *("-b", "0", "-bw", "0", "+sb", "-e"),
        ),
    ),
    "rxvt-unicode": Emulator(
        "urxvt",
        "rxvt-unicode",
        (
            *("-fn", "xft:{font}:size={points}", "-geometry", "{columns}x{rows}+40+40"),
            *("-b", "0", "-w", "0", "+sb", "-e"),
        ),
    ),
    "xfce4-terminal": Emulator(
        "xfce4-terminal",
        "xfce4-terminal",
        (
            *("--disable-server", "--font={font} {points}", "--geometry={columns}x{rows}+40+40"),
            *("--hide-menubar", "--hide-borders", "--hide-toolbar", "--hide-scrollbar", "-x"),
        ),
    ),
    "konsole": Emulator(
        "konsole",
        "konsole",
        (
            *("--nofork", "--hide-menubar", "--hide-tabbar", "--separate", "--profile", "Picture"),
            *("-e",),
        ),
        {
            ".local/share/konsole/Picture.profile": (
                "[Appearance]\nFont={font},{points}\n[General]\nName=Picture\nTerminalColumns="
                "{columns}\nTerminalRows={rows}\nTerminalMargin=0\n[Scrolling]\nScrollBarPosition=2\n"
            ),
            ".config/konsolerc": (
                "[KonsoleWindow]\nRememberWindowSize=false\n[MainWindow]\nToolBarsMovable=Disabled\n"
            ),
        },
    ),
    "st": Emulator(
        "st",
        "stterm",
        ("-f", "{font}:size={points}", "-g", "{columns}x{rows}+40+40", "-e"),
    ),
    "alacritty": Emulator(
        "alacritty",
        "alacritty",
        (
            *("-o", "window.dimensions.columns={columns}", "window.dimensions.lines={rows}"),
            *("font.size={points}", "font.normal.family={font}", "-e"),
        ),
    ),
    "kitty": Emulator(
        "kitty",
        "kitty",
        (
            *("-o", "initial_window_width={columns}c", "-o", "initial_window_height={rows}c"),
            *("-o", "remember_window_size=no", "-o", "font_size={points}"),
            *("-o", "font_family={font}", "-o", "window_padding_width=0"),
            *("-o", "update_check_interval=0"),
        ),
    ),
}


class Shot(Struct, frozen=True):
    """What the program says that it painted, and what was seen."""

    facts: Facts
    picture: Image.Image
    """Its cells alone."""


@contextmanager
def screen() -> Iterator[str]:
    """A screen that nobody sees; its name."""
    read, write = os.pipe()
    server = subprocess.Popen(
        [
            *(_found("Xvfb", "xvfb"), "-displayfd", str(write), "-noreset", "-nolisten", "tcp"),
            *("-screen", "0", f"{_SCREEN[0]}x{_SCREEN[1]}x24"),
        ],
        pass_fds=[write],
        stderr=subprocess.DEVNULL,
    )
    os.close(write)
    try:
        with os.fdopen(read) as told:
            name = f":{told.readline().strip()}"
        root = _found("xsetroot", "x11-xserver-utils")
        subprocess.run([root, "-solid", _NOTHING], env={"DISPLAY": name}, check=True)
        yield name
    finally:
        server.terminate()
        server.wait()


def shot(name: str, columns: int, rows: int, display: str, letters: str = "") -> Shot:
    """The wall in that terminal, in a window of this size.

    Raises:
        RuntimeError: the program isn't installed, or the wall doesn't come to stand there.
    """
    emulator = EMULATORS[name]
    with TemporaryDirectory(prefix="terminals-") as home:
        facts = Path(home) / "facts.json"
        filled = {"columns": columns, "rows": rows, "font": _FONT, "points": _points(columns)}
        for path, text in emulator.files.items():
            file = Path(home) / path
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(text.format(**filled), "utf-8")
        program = subprocess.Popen(
            [
                _found(emulator.program, emulator.package),
                *(argument.format(**filled) for argument in emulator.arguments),
                *(sys.executable, "-m", "pictures.terminals.wall", str(facts), letters),
            ],
            env=_environment(home, display),
            cwd=ROOT,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
        try:
            _wait(facts, program, name)
            picture = ImageGrab.grab(xdisplay=display).convert("RGB")
            said = msgspec.json.decode(facts.read_bytes(), type=Facts)
            return Shot(said, _cells(picture, said))
        finally:
            with suppress(ProcessLookupError):
                os.killpg(program.pid, signal.SIGTERM)
            with suppress(subprocess.TimeoutExpired):
                program.wait(5)
            with suppress(ProcessLookupError):
                os.killpg(program.pid, signal.SIGKILL)
            program.wait()


def _found(program: str, package: str) -> str:
    path = which(program)
    if path is None:
        raise RuntimeError(f"{program} is not there: apt-get install {package}")
    return path


def _points(columns: int) -> int:
    """A font so large that the window is about as wide as the screen."""
    return 12 if columns <= 120 else 8


def _environment(home: str, display: str) -> dict[str, str]:
    """Nothing of the terminal that this runs in."""
    return {
        "DISPLAY": display,
        "HOME": home,
        "LANG": "C.UTF-8",
        "LIBGL_ALWAYS_SOFTWARE": "1",
        "PATH": os.environ["PATH"],
        "PYTHONPATH": str(ROOT),
        "XDG_RUNTIME_DIR": home,
    }


def _wait(facts: Path, program: "subprocess.Popen[bytes]", name: str) -> None:
    for _ in range(_PATIENCE * 10):
        if facts.exists():
            time.sleep(1)  # until the terminal, too, has painted it
            return
        if program.poll() is not None:
            raise RuntimeError(f"{name} has ended with {program.returncode}")
        time.sleep(0.1)
    raise RuntimeError(f"{name} has shown no wall within {_PATIENCE} s")


def _cells(picture: Image.Image, facts: Facts) -> Image.Image:
    """The wall's cells alone, without what a terminal puts around them.

    All its edges are of its ground, but those of the status line where there are colours for it.
    """
    ground = ImageColor.getrgb(facts.ground)
    apart = ImageChops.difference(picture, Image.new("RGB", picture.size, ground)).convert("L")
    box = apart.point([255 if light <= _SAME else 0 for light in range(256)]).getbbox()
    if box is None:
        raise RuntimeError("the wall's ground is nowhere to be seen")
    left, top, right, bottom = box
    found = facts.rows if facts.colours == 16 else facts.rows - 1
    return picture.crop((left, top, right, top + (bottom - top) * facts.rows // found))
